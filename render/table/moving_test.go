package table

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// A pump at rest against a spring of 2 m that its 1.8 m do not lift, and that it would hold open: both
// flows are said in the table for programs, in CSV and JSON, and in the plain words of the first page.
func TestBothFlowsStandEverywhere(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-sch40"
size = "1-1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "1.8 m"], ["2 m3/h", "2.6 m"], ["5 m3/h", "2.2 m"], ["8 m3/h", "0.8 m"]]
[[part]]
id = "spring"
kind = "check-valve"
style = "spring"
existing = true
cracking = "2 m"
[[part]]
id = "unit"
kind = "heat-pump"
existing = true
flow = { least = "1 m3/h", most = "5 m3/h" }
loss = { flow = "2 m3/h", drop = "1 kPa" }
[[run]]
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "spring.in"
existing = true
length = "1 m"
[[run]]
from = "spring.out"
to = "unit.in"
existing = true
length = "1 m"
[[run]]
from = "unit.out"
to = "tub.b"
existing = true
length = "1 m"
`
	c, ds := description.Read("two.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, plan.Flows)
	if err != nil {
		t.Fatal(err)
	}
	moving := p.After.Solution("on").Part("pump").Moving
	if moving*3600 < 1 {
		t.Fatalf("the pump holds %g m3/h", moving*3600)
	}
	want := form.Fixed(moving*3600, 3)
	data, err := FlowCSV(p, form.Style{})
	if err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	last := len(lines[0]) - 1
	for _, line := range lines[1:] {
		of := map[string]string{"pump": want, "spring": want, "unit": want}[line[3]]
		if lines[0][last] != "flow_if_moving_m3_h" || line[last] != of {
			t.Errorf("%s of %s: %q, want %q", lines[0][last], line[3], line[last], of)
		}
	}
	part, err := json.Marshal(partOf(p.After.Solution("on").Part("pump")))
	if err != nil || !strings.Contains(string(part), `"flow_if_moving_m3_h":`+strings.TrimRight(form.Fixed(moving*3600, 4), "0")) {
		t.Errorf("%s (%v)", part, err)
	}
	plain := strings.Join(PlainLines(p, form.Style{}, ""), "\n")
	if !strings.Contains(plain, "no water comes to the heat pump. The pump would hold "+form.Fixed(moving*3600, 1)+" m3/h if its water was moving already") {
		t.Error(plain)
	}
}

// What moves the unit's flow does so until the throttle is set by its reading: text and JSON say it, of a
// throttle alone. Circulation has one, two-speed has none (their files).
func TestMeasureFirstSaysUntilWhen(t *testing.T) {
	for name, valve := range map[string]string{"circulation": "bypass", "two-speed": ""} {
		p := demo(t, name)
		text := ""
		for _, b := range SureBlocks(p.Ranges, nil, form.Style{}) {
			text += strings.Join(b.Lines, "\n")
		}
		if want := `the unit's flow is moved so far only until "bypass" is set by its reading`; strings.Contains(text, want) != (valve != "") {
			t.Errorf("%s:\n%s", name, text)
		}
		data, err := FlowJSON(p, form.Style{})
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(data), `"until_set": "`+valve+`"`) != (valve != "") || strings.Contains(string(data), `"until_set"`) != (valve != "") {
			t.Errorf("%s: until_set is not %q", name, valve)
		}
	}
}
