package job

import (
	"math"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/heat"
)

// need is what the tub asks of a unit.
func (b *builder) need(s *scene, least float64) heat.Need {
	n := heat.Need{DesignC: s.designC, Humidity: s.humid, HeatUpC: s.designC, LeastM3s: least, WithinH: b.in.Stage.Circuit.Site.HeatUpS.Or(0) / 3600}
	if s.planned != nil {
		n.MayRun = s.mayRun()
		n.PumpFullW = s.planned.PumpW * s.planned.PumpHeat
		n.PumpHeatW = n.PumpFullW * math.Min(1, s.planned.FilterH/24)
	}
	return n
}

// mayRun is the share of the day in which the planned plant may heat, by what is said: hours of the pump that
// are a guess are no bound, for whoever sets it sets as many as the cold asks for.
func (s *scene) mayRun() float64 {
	p := *s.planned
	if s.hoursGuessed && p.Runs == heat.PumpHours {
		p.Runs = heat.PumpOnCall
	}
	return p.MayRun()
}

// Neighbours names the rows of the catalogue that are the next size down and up from the job's
// unit, by what they give at its tub in the usual air; none where there is no unit.
func (a *Account) Neighbours() []string {
	var out []string
	below, above := a.neighbours(a.scene)
	for _, row := range []*catalog.Row{below, above} {
		if row != nil {
			out = append(out, row.Name)
		}
	}
	return out
}

// sameSize is how near two outputs are that are one size, as a share. Source: judgement.
const sameSize = 0.07

func (b *builder) neighbours(s *scene) (below, above *catalog.Row) {
	if s.planned == nil {
		return nil, nil
	}
	own := inUsualAir(s.own().Unit, s.tub.SetC)
	if own <= 0 {
		return nil, nil
	}
	var least, most float64
	for _, row := range UnitRows(b.in.Stage.Catalog()) {
		switch w := inUsualAir(b.fromRow(row), s.tub.SetC); {
		case w < (1-sameSize)*own && (below == nil || w > least):
			below, least = &row, w
		case w > (1+sameSize)*own && (above == nil || w < most):
			above, most = &row, w
		}
	}
	return below, above
}

// inUsualAir is what a unit gives in the usual air to water of setC, W, whether or not it works
// there: one that stops in milder air is no smaller for that.
func inUsualAir(u *heat.Unit, setC float64) float64 {
	all := *u
	all.HasLeast = false
	return all.At(heat.Air{TempC: usualAirC, Humidity: usualHumidity}, setC, 0).OutputW
}

// UnitRows lists the heat pumps of a catalogue that are told by their size.
func UnitRows(cat *catalog.Catalog) []catalog.Row {
	var out []catalog.Row
	for row := range cat.All() {
		if row.Kind == string(graph.HeatPump) && (row.PowerW > 0 || len(row.Ratings) > 0) {
			out = append(out, *row)
		}
	}
	return out
}

// sizes holds the job's unit and the next sizes of the catalogue down and up against the tub.
func (b *builder) sizes(s *scene, r *Report) {
	if s.planned == nil {
		return
	}
	below, above := b.neighbours(s)
	if below != nil {
		r.Sizes = append(r.Sizes, b.sizeOfRow(s, below))
	}
	own := b.sized(s, *s.own(), b.need(s, b.in.Unit.Least.V))
	own.This = true
	r.Unit.HoldsC, r.Unit.HoldsKnown, r.Unit.MayRun = own.HoldsC, own.HoldsKnown, s.mayRun()
	if w := b.more.Weather; w != nil && own.HoldsKnown {
		for _, a := range w.Hours {
			if a.TempC < own.HoldsC {
				r.Unit.Colder++
			}
		}
	}
	r.Sizes = append(r.Sizes, own)
	if above != nil {
		r.Sizes = append(r.Sizes, b.sizeOfRow(s, above))
	}
}

// sizeOfRow holds a row of the catalogue against the tub, at the flow it would get there.
func (b *builder) sizeOfRow(s *scene, row *catalog.Row) Sized {
	one := *s.own()
	if flow, ok := b.more.OfSize[row.Name]; ok {
		one.FlowM3s = flow
	}
	one.Unit = b.fromRow(*row)
	return b.sized(s, one, b.need(s, row.Least))
}

// sized holds one unit in the place of the job's against what the tub needs of it, with those beside it.
func (b *builder) sized(s *scene, one heat.Served, need heat.Need) Sized {
	sized := heat.Size(&s.tub, append([]heat.Served{one}, s.planned.Units[1:]...), need)
	if b.in.Heating.FlowM3s <= 0 {
		sized.Flow = true // not known: the flow rules speak of it
	}
	out := Sized{Unit: one.Unit.ID, Sized: sized}
	for _, x := range []struct {
		ok   bool
		word string
	}{{sized.Hold, "hold"}, {sized.Time, "time"}, {sized.Flow, "flow"}, {sized.Water, "water"}} {
		if !x.ok {
			out.Reasons = append(out.Reasons, x.word)
		}
	}
	return out
}

// UnitHolds reports how the job's own unit meets the tub; nil where there is none.
func (r *Report) UnitHolds() *Sized {
	for i := range r.Sizes {
		if r.Sizes[i].This {
			return &r.Sizes[i]
		}
	}
	return nil
}
