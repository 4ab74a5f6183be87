package located

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

func TestRender(t *testing.T) {
	at := func(line, column int) graph.Pos { return graph.Pos{File: "f.toml", Line: line, Column: column} }
	source := "a = 1\n\tä\tb = \"x\"\r\n" + strings.Repeat("w", 150) + "!" + strings.Repeat("w", 100) + "\n\x1b[31m\n"
	for name, c := range map[string]struct {
		d    graph.Diagnostic
		want string
	}{
		"plain": {
			graph.Diagnostic{Pos: at(1, 5), Rule: "reading", Severity: graph.Error, Message: "no", Hint: "yes", Related: []graph.Related{{Pos: at(2, 1), Message: "see"}}},
			"f.toml:1:5: error: no [reading]\n    a = 1\n        ^\n    hint: yes\n    f.toml:2:1: see\n",
		},
		// A tab goes to the next stop of four: "\tä\tb" is 4 + 1 + 3 wide before the b.
		"tabs and CR": {
			graph.Diagnostic{Pos: at(2, 4), Rule: "r", Severity: graph.Warning, Message: "m"},
			"f.toml:2:4: warning: m [r]\n        ä   b = \"x\"\n            ^\n",
		},
		"end of line": {
			graph.Diagnostic{Pos: at(1, 6), Rule: "r", Severity: graph.Note, Message: "m"},
			"f.toml:1:6: note: m [r]\n    a = 1\n         ^\n",
		},
		"long line": {
			graph.Diagnostic{Pos: at(3, 151), Rule: "r", Severity: graph.Error, Message: "m"},
			"f.toml:3:151: error: m [r]\n    …" + strings.Repeat("w", 60) + "!" + strings.Repeat("w", 39) + "…\n    " + strings.Repeat(" ", 61) + "^\n",
		},
		"inert": {
			graph.Diagnostic{Pos: at(4, 2), Rule: "r", Severity: graph.Error, Message: "say \x1b[0m"},
			"f.toml:4:2: error: say \\x1b[0m [r]\n    �[31m\n     ^\n",
		},
		"other file": {
			graph.Diagnostic{Pos: graph.Pos{File: "g.toml", Line: 1, Column: 1}, Rule: "r", Message: "m"},
			"g.toml:1:1: note: m [r]\n",
		},
		"no place": {
			graph.Diagnostic{Rule: "r", Severity: graph.Error, Message: "m"},
			"description: error: m [r]\n",
		},
	} {
		if got := Render([]graph.Diagnostic{c.d}, map[string][]byte{"f.toml": []byte(source)}, quantity.MetricSystem, false); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
	coloured := Render([]graph.Diagnostic{{Pos: at(1, 1), Rule: "r", Severity: graph.Error, Message: "m"}}, map[string][]byte{"f.toml": []byte(source)}, quantity.MetricSystem, true)
	if !strings.Contains(coloured, "\x1b[1;31merror:\x1b[0m") {
		t.Errorf("no colour in %q", coloured)
	}
}
