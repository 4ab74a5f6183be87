package plan

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
)

// readPlan is the unit of unsureText behind a pump of which only the type is known, with a flow read at
// that pump as it stands today, m³/h; 0: none was.
func readPlan(t *testing.T, m3h float64, more string) *Plan {
	t.Helper()
	more += "\n[[run]]\nfrom = \"pump.out\"\nto = \"jets.in\"\nexisting = true\nremoved = true\nspec = \"pvc-sch40\"\nsize = \"1 1/2 in\"\nlength = \"3 m\"\n"
	if m3h > 0 {
		more += fmt.Sprintf("\n[[reading]]\nat = \"pump\"\nflow = \"%.3f m3/h\"\nplus-minus = \"5 %%\"\n", m3h)
	}
	text := strings.NewReplacer("LEAST", "11 m3/h", "HIGHEST", "6 bar", `rated = "8 m3/h"`, `rated = "11 m3/h"`, `curve = [["0 m3/h", "10 m"], ["4 m3/h", "8 m"], ["8 m3/h", "2 m"]]`, `type = "jet-pump"`,
		`drop = "40 kPa" }`, `drop = "15 kPa" }
known = "measured"`).Replace(unsureText)
	c, ds := description.Read("read.toml", []byte(text+more))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	p, err := Make(c, Findings|Flows|Ranges)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What was read is the answer where the case as described contradicts it, of every verb: what the unit gets
// lies in its own range, the flow that was read comes to what was read, and where the unit's least flow is
// broken by that the rules say so, with ranges and without, with nothing left to measure. Where what was read
// is as described, or nothing was read, the case is the one described.
func TestWhatWasReadIsTheAnswer(t *testing.T) {
	as := readPlan(t, 0, "")
	today := as.Before.Solution("on").Part("pump").Flow * 3600
	described := Summarise(as)[0]
	for _, p := range []*Plan{as, readPlan(t, today, "")} {
		got := Summarise(p)[0]
		if got.Unit != described.Unit || got.Units()[0].AsDescribed != 0 || p.Asked.Fit.Changes() {
			t.Errorf("as described %g, said to be %g", described.Unit, got.Unit)
		}
		if d := append(found(p, "promise"), found(p, "unit-least-flow")...); graph.HasErrors(d) {
			t.Error(d)
		}
	}
	less := readPlan(t, 0.57*today, "")
	if got := less.Before.Solution("on").Part("pump").Flow * 3600; !agree.Within(got, 0.57*today, 0.05*0.57*today) {
		t.Errorf("read %g m3/h today, taken as %g", 0.57*today, got)
	}
	said, of := Summarise(less)[0], less.Ranges.Of("on", graph.After)
	rangeOf := func(id string) spread.Range {
		return of.Parts[slices.IndexFunc(less.After.Solution("on").Parts, func(f hydraulic.PartFlow) bool { return f.Part.ID == id })]
	}
	if unit := rangeOf("unit"); described.Unit <= unit.High || said.Unit < unit.Low || said.Unit > unit.High || !agree.Within(said.Units()[0].AsDescribed, described.Unit, 1e-12) {
		t.Errorf("said %g, as described %g, nine in ten %g to %g", said.Unit, described.Unit, unit.Low, unit.High)
	}
	if pump := rangeOf("pump"); said.Pump < pump.Low || said.Pump > pump.High || described.Pump <= pump.High || !agree.Within(said.Moving, said.Pump, 1e-12) {
		t.Errorf("the pump is said to move %g and to hold %g, as described %g, nine in ten %g to %g", said.Pump, said.Moving, described.Pump, pump.Low, pump.High)
	}
	if rise := said.RiseK * said.Unit; !agree.Within(rise, described.RiseK*described.Unit, 1e-9) {
		t.Errorf("the heat in the water is %g, as described %g", rise, described.RiseK*described.Unit)
	}
	if said.Unit >= said.Least {
		t.Fatalf("%g m3/s is enough: the test shows nothing", said.Unit)
	}
	if d := found(less, "promise"); len(d) != 1 || d[0].Severity != graph.Warning || !strings.Contains(string(d[0].Hint), "nothing to measure") {
		t.Errorf("too little was read: %v", d)
	}
	written := *less.Asked
	written.Fit = nil
	check, err := Make(&written, Findings|Flows)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []*Plan{less, check} {
		if d := found(p, "unit-least-flow"); len(d) != 1 || d[0].Severity != graph.Error || p.Fault() == nil {
			t.Errorf("too little was read: %v", d)
		}
		if d := found(p, "readings"); len(d) != 1 || d[0].Severity != graph.Warning || !strings.Contains(string(d[0].Hint), "show") {
			t.Errorf("what was read is not told: %v", d)
		}
	}
}

// What nothing moves that may be off, as the pressure at a pump that stands, leaves the case as described, and is
// told; its range is of what fits it all the same.
func TestReadingThatNothingMoves(t *testing.T) {
	text, err := os.ReadFile("../../testdata/circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("still.toml", append(text, "\n[[reading]]\nat = \"jet-pump.out\"\nmode = \"circ-pump\"\npressure = \"14 kPa\"\n"...))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	p, err := Make(c, Findings|Flows|Ranges)
	if err != nil {
		t.Fatal(err)
	}
	q := p.Asked.Fit.Read[0]
	if d := found(p, "readings"); len(d) != 1 || !q.Beyond() || p.Asked.Fit.Changes() || p.Asked.Fit.Unfit || q.Taken != q.AsDescribed || !strings.Contains(string(d[0].Message), "stays as described") || !strings.Contains(string(d[0].Hint), "below-water") {
		t.Errorf("%v; %+v", d, p.Asked.Fit)
	}
	if p.Ranges.Contradicted() || !p.Ranges.Narrowed() {
		t.Error("the case that is taken is said to be another, or what was read is not counted")
	}
}
