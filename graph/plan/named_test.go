package plan

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic/spread"
)

// byType returns the circuit with what its equipment's keys say written into rows of the
// user's own, which the parts name, and the keys left out; and how many parts that are.
func byType(c *graph.Circuit) (*graph.Circuit, int) {
	out := *c
	out.Parts = slices.Clone(c.Parts)
	var rows []catalog.Row
	for i, p := range c.Parts {
		if p.Type != "" {
			continue
		}
		row, other := catalog.Row{Kind: string(p.Kind), Name: "the " + p.ID, Source: "the description's own keys", Ends: "socket"}, *p
		lossInRow := func() {
			if l := p.Loss; l != nil && len(l.Points) == 1 && !l.Points[0].Drop.IsHead {
				row.LossFlow, row.LossDropPa = l.Points[0].Flow, l.Points[0].Drop.Value
				other.Loss = nil
			}
		}
		switch p.Kind {
		case graph.HeatPump:
			lossInRow()
			row.Size, row.RatingPa = p.Unit.PortsSize, p.HighestPressurePa
			row.Least, row.Rated, row.Most = p.Unit.Least, p.Unit.Rated, p.Unit.Most
			unit := *p.Unit
			unit.Least, unit.Rated, unit.Most, unit.PortsSize = 0, 0, 0, catalog.Size{}
			other.Unit, other.HighestPressurePa = &unit, 0
		case graph.ElementHeater:
			lossInRow()
			row.Least, row.RatingPa = p.LeastFlow, 3.5e5
			other.LeastFlow = 0
		case graph.Filter:
			lossInRow()
			row.RatingPa, row.DirtyFactor = 3.5e5, p.Filter.DirtyFactor
			if p.Filter.Media == "sand" {
				row.Style = "sand-filter"
			}
			if other.Loss != nil {
				continue
			}
		case graph.CheckValve:
			if !p.Check.CrackingSet || p.Loss != nil {
				continue
			}
			row.Style, row.CrackingPa, row.K, row.RatingPa, row.Ends = "spring-check", p.Check.CrackingPa, 6, 1e6, "union"
			other.Check = &graph.CheckData{}
		case graph.Pump:
			if len(p.Pump.Speeds) == 0 || p.Pump.TypeSaid || slices.ContainsFunc(p.Pump.Speeds, func(s graph.Speed) bool { return len(s.Curve) == 0 }) {
				continue
			}
			for _, s := range p.Pump.Speeds {
				one := catalog.SpeedRow{Name: s.Name, PowerW: s.PowerW}
				for _, q := range s.Curve {
					one.Curve = append(one.Curve, [2]float64{q.Flow, q.Head.Value})
				}
				row.Speeds = append(row.Speeds, one)
			}
			pump := *p.Pump
			pump.Speeds, pump.TypeSaid = graph.SpeedsOf(row), true // as the reader does
			other.Pump = &pump
		default:
			continue
		}
		other.Type = row.Name
		rows = append(rows, row)
		out.Parts[i] = &other
	}
	out.Catalog = c.Catalog.With(rows)
	return &out, len(rows)
}

// A part known by the row it names and one known by keys with the same numbers give the same
// answers: places and their verdicts, what the rules find, the flows, the summary, the
// spring that is chosen and the advice. Checked against nothing but itself: a property.
func TestNamedByTypeOrByKeys(t *testing.T) {
	for _, demo := range []string{"two-speed", "plunge-pool", "circulation", "large-circulation", "plug-in"} {
		t.Run(demo, func(t *testing.T) {
			data, err := os.ReadFile("../../testdata/" + demo + ".toml")
			if err != nil {
				t.Fatal(err)
			}
			keys, ds := description.Read(demo, data)
			if keys == nil {
				t.Fatal(ds)
			}
			types, n := byType(keys)
			if n < 3 {
				t.Fatalf("only %d parts could be named by type", n)
			}
			a, b := told(t, keys), told(t, types)
			if d := cmp.Diff(a, b); d != "" {
				t.Errorf("other answers (-by keys +by type):\n%s", d)
			}
		})
	}
}

// told is what a plan comes to, in lines.
func told(t *testing.T, c *graph.Circuit) []string {
	t.Helper()
	p, err := Make(c, Flows|Places|Advice)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, v := range p.Places {
		out = append(out, fmt.Sprintf("%d %s %s: %s", v.Rank, v.Place.Where(), v.Verdict, v.Summary.In(quantity.MetricSystem)))
		for _, r := range v.Reasons {
			out = append(out, fmt.Sprintf("  %s %s", r.Rule, r.Severity))
		}
	}
	for _, d := range p.Findings {
		if d.Rule != "flow" { // notes on where a curve or loss comes from
			out = append(out, fmt.Sprintf("%s %s %s", d.Rule, d.Severity, d.Pos))
		}
	}
	for _, m := range Summarise(p) {
		out = append(out, fmt.Sprintf("%s: unit %.4g (%.4g, %.4g, %.4g), past it %.4g, jets %.4g of %.4g", m.Mode, 1e3*m.Unit, 1e3*m.Least, 1e3*m.Rated, 1e3*m.Most, 1e3*m.Bypass, 1e3*m.Jets, 1e3*m.JetsToday))
	}
	if p.Proposal != nil {
		out = append(out, fmt.Sprintf("spring %q, Kv %.2f", p.Proposal.Choice.Spring, p.Proposal.Choice.ThrottleKv))
	}
	for _, q := range spread.Every(p.Before.LaidOut(), p.After.Layout, unitOf(p.After.Circuit, c.Retrofit).ID, 8).Promises {
		out = append(out, "promised: "+q.Mode+" "+q.Text.In(quantity.MetricSystem))
	}
	if p.Advice != nil && p.Advice.Best >= 0 {
		out = append(out, "advised: "+p.Advice.Choices[p.Advice.Best].Name.String())
	}
	for _, s := range p.After.Solutions {
		for _, f := range s.Parts {
			out = append(out, fmt.Sprintf("%s %s %.4g m3/h, %.4g kPa %s", s.Mode.Name, f.Part.ID, math.Abs(f.Flow)*3600, f.Drop/1000, f.State))
		}
	}
	return out
}
