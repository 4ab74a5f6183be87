package stream

import (
	"slices"
	"strings"
	"testing"
)

// What a pump presses on with a valve shut: dead ends too, back to a check that holds and no further, into another
// pump's line, through a pump that stands where its suction is shut off as well, on from a booster.
// Source: pressure goes where water hangs together and nothing holds it.
func TestPressed(t *testing.T) {
	const beside = `tub:tub a:pump b:pump join:tee jets:jet-group tub.s1>a.in join.run-out>jets.in jets.out>tub.return `
	for _, c := range []struct {
		text, from  string
		on, not     []string // runs
		parts, into string
	}{
		// b's check holds: what lies between it and the tee is pressed on, its own pump is not
		{beside + `ck:check-valve tub.s2>b.in a.out>join.run-in b.out>ck.in ck.out>join.branch`, "a",
			[]string{"a.out>join.run-in", "ck.out>join.branch", "join.run-out>jets.in"}, []string{"b.out>ck.in", "tub.s2>b.in", "tub.s1>a.in"}, "join ck jets", ""},
		// without it b's case is; the tub takes the pressure off its suction
		{beside + `v:ball-valve tub.s2>b.in a.out>join.run-in b.out>v.in v.out>join.branch`, "a",
			[]string{"v.out>join.branch", "b.out>v.in"}, []string{"tub.s2>b.in"}, "join v jets b", ""},
		// but not with a valve there
		{beside + `v:ball-valve tub.s2>v.in v.out>b.in a.out>join.run-in b.out>join.branch`, "a",
			[]string{"b.out>join.branch", "v.out>b.in"}, []string{"tub.s2>v.in"}, "join b jets v", ""},
		// nor with a foot valve
		{beside + `v:check-valve tub.s2>v.in v.out>b.in a.out>join.run-in b.out>join.branch`, "a",
			[]string{"v.out>b.in"}, []string{"tub.s2>v.in"}, "join b jets v", ""},
		// what the two draw from together the pump itself empties, though one valve shuts it off
		{`tub:tub v:ball-valve t:tee a:pump b:pump join:tee jets:jet-group tub.s>v.in v.out>t.run-in t.run-out>a.in t.branch>b.in a.out>join.run-in b.out>join.branch join.run-out>jets.in jets.out>tub.return`, "a",
			[]string{"b.out>join.branch"}, []string{"t.branch>b.in", "t.run-out>a.in", "v.out>t.run-in"}, "join b jets", ""},
		// a drain hangs on the branch, in still water
		{withBypass, "pump", []string{"dt.branch>drain.in", "unit.in>v1.out", "pump.out>filter.in"}, []string{"t1.run-out>pump.in", "blower.in>acheck.in"}, "", ""},
		// a booster: on to it, and on from it
		{`tub:tub a:pump b:pump jets:jet-group tub.s>a.in a.out>b.in b.out>jets.in jets.out>tub.r`, "a", []string{"a.out>b.in", "b.out>jets.in"}, []string{"tub.s>a.in"}, "b jets", "b"},
		{`tub:tub a:pump b:pump jets:jet-group tub.s>a.in a.out>b.in b.out>jets.in jets.out>tub.r`, "b", []string{"b.out>jets.in"}, []string{"a.out>b.in"}, "jets", ""},
	} {
		n := NewNet(circuit(t, c.text))
		got := n.Pressed(n.Part(c.from))
		for _, r := range c.on {
			if n.Run(r) == nil || !got.HasRun(r) {
				t.Errorf("%s of %q: not on %s", c.from, c.text, r)
			}
		}
		for _, r := range c.not {
			if n.Run(r) == nil || got.HasRun(r) {
				t.Errorf("%s of %q: on %s", c.from, c.text, r)
			}
		}
		if c.parts != "" && !slices.Equal(slices.Sorted(slices.Values(strings.Fields(ids(got.Parts)))), slices.Sorted(slices.Values(strings.Fields(c.parts)))) {
			t.Errorf("%s of %q: parts %s, want %s", c.from, c.text, ids(got.Parts), c.parts)
		}
		if ids(got.Into) != c.into {
			t.Errorf("%s of %q: into %s, want %s", c.from, c.text, ids(got.Into), c.into)
		}
	}
}
