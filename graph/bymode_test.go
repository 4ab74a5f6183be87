package graph

import (
	"slices"
	"testing"

	"dryfit/catalog/quantity"
)

// What is said of several modes is one finding; what is of another rule, place or weight, or of
// no mode, stays by itself.
func TestByMode(t *testing.T) {
	at, other := Pos{File: "a.toml", Line: 3, Column: 1}, Pos{File: "a.toml", Line: 9, Column: 1}
	say := func(rule string, s Severity, p Pos, mode, words, hint string) Diagnostic {
		return Diagnostic{Pos: p, Rule: rule, Severity: s, Mode: mode, Message: quantity.Text(words), Hint: quantity.Text(hint)}
	}
	ds := []Diagnostic{
		say("x", Error, at, "", `nothing of a mode`, ""),
		say("x", Error, at, "high", `mode "high": it gets too little`, "give it more"),
		say("x", Error, at, "low", `mode "low": it gets too little`, "give it more"),
		say("x", Error, at, "quiet", `mode "quiet": it gets nothing`, "open a valve"),
		say("x", Warning, at, "low", `mode "low": it gets too little`, ""),
		say("y", Warning, at, "low", `mode "low": it is loud`, ""),
		say("y", Warning, other, "low", `mode "low": it is loud`, ""),
		{Pos: other, Rule: "reading", Severity: Error, Message: "still blank", Blank: true},
	}
	got := ByMode(ds, quantity.MetricSystem)
	want := [][]string{
		{`nothing of a mode`},
		{`modes "high" and "low": it gets too little`, `mode "quiet": it gets nothing`},
		{`mode "low": it gets too little`},
		{`mode "low": it is loud`},
		{`mode "low": it is loud`},
		{`still blank`},
	}
	if len(got) != len(want) {
		t.Fatalf("%d findings, want %d: %+v", len(got), len(want), got)
	}
	for i := range want {
		if !slices.Equal(got[i].Lines, want[i]) {
			t.Errorf("%d: %q, want %q", i, got[i].Lines, want[i])
		}
	}
	if hints := got[1].Hints; !slices.Equal(hints, []string{"give it more", "open a valve"}) {
		t.Errorf("hints %q", hints)
	}
	if got, want := InShort(ds), "2 errors, 1 blank to fill in, 3 warnings"; got != want {
		t.Errorf("in short %q, want %q", got, want)
	}
	if InShort(nil) != "" {
		t.Error("nothing is counted as something")
	}
}
