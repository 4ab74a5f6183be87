package live

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/whatif"
)

// What a rule holds against one place in three modes stands once, with its modes; what another
// rule says there, or it of another place, stands by itself.
func TestFindingsAreGatheredByMode(t *testing.T) {
	at := func(line int) graph.Pos { return graph.Pos{File: "a.toml", Line: line, Column: 1} }
	say := func(line int, rule, mode, words, hint string) graph.Diagnostic {
		return graph.Diagnostic{Pos: at(line), Rule: rule, Mode: mode, Message: graph.Say("mode %q: %s", mode, words), Hint: graph.Say("%s", hint), Severity: graph.Warning}
	}
	ds := []graph.Diagnostic{
		say(1, "flow", "a", "too little", "more"), say(1, "flow", "b", "too little", "more"), say(1, "flow", "c", "far too little", "more"),
		say(1, "other", "a", "too little", ""), say(2, "flow", "a", "too little", "much more"),
		{Pos: at(2), Rule: "flow", Message: "of no mode", Severity: graph.Warning}, {Pos: at(2), Rule: "flow", Message: "of none either", Severity: graph.Warning},
	}
	got := FindingsHTML(&whatif.Job{File: "a.toml", Text: []byte("one\ntwo\n")}, ds, quantity.MetricSystem)
	if n := strings.Count(got, `<div class="finding">`); n != 5 || !strings.Contains(got, "5 warnings") {
		t.Errorf("%d findings, want 5:\n%s", n, got)
	}
	for words, times := range map[string]int{
		`modes &#34;a&#34; and &#34;b&#34;: too little<br>`: 1, `mode &#34;c&#34;: far too little</b>`: 1, `mode &#34;a&#34;: too little</b>`: 2, ">more</p>": 1, "of none either": 1,
	} {
		if n := strings.Count(got, words); n != times {
			t.Errorf("%q stands %d times, want %d:\n%s", words, n, times, got)
		}
	}
}
