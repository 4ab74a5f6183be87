package heating

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/heat/job"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
)

// saidIn writes a key into the table of a description that begins with a line, in place of the one
// that is there; a table that is not there is added.
func saidIn(text, table, line string) string {
	key, _, _ := strings.Cut(line, " = ")
	before, after, found := strings.Cut(text, "\n"+table+"\n")
	if !found {
		if before, after, found = strings.Cut(text, "\n"+table+" "); found { // a remark behind it
			_, after, _ = strings.Cut(after, "\n")
		}
	}
	if !found {
		return text + "\n" + table + "\n" + line + "\n"
	}
	rest := ""
	if at := strings.Index(after, "\n["); at >= 0 {
		after, rest = after[:at], after[at:]
	}
	var kept []string
	for _, l := range strings.Split(after, "\n") {
		if !strings.HasPrefix(l, key+" = ") {
			kept = append(kept, l)
		}
	}
	return before + "\n" + table + "\n" + line + "\n" + strings.Join(kept, "\n") + rest
}

// numbersOf flattens JSON: every number by where it stands, in a list by what its entry is called.
func numbersOf(at string, v any, out map[string]float64) {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			numbersOf(at+"."+k, x, out)
		}
	case []any:
		for i, x := range v {
			name := fmt.Sprint(i)
			if m, ok := x.(map[string]any); ok {
				for _, k := range []string{"what", "id", "mode", "item", "term", "unit", "name"} {
					if s, ok := m[k].(string); ok {
						name = s
						break
					}
				}
			}
			numbersOf(at+"["+name+"]", x, out)
		}
	case float64:
		out[at] = v
	case bool:
		out[at+"?"] = 0
		if v {
			out[at+"?"] = 1
		}
	}
}

// answersTo is everything that is printed of a job as JSON, flattened; every value that was settled, and how often
// each rule finds something.
func answersTo(t *testing.T, what, text string) map[string]float64 {
	t.Helper()
	c, ds := description.Read("zero.toml", []byte(text))
	if c == nil {
		t.Errorf("%s: %v", what, ds)
		return nil
	}
	p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Lists)
	if err != nil {
		t.Fatal(err)
	}
	style := form.Style{Units: quantity.MetricSystem}
	out := map[string]float64{}
	for name, made := range map[string]func() ([]byte, error){
		"flow":  func() ([]byte, error) { return table.FlowJSON(p, style) },
		"heat":  func() ([]byte, error) { return JSON(plan.HeatOf(p, job.Ask{}), style) },
		"parts": func() ([]byte, error) { return lists.PartsJSON(p, style) },
		"cuts":  func() ([]byte, error) { return lists.CutsJSON(p, style) },
	} {
		data, err := made()
		if err != nil {
			t.Fatal(what, name, err)
		}
		var v any
		if err := json.Unmarshal(data, &v); err != nil {
			t.Fatal(err)
		}
		numbersOf(name, v, out)
	}
	for _, v := range table.ShownOf([]*settle.Stage{p.After.Layout.Stage}, "") {
		if v.Dim != settle.Words {
			out["show."+v.Of+"."+v.What] = v.V
		}
	}
	for _, d := range p.Findings {
		out["check."+d.Rule+"."+d.Severity.String()]++
	}
	return out
}

// What a key says with a zero is what it says with next to nothing, in every number of every answer:
// a zero that is somewhere read as a key that was left out shows as a jump. Checked against nothing
// but itself: a property. The time the cover is off is not tried: who never takes it
// off does not bathe; nor is a price of nothing for a kWh, with which hours to heat in are all as good.
// The suite says the first few in one file, -wide every one in a file of its own.
func TestZeroIsNextToNothing(t *testing.T) {
	data, err := os.ReadFile("../../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	plain := string(data) + "\n[[part]]\nid = \"blow\"\nkind = \"blower\"\nexisting = true\n"
	part := func(id string) string { return "[[part]]\nid = \"" + id + "\"" }
	type zeroed struct{ table, zero, near string }
	all := []zeroed{
		{part("unit"), `standby = "0 W"`, `standby = "0.001 W"`},
		{part("unit"), `starting = "0 A"`, `starting = "0.001 A"`},
		{part("blow"), `power = "0 W"`, `power = "0.001 W"`},
		{"[site]", `air = "0 °C"`, `air = "0.0001 °C"`},
		{"[prices]", `unit = "0"`, `unit = "0.0000001"`},
		{part("pump"), `below-water = "0 mm"`, `below-water = "0.001 mm"`},
		// the rest as often as anybody has time, each alone
		{part("unit"), `start-loss = "0 kWh"`, `start-loss = "0.0000001 kWh"`},
		{part("unit"), `least-air = "0 °C"`, `least-air = "-0.00001 °C"`},
		{part("unit"), `from-water = "0 mm"`, `from-water = "0.001 mm"`},
		{part("unit"), `humidity = "0 %"`, `humidity = "0.00001 %"`},
		{part("blow"), `air = "0 l/s"`, `air = "0.0000001 l/s"`},
		{part("blow"), `starting = "0 A"`, `starting = "0.001 A"`},
		{part("pump"), `starting = "0 A"`, `starting = "0.001 A"`},
		{"[site]", `fill = "0 °C"`, `fill = "0.0001 °C"`},
		{"[site]", "sheltered = \"indoor\"\nroom = \"0 °C\"", "sheltered = \"indoor\"\nroom = \"0.0001 °C\""},
		{"[site]", `sheltered = "0 %"`, `sheltered = "0.00001 %"`},
		{"[use]", `times-a-week = 0`, `times-a-week = 0.000002`},
		{"[use]", `wind = "0 m/s"`, `wind = "0.0000001 m/s"`},
		{"[use]", `bathers = 0`, `bathers = 0.000002`},
		{"[use]", `refills = 0`, `refills = 0.000002`},
		{"[use]", `activity = 0`, `activity = 0.000002`},
		{"[climate]", `swing = "0 K"`, `swing = "0.00001 K"`},
		{"[climate]", `humidity = "0 %"`, `humidity = "0.00001 %"`},
		{"[climate]", `wind = "0 m/s"`, `wind = "0.00001 m/s"`},
		{"[climate]", `day-to-day = "0 K"`, `day-to-day = "0.00001 K"`},
		{"[tariff]", `standing = "0"`, `standing = "0.0000001"`},
		{"[tariff]", `work = "0"`, `work = "0.0000001"`},
		{"[tariff]", `bands = [{ from = "00:30", to = "05:30", price = "0" }]`, `bands = [{ from = "00:30", to = "05:30", price = "0.0000001" }]`},
		{"[prices]", `tee = "0"`, `tee = "0.0000001"`},
		{"[prices]", `margin = "0 %"`, `margin = "0.000001 %"`},
		{"[prices]", `tax = "0 %"`, `tax = "0.000001 %"`},
		{"[job]", `kerf = "0 mm"`, `kerf = "0.000001 mm"`},
		{"[heat-loss]", `fall = { from = "38 °C", to = "36 °C", in = "24 h", air = "0 °C", plus-minus = "0 K", heat = "0 W" }`,
			`fall = { from = "38 °C", to = "36 °C", in = "24 h", air = "0.00001 °C", plus-minus = "0.00001 K", heat = "0.0001 W" }`},
		{"[heat-loss]", `standing = { power = "300 W", water = "38 °C", air = "0 °C" }`, `standing = { power = "300 W", water = "38 °C", air = "0.00001 °C" }`},
		{"[[run]]\nid = \"return-line\"", `k = 0`, `k = 0.000002`},
		{"[[run]]\nid = \"return-line\"", `roughness = "0 mm"`, `roughness = "0.0000001 mm"`},
		{"[[run]]\nid = \"return-line\"", `insulation = "0 mm"`, `insulation = "0.0001 mm"`},
		{"[retrofit]", `extra = "0 mm"`, `extra = "0.0001 mm"`},
	}
	ways := [][]zeroed{all[:slices.IndexFunc(all, func(c zeroed) bool { return strings.HasPrefix(c.zero, "start-loss") })]}
	if lots.All() {
		ways = slices.Collect(slices.Chunk(all, 1))
	}
	for _, way := range ways {
		zeroes, nears, what := plain, plain, ""
		for _, c := range way {
			zeroes, nears = saidIn(zeroes, c.table, c.zero), saidIn(nears, c.table, c.near)
			what += fmt.Sprintf("%s of %s; ", c.zero, c.table)
		}
		zero, near := answersTo(t, what, zeroes), answersTo(t, what+"nearly", nears)
		if zero == nil || near == nil {
			continue
		}
		if len(zero) < 200 {
			t.Errorf("%sonly %d numbers", what, len(zero))
		}
		inBins := func(k string) bool { return strings.Contains(k, "by_air[") && strings.Contains(k, "].hours") } // of whole degrees: the least moves one over
		for k, v := range near {
			if w, ok := zero[k]; !ok && v == 0 || inBins(k) {
				continue
			} else if !ok {
				t.Errorf("%sno %s, which is %g with next to nothing", what, k, v)
			} else if off := math.Abs(v - w); !(off <= 0.03+0.003*math.Abs(v)) {
				t.Errorf("%s%s is %g, with next to nothing %g", what, k, w, v)
			}
		}
		for k, w := range zero {
			if _, ok := near[k]; !ok {
				t.Errorf("%s%s is %g, and is not there with next to nothing", what, k, w)
			}
		}
	}
}
