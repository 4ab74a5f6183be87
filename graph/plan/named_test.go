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
	"dryfit/graph/heat/job"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/lots"
	"dryfit/graph/settle"
)

// written is what a part's keys say that a row can say too: each with how it goes into a row, and
// how it is left out of the part. A row of the user's needs a rating; one that is nowhere said is
// that of the kind's generic row.
type written struct {
	key   string
	toRow func(*catalog.Row)
	out   func(*graph.Part)
}

// keysOf returns the keys of a part that a row can say; nil where there are none.
func keysOf(p *graph.Part) []written {
	var out []written
	add := func(said bool, key string, toRow func(*catalog.Row), leave func(*graph.Part)) {
		if said {
			out = append(out, written{key, toRow, leave})
		}
	}
	if l := p.Loss; l != nil {
		point := len(l.Points) == 1 && !l.Points[0].Drop.IsHead
		add(point, "loss", func(r *catalog.Row) {
			r.LossFlow, r.LossDropPa, r.Exponent = l.Points[0].Flow, l.Points[0].Drop.Value, l.Exponent
		}, func(p *graph.Part) { p.Loss = nil })
	}
	add(p.HighestPressurePa > 0, "highest-pressure", func(r *catalog.Row) { r.RatingPa = p.HighestPressurePa }, func(q *graph.Part) { q.HighestPressurePa = 0 })
	add(p.LengthSet, "length", func(r *catalog.Row) { r.LengthMM = p.LengthMM }, func(q *graph.Part) { q.LengthMM, q.LengthSet = 0, false })
	add(p.LeastFlow > 0, "least-flow", func(r *catalog.Row) { r.Least = p.LeastFlow }, func(q *graph.Part) { q.LeastFlow = 0 })
	switch p.Kind {
	case graph.HeatPump:
		u := p.Unit
		of := func(f func(*graph.UnitData)) func(*graph.Part) {
			return func(q *graph.Part) { f(q.Unit) }
		}
		add(!u.PortsSize.IsZero(), "ports-size", func(r *catalog.Row) { r.Size = u.PortsSize }, of(func(u *graph.UnitData) { u.PortsSize = catalog.Size{} }))
		add(u.Least > 0, "flow.least", func(r *catalog.Row) { r.Least = u.Least }, of(func(u *graph.UnitData) { u.Least = 0 }))
		add(u.Rated > 0, "flow.rated", func(r *catalog.Row) { r.Rated = u.Rated }, of(func(u *graph.UnitData) { u.Rated = 0 }))
		add(u.Most > 0, "flow.most", func(r *catalog.Row) { r.Most = u.Most }, of(func(u *graph.UnitData) { u.Most = 0 }))
		add(len(u.Ratings) > 0, "ratings", func(r *catalog.Row) {
			for _, t := range u.Ratings {
				r.Ratings = append(r.Ratings, catalog.RatingRow{AirC: t.AirC, WaterC: t.WaterC, OutputW: t.OutputW, InputW: t.Input()})
			}
		}, of(func(u *graph.UnitData) { u.Ratings = nil }))
		add(u.LeastAirSet, "least-air", func(r *catalog.Row) { r.LeastAirC = &u.LeastAirC }, of(func(u *graph.UnitData) { u.LeastAirSet, u.LeastAirC = false, 0 }))
		add(u.MostWaterSet, "most-water", func(r *catalog.Row) { r.MostWaterC = &u.MostWaterC }, of(func(u *graph.UnitData) { u.MostWaterSet, u.MostWaterC = false, 0 }))
		add(u.FullLoadA > 0 && u.VoltageV == 230, "electric.full-load", func(r *catalog.Row) { r.FullLoadA = u.FullLoadA }, of(func(u *graph.UnitData) { u.FullLoadA = 0 }))
	case graph.ElementHeater:
		add(p.Element.PowerW > 0, "power", func(r *catalog.Row) { r.PowerW = p.Element.PowerW }, func(q *graph.Part) { q.Element.PowerW = 0 })
	case graph.Filter:
		add(p.Filter.DirtyFactor > 0, "dirty-factor", func(r *catalog.Row) { r.DirtyFactor = p.Filter.DirtyFactor }, func(q *graph.Part) { q.Filter.DirtyFactor = 0 })
	case graph.Pump:
		add(p.Pump.Described() && !slices.ContainsFunc(p.Pump.Speeds, func(s graph.Speed) bool { return len(s.Curve) == 0 }), "speeds", func(r *catalog.Row) {
			for _, s := range p.Pump.Speeds {
				one := catalog.SpeedRow{Name: s.Name, PowerW: s.PowerW}
				for _, q := range s.Curve {
					one.Curve = append(one.Curve, [2]float64{q.Flow, q.Head.Value})
				}
				r.Speeds = append(r.Speeds, one)
			}
		}, func(q *graph.Part) { q.Pump.TypeSaid = true }) // as the reader fills it in
	case graph.CheckValve:
		add(p.Check.CrackingSet, "cracking", func(r *catalog.Row) { r.CrackingPa = p.Check.CrackingPa }, func(q *graph.Part) { q.Check = &graph.CheckData{} })
	}
	return out
}

// ownRow is a row of the user's with what the keys of a part say; none where they say no loss,
// which a row needs.
func ownRow(p *graph.Part, keys []written) (catalog.Row, bool) {
	row := catalog.Row{Kind: string(p.Kind), Name: "the " + p.ID, Source: "the description's own keys", Ends: "socket", RatingPa: 3.5e5}
	if p.Kind == graph.Filter && p.Filter.Media == "sand" {
		row.Style = "sand-filter"
	}
	if p.Kind == graph.Pump { // of which none is needed
		row.RatingPa = 0
	}
	if p.Kind == graph.CheckValve {
		row.Style, row.K, row.RatingPa, row.Ends = "spring-check", 6, 1e6, "union"
	}
	for _, k := range keys {
		k.toRow(&row)
	}
	return row, len(keys) > 0 && p.Type == "" && (row.LossFlow > 0 || row.K > 0 || len(row.Speeds) > 0)
}

// byRow returns the circuit with the part naming the row, its keys left out but for the one that
// is kept; "" keeps none.
func byRow(c *graph.Circuit, p *graph.Part, keys []written, row catalog.Row, kept string) *graph.Circuit {
	out, other := *c, *p
	clone(&other)
	for _, k := range keys {
		if k.key != kept {
			k.out(&other)
		}
	}
	other.Type = row.Name
	out.Parts = slices.Clone(c.Parts)
	out.Parts[slices.Index(c.Parts, p)] = &other
	out.Catalog = c.Catalog.With([]catalog.Row{row})
	return &out
}

// clone gives a copied part data of its own.
func clone(p *graph.Part) {
	if p.Unit != nil {
		u := *p.Unit
		p.Unit = &u
	}
	if p.Element != nil {
		e := *p.Element
		p.Element = &e
	}
	if p.Filter != nil {
		f := *p.Filter
		p.Filter = &f
	}
	if p.Pump != nil {
		d := *p.Pump
		p.Pump = &d
	}
}

// A part known by the row it names and one known by keys with the same numbers give the same
// answers: places and their verdicts, what the rules find, every number that is settled, the flows, the
// heat, the summary, the spring that is chosen and the advice. So does one of which a single key stands
// beside the row, which does not say that: in each round the next key of every part, the smallest job
// first, and of a larger one (but with -wide) the rounds with a key of a kind of part that none had before.
// Checked against nothing but itself: a property.
func TestNamedByTypeOrByKeys(t *testing.T) {
	had := map[string]bool{} // "element-heater length"
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	last, _ := description.Read("two-speed.toml", data)
	for _, demo := range []string{"plug-in", "plunge-pool", "large-circulation", "circulation", "two-speed"} {
		t.Run(demo, func(t *testing.T) {
			data, err := os.ReadFile("../../testdata/" + demo + ".toml")
			if err != nil {
				t.Fatal(err)
			}
			keys, ds := description.Read(demo, data)
			if keys == nil {
				t.Fatal(ds)
			}
			if keys.Climate == nil { // a year is told of each: who has no climate has that of the last
				keys.Climate = last.Climate
			}
			want, cases, rounds := told(t, keys), 0, 0
			for _, p := range keys.Parts {
				said := keysOf(p)
				if _, ok := ownRow(p, said); ok {
					cases, rounds = cases+len(said), max(rounds, len(said))
				}
			}
			if cases < 8 {
				t.Fatalf("only %d keys could be named by type", cases)
			}
			for n := -1; n < rounds; n++ { // first all by rows alone
				c, kept, first := keys, []string(nil), n < 0
				for i, p := range keys.Parts {
					said := keysOf(p)
					row, ok := ownRow(p, said)
					if !ok {
						continue
					}
					key := ""
					if n >= 0 && n < len(said) {
						key = said[n].key
						kept = append(kept, p.ID+"."+key)
						what := string(p.Kind) + " " + key
						first = first || !had[what]
						had[what] = true
						row, _ = ownRow(p, slices.Delete(slices.Clone(said), n, n+1)) // so that the key alone says it
						if key == "highest-pressure" {                                // that of its kind may be the same
							row.RatingPa = 1e5
						}
					}
					c = byRow(c, c.Parts[i], said, row, key)
				}
				if !first && !lots.All() {
					continue
				}
				if d := cmp.Diff(want, told(t, c)); d != "" {
					t.Errorf("by rows, with %q as keys: other answers (-by keys +by type):\n%s", kept, d)
				}
			}
		})
	}
	if len(had) < 18 {
		t.Errorf("only %d keys of kinds of part stood beside a row", len(had))
	}
}

// told is what a plan comes to, in lines.
func told(t *testing.T, c *graph.Circuit) []string {
	t.Helper()
	p, err := Make(c, Flows|Places|Advice)
	if err != nil {
		t.Fatal(err)
	}
	weather, _ := WeatherOf(c.Climate)
	once := job.Sampled{Points: []int{0}, All: []int{0}} // the year, and what each value assumed makes of it
	account := p.HeatAccount(job.Ask{}).Answer(job.More{Weather: weather, Sample: once})
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
	for _, q := range spread.Coarse(p.Before.LaidOut(), p.After.Layout, p.unitID(), 128).Promises {
		out = append(out, "promised: "+q.Mode+" "+q.Text.In(quantity.MetricSystem))
	}
	for _, x := range account.Unit.At {
		out = append(out, fmt.Sprintf("in air of %g °C, water of %g °C: %.0f W of %.0f W, rated %v, taken %v", x.AirC, x.WaterC, x.Working.OutputW, x.Working.InputW, x.Rated, account.Unit.Assumed))
	}
	for _, s := range account.Supplies {
		out = append(out, fmt.Sprintf("%v", s.Together))
	}
	if y := account.Year; y == nil {
		t.Error("no year")
	} else {
		out = append(out, fmt.Sprintf("a year: %.4g of %.4g kWh, saves %.4g (%.4g to %.4g)", y.PlannedKWh.Likely, y.TodayKWh.Likely, y.SavingKWh.Likely, y.SavingKWh.Low, y.SavingKWh.High))
	}
	if p.Advice != nil && p.Advice.Best >= 0 {
		out = append(out, "advised: "+p.Advice.Choices[p.Advice.Best].Name.String())
	}
	for k, v := range p.After.Layout.Stage.Values() {
		if v.Dim != settle.Words {
			out = append(out, fmt.Sprintf("%s of %s: %.6g", k.What, k.Of, v.V))
		}
	}
	for _, s := range p.After.Solutions {
		for _, f := range s.Parts {
			out = append(out, fmt.Sprintf("%s %s %.4g m3/h, %.4g kPa, %.3g K %s", s.Mode.Name, f.Part.ID, math.Abs(f.Flow)*3600, f.Drop/1000, f.RiseK, f.State))
		}
	}
	return out
}
