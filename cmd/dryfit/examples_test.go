package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/graph/lots"
)

var (
	readmeLine   = regexp.MustCompile(`(?m)^    (?:\./dryfit|go run \./cmd/dryfit) (.+)$`)
	readmeInline = regexp.MustCompile("`dryfit ([^`]+)`")
	placeholder  = regexp.MustCompile(`\b[A-Z]{3,}\b`)
	words        = regexp.MustCompile(`"[^"]*"|\S+`)
)

// examples are the command lines of every verb's help and of the README that name all they want:
// without "dryfit" before them.
func examples(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, v := range verbs() {
		for _, line := range strings.Split(v.example, "\n") {
			out = append(out, strings.TrimPrefix(line, "dryfit "))
		}
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range readmeLine.FindAllStringSubmatch(string(readme), -1) {
		out = append(out, m[1])
	}
	for _, m := range readmeInline.FindAllStringSubmatch(string(readme), -1) {
		if strings.Contains(m[1], ".") || strings.HasPrefix(m[1], "catalog ") { // with the file it wants
			out = append(out, m[1])
		}
	}
	kept := out[:0]
	for _, line := range out {
		line, _, _ = strings.Cut(line, "  #")
		if !placeholder.MatchString(line) && !strings.ContainsAny(line, "|(…<") && !strings.HasPrefix(line, "serve") {
			kept = append(kept, line)
		}
	}
	return kept
}

// Every command line that the help of a verb or the README shows runs, on a demo as job.toml: a
// new user pastes them. The verbs that take long get the demo that takes a third of the time, with
// -wide the same as the others.
func TestExamplesRun(t *testing.T) {
	all := examples(t)
	if len(all) < 40 {
		t.Fatalf("only %d command lines are shown", len(all))
	}
	usualDemo, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	quickDemo, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	const row = "[[union]]\nname = \"union of mine\"\nsize = \"2 in\"\nends = \"socket\"\nlength = \"60 mm\"\nsocket = \"38 mm\"\nsource = \"measured on the part\"\n"
	root := t.TempDir()
	seen := map[string]bool{}
	for _, line := range all {
		if seen[line] {
			continue
		}
		seen[line] = true
		folder, err := os.MkdirTemp(root, "")
		if err != nil {
			t.Fatal(err)
		}
		t.Chdir(folder)
		demo := usualDemo
		if verb, _, _ := strings.Cut(line, " "); slices.Contains([]string{"flow", "quote", "draw", "pack"}, verb) && !lots.All() {
			demo = quickDemo
		}
		if !strings.HasPrefix(line, "new ") {
			write := map[string]string{"pieces.csv": "length,quantity\n1200 mm,2\n", "units.toml": row, "my-fittings.toml": row}
			write["list.csv"] = write["pieces.csv"]
			for _, name := range []string{"job.toml", "large.toml", "small.toml", "large-tub.toml", "small-tub.toml", "larger.toml", filepath.Join("testdata", "two-speed.toml")} {
				write[name] = string(demo)
			}
			if err := os.Mkdir("testdata", 0o700); err != nil {
				t.Fatal(err)
			}
			for name, text := range write {
				if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
			}
		}
		var args []string
		for _, w := range words.FindAllString(line, -1) {
			args = append(args, strings.Trim(w, `"`))
		}
		got := commanded(t, args...)
		if got.code != 0 {
			t.Errorf("dryfit %s: exit %d\n%s", line, got.code, got.err)
		}
		for i, a := range args {
			if (a == "-o" || a == "--write-plan") && i+1 < len(args) {
				if _, err := os.Stat(args[i+1]); err != nil {
					t.Errorf("dryfit %s: %v", line, err)
				}
			}
		}
	}
}
