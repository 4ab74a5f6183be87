package main

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog"
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
