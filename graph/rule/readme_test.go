package rule_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"dryfit/graph/golden"
	"dryfit/graph/rule"
)

// TestReadmeTable fails when the table in the README is not that of the rules; with -update
// it writes it.
func TestReadmeTable(t *testing.T) {
	const file = "../../README.md"
	const begin, end = "<!-- rules begin -->\n", "<!-- rules end -->\n"
	text := string(read(t, file))
	before, rest, ok := strings.Cut(text, begin)
	_, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		t.Fatalf("%s has no %q and %q", file, begin, end)
	}
	want := before + begin + rule.Table() + end + after
	if text == want {
		return
	}
	if !golden.Updating() {
		t.Fatalf("the table of rules in %s is not current: go generate ./graph/rule", file)
	}
	if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestTableHasEveryRule demands one line with four cells for each rule.
func TestTableHasEveryRule(t *testing.T) {
	lines := bytes.Split(bytes.TrimSpace([]byte(rule.Table())), []byte("\n"))
	all := rule.All()
	if len(lines) != len(all)+2 {
		t.Fatalf("%d lines for %d rules, want two more", len(lines), len(all))
	}
	for i, r := range all {
		line := strings.ReplaceAll(string(lines[i+2]), `\|`, "")
		if !strings.HasPrefix(line, "| `"+r.Name+"` | "+r.Severity.String()+" | ") || strings.Count(line, "|") != 5 {
			t.Errorf("line %d is not that of %s: %s", i+2, r.Name, line)
		}
	}
}
