package plan_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
)

// A unit stands while its own pump is off, however much of another pump's water strays through both: nothing
// of its flow is promised then, it warms no water, no paper calls its flow too little, the heater beside it is
// asked for no least flow, and its heat is that of its own pump's slowest speed. Follows from the circuit: the
// controller calls for heat by the pump that heats.
func TestUnitStandsWhileItsPumpIsOff(t *testing.T) {
	p := work(t, readFile(t, "testdata/jobs/shared-filter.toml"), plan.Findings|plan.Flows)
	off := func(mode string) bool { return strings.HasPrefix(mode, "p2") }
	for _, m := range plan.Summarise(p) {
		u := m.Own()
		switch {
		case !off(m.Mode) && (u.Flow <= 0 || u.Astray != 0 || u.RiseK <= 0):
			t.Errorf("mode %q, its pump on: %+v", m.Mode, u)
		case off(m.Mode) && (u.Flow != 0 || u.Astray <= 0 || u.RiseK != 0):
			t.Errorf("mode %q, its pump off: %+v", m.Mode, u)
		}
	}
	leaks := map[string]int{} // by mode: what passes a pump that stands is told of one stage
	for _, d := range p.Findings {
		if strings.Contains(string(d.Message), "while it stands; K") {
			leaks[d.Mode]++
		}
	}
	for _, m := range p.After.Circuit.AllModes() {
		if leaks[m.Name] != 1 {
			t.Errorf("mode %q: what passes the pump that is off is told %d times", m.Name, leaks[m.Name])
		}
	}
	promised, over := map[bool]int{}, coarsely(p)
	for _, q := range over.Promises {
		if q.Kind == spread.LeastFlow || q.Kind == spread.RatedFlow || q.Kind == spread.MostFlow {
			promised[off(q.Mode)]++
		}
	}
	if promised[false] != 6 || promised[true] != 0 {
		t.Errorf("%d promises of its flow with its pump on, want 6 (three in two modes); %d with it off, want 0", promised[false], promised[true])
	}
	told := 0
	for _, d := range p.Findings {
		switch {
		case d.Rule == "line-least-flow" && off(d.Mode):
			t.Errorf("asked of a heater whose pump is off: %s", d.Message)
		case d.Rule == "heater-line-flows" && d.Severity == graph.Note && off(d.Mode) && strings.Contains(string(d.Message), "stands"):
			told++
		}
	}
	if told != 2 {
		t.Errorf("%d modes told to have the unit stand, want 2", told)
	}
	if len(over.MeasureFirst) == 0 || slices.ContainsFunc(over.MeasureFirst, func(i spread.Influence) bool { return i.Moves == spread.JetsFlow }) {
		t.Errorf("what moves the water of jets that lose next to nothing is to be measured: %v", over.MeasureFirst)
	}
}

// Water that is kept cold is warmed by no unit: neither a rise nor a throttle's aim by one is told, whatever
// the sheet of a heater says.
func TestColdWaterHasNoRise(t *testing.T) {
	for _, water := range []string{"8 °C", "28 °C"} {
		data, err := os.ReadFile("testdata/jobs/shared-filter.toml")
		if err != nil {
			t.Fatal(err)
		}
		p := work(t, read(t, "spa.toml", temperature.ReplaceAll(data, []byte(`temperature = "`+water+`"`))), plan.Flows)
		rose := false
		for _, m := range plan.Summarise(p) {
			for _, u := range m.Units() {
				rose = rose || u.RiseK > 0
			}
		}
		if rose != (water == "28 °C") {
			t.Errorf("water of %s rises: %v", water, rose)
		}
	}
}

// temperature is the water's in a description.
var temperature = regexp.MustCompile(`(?m)^temperature = "[^"]*"`)
