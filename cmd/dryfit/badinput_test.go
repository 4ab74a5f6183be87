package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
)

// outcome is what one command line came to.
type outcome struct {
	code        int
	stdout, err string
}

// commanded runs a command line in the folder the test is in.
func commanded(t *testing.T, args ...string) outcome {
	t.Helper()
	dir := t.TempDir()
	stream := func(name string) *os.File {
		f, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	out, complaint := stream("out"), stream("err")
	defer out.Close()
	defer complaint.Close()
	w := &world.World{Stdout: &world.Stream{File: out, Before: func() {}}, Stderr: &world.Progress{To: complaint},
		Getenv: func(string) string { return "" }, Files: &disk.Files{Stdin: strings.NewReader("")}}
	code := w.End(run(args, w))
	read := func(f *os.File) string {
		text, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	return outcome{code: code, stdout: read(out), err: read(complaint)}
}

// usual is a command line of each verb that is right, without its flags: what the wrong ones are
// made from. A verb that is not in it fails the test.
var usual = map[string][]string{
	"new": {"new.toml"}, "check": {"job.toml"}, "cutin": {"job.toml"}, "flow": {"job.toml"}, "heat": {"job.toml"}, "match": {"job.toml"},
	"parts": {"job.toml"}, "cuts": {"job.toml"}, "draw": {"job.toml"}, "pack": {"job.toml", "-o", "out"}, "serve": {"job.toml"}, "quote": {"job.toml"},
	"show": {"job.toml"}, "catalog": {"list", "elbow"}, "schema": nil, "format": {"job.toml"}, "completion": {"bash"}, "version": nil,
}

// chosen are flags whose value is one of a few, or is read as an amount: no word will do.
var chosen = map[string]bool{"format": true, "units": true, "paper": true, "view": true, "circuit": true, "air": true, "humidity": true, "wind": true,
	"from": true, "to": true, "day": true, "kerf": true, "explain": true}

// files are flags that name a file or folder which is read.
var files = map[string]bool{"catalog": true, "pieces": true, "against": true, "since": true}

// Whatever is wrong of a command line, of any verb and any of its flags, is told on standard error
// with what would be right; nothing is printed, nothing is written, and the code is that of wrong
// use, or of a description with errors.
func TestBadInput(t *testing.T) {
	job, err := os.ReadFile("../../testdata/plug-in.toml") // planned soonest: where a file can't be written is found once all is worked out
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	there := map[string][]byte{"job.toml": job, "empty.toml": nil, "binary.toml": bytes.Repeat([]byte{0, 0xd6, 0xff, '\n'}, 400)}
	for name, data := range there {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir("folder", 0o700); err != nil {
		t.Fatal(err)
	}
	refused := func(codes string, args ...string) {
		t.Helper()
		got := commanded(t, args...)
		line := strings.Join(args, " ")
		if !strings.Contains(codes, string(rune('0'+got.code))) {
			t.Errorf("%s: exit %d, not %s\n%s%s", line, got.code, codes, got.stdout, got.err)
		}
		if got.code == world.WrongUse && (got.stdout != "" || !strings.HasPrefix(got.err, "dryfit: ")) {
			t.Errorf("%s: prints %q and complains %q", line, got.stdout, got.err)
		}
		if got.stdout == "" && len(got.err) < 20 {
			t.Errorf("%s: says only %q", line, got.err)
		}
		left, err := os.ReadDir(".")
		if err != nil || len(left) != len(there)+1 {
			t.Fatalf("%s: leaves %v, %v", line, left, err)
		}
	}
	const wrong, faulty = "2", "12"
	for _, v := range verbs() {
		base, known := usual[v.name]
		if !known {
			t.Errorf("%s has no command line here", v.name)
			continue
		}
		of := func(more ...string) []string { return append(append([]string{v.name}, more...), base...) }
		refused(wrong, of("--no-such-flag")...)
		w := &world.World{Getenv: func(string) string { return "" }, Files: &disk.Files{}}
		flags := v.itsFlags(w)
		if flags == nil {
			continue
		}
		flags.VisitAll(func(f *pflag.Flag) {
			name := "--" + f.Name
			switch {
			case f.NoOptDefVal != "":
				refused(wrong, of(name+"=perhaps")...)
				refused(wrong, of(name, name)...)
				return
			case f.Value.Type() == "int":
				refused(wrong, of(name, "many")...)
			case f.Value.Type() == "string":
				refused(wrong, of(name, "", name, "")...)
				refused(wrong, of(name, "x", name, "x")...)
			}
			refused(wrong, of(name, "")...)
			refused(wrong, append(of(), name)...)
			if chosen[f.Name] {
				refused(wrong, of(name, "no-such-word")...)
			}
			if files[f.Name] && v.name != "serve" { // it shows in the page what is wrong
				for _, file := range []string{"nowhere", "folder"} {
					refused(wrong, of(name, file)...)
				}
				refused(faulty, of(name, "binary.toml")...)
			}
			if f.Name == "output" && v.name != "pack" || f.Name == "write-plan" {
				refused(wrong, of(name, "folder")...)
				refused(wrong, of(name, filepath.Join("nowhere", "file"))...)
			}
		})
		if len(base) == 0 || base[0] != "job.toml" {
			refused(wrong, append(of(), "one", "two", "three")...)
			continue
		}
		rest := append([]string{v.name}, base[1:]...)
		if v.name == "serve" {
			refused(wrong, of("job.toml", "job.toml")...)
			continue
		}
		refused(wrong, rest...)
		for _, file := range []string{"nowhere.toml", "folder", ""} {
			refused(wrong, append(rest, file)...)
		}
		refused(faulty, append(rest, "binary.toml")...)
		if v.name != "format" { // nothing to lay out
			refused(faulty, append(rest, "empty.toml")...)
		}
		if v.name != "match" {
			refused(wrong, of("job.toml", "job.toml")...)
		}
	}
	for _, args := range [][]string{
		{"chek"}, {"help", "chek"}, {"show", "job.toml", "no-such-part"}, {"catalog", "lst"}, {"catalog", "show", "no-such-row"}, {"completion", "tcsh"},
		{"check", "--explain", "no-such-rule"}, {"new", "--circuit", "circulating", "new.toml"}, {"new", "job.toml"}, {"new", "folder"}, {"cuts", "--pieces", "job.toml"},
		{"draw", "--dpi", "10", "-o", "x.png", "job.toml"},
		{"pack", "job.toml"}, {"pack", "job.toml", "-o", "job.toml"}, {"cutin", "--as-built", "job.toml"}, {"quote", "--against", "job.toml"},
		{"cutin", "--write-plan", "job.toml", "job.toml"}, {"parts", "-o", "job.toml", "job.toml"},
	} {
		refused(wrong, args...)
	}
	refused(faulty, "cuts", "--pieces", "binary.toml", "--stock", "3 m")
}

// A file's name may hold what a terminal obeys: whatever is said of it, of what went well too, shows that.
func TestNamesAreShown(t *testing.T) {
	demo, err := filepath.Abs("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	const job, folder = "j\x1b[31m.toml", "p\x1b[31m"
	for _, args := range [][]string{
		{"new", job}, {"new", job}, {"new", "--circuit", "plug-in", "--survey", "s\x1b[31m.pdf"}, {"format", job}, {"check", job}, {"flow", "no" + job},
		{"pack", demo, "-o", folder}, {"draw", demo, "--view", "schematic", "-o", folder},
	} {
		got := commanded(t, args...)
		said := got.stdout + got.err
		if _, obeyed, raw := strings.Cut(said, "\x1b"); raw || !strings.Contains(said, `\x1b[31m`) {
			t.Errorf("%q: exit %d, says raw %.60q", args, got.code, obeyed)
		}
	}
}
