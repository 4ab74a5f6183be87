//go:build ignore

// Generate writes notices.txt: the licence files of Go and of every module that is linked on
// any of the systems, and those of what the modules carry in them, from texts.
package main

import (
	"bytes"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// systems are those the command is built for.
var systems = []string{"linux/amd64", "windows/amd64", "darwin/arm64"}

func main() {
	var b bytes.Buffer
	add := func(name string, files ...string) {
		fmt.Fprintf(&b, "%s\n%s\n%s\n\n", strings.Repeat("#", 80), name, strings.Repeat("#", 80))
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				log.Fatal(err)
			}
			b.Write(bytes.TrimSpace(bytes.ReplaceAll(data, []byte("\r"), nil)))
			b.WriteString("\n\n")
		}
	}
	add("Go, its library and runtime", filepath.Join(output("go", "env", "GOROOT"), "LICENSE"))
	add("Graphviz", "texts/graphviz.txt")
	add("go-graphviz", "texts/go-graphviz.txt")
	add("Expat", "texts/expat.txt")
	add("wasi-libc", "texts/wasi-libc.txt")
	for _, m := range modules() {
		name, dir, _ := strings.Cut(m, "\t")
		files := licences(dir)
		if len(files) == 0 {
			log.Fatalf("%s has no licence", name)
		}
		add(name, files...)
	}
	if err := os.WriteFile("notices.txt", append(bytes.TrimSpace(b.Bytes()), '\n'), 0o644); err != nil {
		log.Fatal(err)
	}
}

// modules lists the path, version and folder of every module linked, sorted.
func modules() []string {
	var out []string
	for _, s := range systems {
		system, processor, _ := strings.Cut(s, "/")
		cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "dryfit/cmd/dryfit")
		cmd.Env = append(os.Environ(), "GOOS="+system, "GOARCH="+processor, "CGO_ENABLED=0")
		cmd.Stderr = os.Stderr
		list, err := cmd.Output()
		if err != nil {
			log.Fatal(err)
		}
		for line := range strings.Lines(string(list)) {
			if line = strings.TrimSpace(line); line != "" {
				out = append(out, line)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// licences lists the files of a module that say under what terms it may be used.
func licences(dir string) []string {
	var out []string
	for _, in := range []string{dir, filepath.Join(dir, "licenses")} {
		entries, _ := os.ReadDir(in) // the second is seldom there
		for _, e := range entries {
			name := strings.ToUpper(e.Name())
			for _, word := range []string{"LICENSE", "LICENCE", "COPYING", "NOTICE", "PATENTS"} {
				if !e.IsDir() && strings.HasPrefix(name, word) {
					out = append(out, filepath.Join(in, e.Name()))
				}
			}
		}
	}
	if entries, err := os.ReadDir(filepath.Join(dir, "licenses")); err == nil { // of any name
		for _, e := range entries {
			if strings.Contains(strings.ToLower(e.Name()), "gpl") {
				continue // a choice that is not made
			}
			out = append(out, filepath.Join(dir, "licenses", e.Name()))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func output(name string, args ...string) string {
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		log.Fatal(err)
	}
	return strings.TrimSpace(string(out))
}
