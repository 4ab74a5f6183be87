package plan

import (
	"fmt"
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

// What was read is the answer where the case as described contradicts it: the flow that is said lies in
// its own range, and where that breaks the unit's least flow it is an error, as of the case as
// described, with nothing left to measure; accepted, it is a note. Where what was read is as described,
// or nothing was read, what is said is the case as described.
func TestWhatWasReadIsTheAnswer(t *testing.T) {
	as := readPlan(t, 0, "")
	today := as.Before.Solution("on").Part("pump").Flow * 3600
	for _, p := range []*Plan{as, readPlan(t, today, "")} {
		if got, want := Likely(p)[0], Summarise(p)[0]; !agree.Within(got.Unit, want.Unit, 1e-12) || got.Units()[0].AsDescribed != 0 {
			t.Errorf("as described %g, said to be %g", want.Unit, got.Unit)
		}
		if d := found(p, "promise"); graph.HasErrors(d) {
			t.Error(d)
		}
	}
	less := readPlan(t, 0.6*today, "")
	said, described := Likely(less)[0], Summarise(less)[0]
	of := less.Ranges.Of("on", graph.After)
	var unit spread.Range
	for i, f := range less.After.Solution("on").Parts {
		if f.Part.ID == "unit" {
			unit = of.Parts[i]
		}
	}
	if described.Unit <= unit.High || said.Unit < unit.Low || said.Unit > unit.High || !agree.Within(said.Units()[0].AsDescribed, described.Unit, 1e-12) {
		t.Errorf("said %g, as described %g, nine in ten %g to %g", said.Unit, described.Unit, unit.Low, unit.High)
	}
	if pump := of.Parts[slices.IndexFunc(less.After.Solution("on").Parts, func(f hydraulic.PartFlow) bool { return f.Part.ID == "pump" })]; said.Pump < pump.Low || said.Pump > pump.High || described.Pump <= pump.High || !agree.Within(said.Moving, said.Pump, 1e-12) {
		t.Errorf("the pump is said to move %g and to hold %g, as described %g, nine in ten %g to %g", said.Pump, said.Moving, described.Pump, pump.Low, pump.High)
	}
	if rise := said.RiseK * said.Unit; !agree.Within(rise, described.RiseK*described.Unit, 1e-9) {
		t.Errorf("the heat in the water is %g, as described %g", rise, described.RiseK*described.Unit)
	}
	if said.Unit >= said.Least {
		t.Fatalf("%g m3/s is enough: the test shows nothing", said.Unit)
	}
	d := found(less, "promise")
	if len(d) != 1 || d[0].Severity != graph.Error || !strings.Contains(string(d[0].Hint), "nothing to measure") || less.Fault() == nil {
		t.Errorf("too little was read: %v", d)
	}
	taken := found(readPlan(t, 0.6*today, "\n[[accept]]\npromise = \"least-flow\"\nreason = \"a smaller unit comes\"\n"), "promise")
	if len(taken) != 1 || taken[0].Severity != graph.Note {
		t.Errorf("accepted: %v", taken)
	}
}
