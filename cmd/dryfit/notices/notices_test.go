package notices

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Every module that is linked, by the build system's own word, has a notice with its version
// and the words of a licence, and so has what the modules carry in them.
func TestComplete(t *testing.T) {
	sections := map[string]string{}
	rule := strings.Repeat("#", 80) + "\n"
	parts := strings.Split(Text, rule)
	for i := 1; i+1 < len(parts); i += 2 {
		sections[strings.TrimSpace(parts[i])] = parts[i+1]
	}
	want := []string{"Go, its library and runtime", "Graphviz", "go-graphviz", "Expat", "wasi-libc"}
	for _, system := range []string{"linux", "windows", "darwin"} {
		cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", "dryfit/cmd/dryfit")
		cmd.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0", "GOFLAGS=")
		list, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s: %v", system, err)
		}
		for line := range strings.Lines(string(list)) {
			if line = strings.TrimSpace(line); line != "" {
				want = append(want, line)
			}
		}
	}
	linked := map[string]bool{}
	for _, name := range want {
		linked[name] = true
		text := strings.ToLower(sections[name])
		if !strings.Contains(text, "copyright") || !strings.Contains(text, "licen") && !strings.Contains(text, "permission") && !strings.Contains(text, "redistribution") {
			t.Errorf("%s has no notice; go generate ./... writes it", name)
		}
	}
	for name := range sections {
		if !linked[name] {
			t.Errorf("%s has a notice and is not linked", name)
		}
	}
	for _, words := range []string{"Eclipse Public License - v 1.0", "Bitstream Vera", "Go Authors", "Apache License"} {
		if !strings.Contains(Text, words) {
			t.Errorf("the notices lack %q", words)
		}
	}
}
