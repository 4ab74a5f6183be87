package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
)

// No PowerShell ran here: what its script takes for a word that needs no quotes is held against
// the words there are. PowerShell reads a blank, a comma and ()<>|&;{}@#$ and quotes as something
// else than a part of a word (its page about_Parsing; common practice).
func TestPowerShellQuotes(t *testing.T) {
	script, err := completionFiles.ReadFile("completion/powershell")
	if err != nil {
		t.Fatal(err)
	}
	text := string(script)
	found := regexp.MustCompile(`\$text -match '([^']+)'`).FindStringSubmatch(text)
	if found == nil {
		t.Fatal("the script quotes nothing")
	}
	plain := regexp.MustCompile(found[1])
	for _, word := range []string{"check", "--view=sketch", "pvc-sch40", "./jobs/tub.toml", `jobs\tub.toml`, `C:\jobs\tub.toml`, "-o"} {
		if !plain.MatchString(word) {
			t.Errorf("%q gets quotes", word)
		}
	}
	words := []string{"pump.out>filter.in", "my tub.toml", "tub's.toml", "a,b", "$x", "@x", "#x", "a;b", "a|b", "(x)", "{x}", "a`b", `"x"`, ""}
	for _, row := range catalog.Embedded().Rows() {
		if strings.Contains(row.Name, " ") {
			words = append(words, row.Name)
		}
	}
	for _, word := range words {
		if plain.MatchString(word) {
			t.Errorf("%q gets no quotes", word)
		}
	}
	if !strings.Contains(text, `"'" + $text.Replace("'", "''") + "'"`) {
		t.Error("a quote in a word is not doubled")
	}
	for _, pair := range []string{"{}", "()", "[]"} {
		if a, b := strings.Count(text, pair[:1]), strings.Count(text, pair[1:]); a != b {
			t.Errorf("%d %q and %d %q", a, pair[:1], b, pair[1:])
		}
	}
	for _, word := range []string{"param($wordToComplete, $commandAst, $cursorPosition)", "__complete", ":files", "-LiteralPath"} {
		if !strings.Contains(text, word) {
			t.Errorf("the script lacks %s", word)
		}
	}
}

// A native completer of PowerShell is given the elements of the command with where each stands on
// the line, quotes and all, and the place of the cursor (documentation of Register-ArgumentCompleter,
// -Native). The script counts those that end before the cursor as done, without their quotes, the
// one the cursor stands in up to there, and asks with ":" where that is nothing. What is answered
// to lines so taken apart; the cursor is where the bar stands.
func TestPowerShellAsks(t *testing.T) {
	for _, c := range []struct {
		line string
		some []string // among the answers
		only bool     // and no others
	}{
		{"dryfit che|", []string{"check"}, true},
		{"dryfit |", []string{"check", "pack", "help"}, false},
		{"dryfit che| job.toml", []string{"check"}, true},
		{"dryfit check --expl|", []string{"--explain"}, true},
		{"dryfit check --explain cut-re|", []string{"cut-reachable"}, true},
		{"dryfit draw --view=sche|", []string{"--view=schematic"}, true},
		{"dryfit draw --view |", []string{"schematic", "isometric"}, false},
		{"dryfit draw --view sche|matic job.toml", []string{"schematic"}, true},
		{"dryfit check 'my t|", []string{filesWanted}, true},
		{"dryfit check 'my tub.toml' |", nil, true}, // one file is all it takes,
		{"dryfit catalog show 'elbow-90 pvc-sch40 2-|", []string{"elbow-90 pvc-sch40 2-1/2 in"}, true},
		{"dryfit new --circuit plun|", []string{"plunge-pool"}, true},
		{"dryfit completion |", []string{"bash", "zsh", "fish", "powershell"}, true},
	} {
		args := asksOfPowerShell(c.line)
		out, err := os.Create(filepath.Join(t.TempDir(), "out"))
		if err != nil {
			t.Fatal(err)
		}
		w := &world.World{Stdout: &world.Stream{File: out, Before: func() {}}, Stderr: &world.Progress{To: out}, Getenv: func(string) string { return "" }, Files: &disk.Files{Stdin: os.Stdin}}
		code := printCandidates(args, w)
		text, err := os.ReadFile(out.Name())
		if code != world.Done || out.Close() != nil || err != nil {
			t.Fatalf("%s: %d, %v", c.line, code, err)
		}
		got := strings.Fields(strings.ReplaceAll(string(text), " ", "_"))
		for _, want := range c.some {
			if want = strings.ReplaceAll(want, " ", "_"); !slices.Contains(got, want) {
				t.Errorf("%s asks %q: %q is not among %q", c.line, args, want, got)
			}
		}
		if c.only && len(got) != len(c.some) {
			t.Errorf("%s asks %q: %q, want only %q", c.line, args, got, c.some)
		}
	}
}

// asksOfPowerShell is what the script for PowerShell asks __complete at the bar in a line.
func asksOfPowerShell(line string) []string {
	cursor := strings.IndexByte(line, '|')
	line = line[:cursor] + line[cursor+1:]
	var done []string
	word := ""
	for _, at := range regexp.MustCompile(`'[^']*'?|\S+`).FindAllStringIndex(line, -1)[1:] {
		switch {
		case at[1] < cursor:
			done = append(done, strings.Trim(line[at[0]:at[1]], "'"))
		case at[0] < cursor:
			word = strings.Trim(line[at[0]:cursor], "'")
		}
	}
	if word == "" {
		word = ":"
	}
	return append(done, word)
}
