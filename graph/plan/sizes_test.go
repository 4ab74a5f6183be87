package plan

import (
	"math"
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/heat/job"
)

// Each size is held against the tub at the flow it would get itself: the catalogue's units lose
// 10 kPa at the flow of their size, so that the larger one gets more water, and what the flow
// comes to is that of a description which names the other unit.
func TestSizesAtTheirOwnFlow(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	read := func() *graph.Circuit {
		c, ds := description.Read("plug-in.toml", text)
		if c == nil {
			t.Fatal(ds)
		}
		return c
	}
	p, err := Make(read(), Flows)
	if err != nil {
		t.Fatal(err)
	}
	in := p.heatInput()
	flows := p.flowsOf([]string{"heat-pump 5 kW", "heat-pump 12 kW"}, in.Unit, in.Heating.Mode)
	small, large := flows["heat-pump 5 kW"], flows["heat-pump 12 kW"]
	if !(small > 0) || !(large > small) {
		t.Fatalf("%v", flows)
	}
	c := read()
	part := c.Part(in.Unit.ID)
	part.Type, part.Loss, part.Unit = "heat-pump 12 kW", nil, &graph.UnitData{}
	q, err := Make(c, Flows)
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Abs(q.After.Solution(in.Heating.Mode).Part(part.ID).Flow); !agree.Within(large, want, 1e-9) {
		t.Errorf("12 kW gets %g m3/s, its own description says %g", large, want)
	}
	for _, s := range HeatOf(p, job.Ask{}).Sizes {
		if !s.This && s.Unit == "" {
			t.Error("a size without a name")
		}
	}
}
