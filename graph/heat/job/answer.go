package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// Account is a job's heat with every value settled, and what was assumed on the way noted: what
// the design day, the sizes and the year are all read from.
type Account struct {
	builder
	scene    *scene
	supplies []Supply
}

// NewAccount settles a job's heat.
func NewAccount(in Input) *Account {
	a := &Account{builder: builder{in: &in}}
	a.scene = a.settle()
	a.supplies = supplies(&in, a.scene, &a.builder)
	return a
}

// Answer works everything out: without weather all but the year.
func (a *Account) Answer(more More) *Report {
	s, b := a.scene, &builder{in: a.in, more: more, assumed: slices.Clone(a.assumed), notes: slices.Clone(a.notes)}
	r := &Report{Supplies: a.supplies}
	for _, e := range a.in.Stage.Net().OtherSources() {
		r.Foreign = append(r.Foreign, e.ID)
	}
	for _, old := range a.in.Old {
		r.OldHeats = append(r.OldHeats, old.Unit.ID)
	}
	b.loss(s, r)
	if r.Cold = a.in.Stage.Circuit.Site.KeptCold(s.tub.SetC); r.Cold {
		r.Assumed = b.list()
		return r
	}
	b.unitTable(s, r)
	b.airs(s, r)
	b.rise(s, r)
	b.sizes(s, r)
	b.shares(s, r)
	if more.Weather != nil {
		r.Notes = append(r.Notes, more.Weather.Notes...)
		r.Unheated = s.today == nil && s.planned == nil
		var likely outcome
		graph.SideBySide(2, func(i int) {
			if i == 0 {
				b.timer(s, r)
			} else {
				likely = b.year(s, r)
			}
		})
		b.pays(s, r, likely)
		r.carried()
	}
	r.Notes = append(r.Notes, b.notes...)
	r.Assumed = b.list()
	return r
}

// Heats returns the unit and the mode in which it heats the tub; nil and "" where not known.
func (a *Account) Heats() (unit *settle.Part, mode string) { return a.in.Unit, a.in.Heating.Mode }

// A DesignDay is what the rules read: the coldest day and the supply.
type DesignDay struct {
	AirC           float64
	Said           bool    // the description names the air
	HeldW, LostW   float64 // output of the unit, while it runs, and loss of the tub there
	Beside         []Given // what each other unit gives there
	MayRun         float64 // share of the day in which it may heat
	RatingsAssumed bool
	StopsC         float64 // coldest air the unit is taken to work in, where nobody said it: StopsTaken
	StopsTaken     bool
	Supplies       []Supply
}

// Design reads the design day alone; HeldW and LostW are 0 without a unit.
func (a *Account) Design() DesignDay {
	s := a.scene
	d := DesignDay{AirC: s.designC, Said: a.in.Stage.Circuit.Site.AirSet, Supplies: a.supplies}
	if s.planned != nil && !a.in.Stage.Circuit.Site.KeptCold(s.tub.SetC) {
		d.RatingsAssumed = !a.in.Unit.BySheet()
		d.StopsC, d.StopsTaken = s.own().Unit.LeastAirC, s.own().Unit.Guessed
		var beside []float64
		d.HeldW, beside, d.LostW = heat.Held(&s.tub, s.planned.Units, a.need(s, 0))
		for i, w := range beside {
			d.Beside = append(d.Beside, Given{ID: s.planned.Units[i+1].Unit.ID, OutputW: w})
		}
		d.MayRun = s.mayRun()
	}
	return d
}

// Given is what a unit gives, W.
type Given struct {
	ID      string
	OutputW float64
}

// loss works out the terms at the design air.
func (b *builder) loss(s *scene, r *Report) {
	t := &s.tub
	air := heat.Air{TempC: s.designC, Humidity: s.humid, Wind: meanWind(b.more.Weather)}
	l := &r.Loss
	l.UA, l.AirC, l.WaterC = t.UA()+t.PipesUA, s.designC, t.SetC
	l.Indoor, l.RoomC = t.Indoor, t.RoomC
	l.StandingW = t.Standing(t.SetC, air)
	l.Open = t.Bathing(t.SetC, air)
	for _, term := range heat.Terms() {
		w := t.SkinUA[term] * (t.SetC - t.Around(air).TempC)
		switch term {
		case heat.TermPipes:
			w = t.PipesUA * (t.SetC - s.designC)
		case heat.TermEvaporate:
			w = l.Open.EvaporationW
		case heat.TermConvect:
			w = l.Open.ConvectionW
		case heat.TermRadiate:
			w = l.Open.RadiationW
		case heat.TermBlown:
			w = heat.Blown(t.AirM3s, t.SetC, t.Around(air))
		}
		if w != 0 || slices.Contains([]heat.Term{heat.TermBathers, heat.TermTopUp, heat.TermRefill}, term) {
			l.Terms = append(l.Terms, TermLoss{Term: term, W: w})
		}
	}
}

// meanWind is the weather's mean wind 10 m up; 2 m/s where there is none.
func meanWind(w *heat.Weather) float64 {
	if w == nil {
		return 2
	}
	sum := 0.0
	for _, a := range w.Hours {
		sum += a.Wind
	}
	return sum / float64(len(w.Hours))
}

// unitTable lists the unit at its ratings and, beside each, at the tub's water; then at the
// design air.
func (b *builder) unitTable(s *scene, r *Report) {
	if s.planned == nil {
		return
	}
	u, flow := s.own().Unit, s.own().FlowM3s
	given := b.in.Unit.BySheet()
	r.Unit.Assumed, r.Unit.ID, r.Unit.FlowM3s = !given, u.ID, flow
	r.Unit.StopsC, r.Unit.StopsTaken = u.LeastAirC, u.Guessed
	for _, other := range b.in.Beside {
		r.Beside = append(r.Beside, other.Unit.ID)
	}
	for _, p := range b.in.Stage.Circuit.Units() {
		if p.ID != u.ID && !p.Removed && !slices.Contains(r.Beside, p.ID) {
			r.Others = append(r.Others, p.ID)
		}
	}
	seen := map[float64]bool{}
	add := func(airC float64) {
		if seen[airC] {
			return
		}
		seen[airC] = true
		here := UnitAt{AirC: airC, WaterC: s.tub.SetC, Working: u.At(heat.Air{TempC: airC, Humidity: s.humid}, s.tub.SetC, flow)}
		if here.Working.OutputW <= 0 { // the sheet's point is in air it does not work in
			stands := false
			for i := range r.Unit.At {
				if at := &r.Unit.At[i]; at.Rated && at.AirC == airC {
					at.Stands, stands = true, true
				}
			}
			if stands {
				return
			}
		}
		if !slices.ContainsFunc(r.Unit.At, here.same) { // the sheet's own point says it
			r.Unit.At = append(r.Unit.At, here)
		}
	}
	for _, x := range u.Ratings {
		if given {
			r.Unit.At = append(r.Unit.At, UnitAt{AirC: x.AirC, WaterC: x.WaterC, Rated: true, Working: heat.Working{OutputW: x.OutputW, InputW: x.InputW}})
		}
		add(x.AirC)
	}
	add(s.designC)
	slices.SortStableFunc(r.Unit.At, func(a, b UnitAt) int {
		return cmp.Or(cmp.Compare(a.AirC, b.AirC), -cmp.Compare(boolInt(a.Rated), boolInt(b.Rated)))
	})
}

// StopsAt reports whether the unit works down to an air only because it is taken to stop there,
// for nobody says where it does.
func (u *UnitReport) StopsAt(airC float64) bool {
	return u.StopsTaken && math.Abs(airC-u.StopsC) < 0.05
}

// BesideTheSheet reports whether a row that is worked out stands at the temperatures of one of the
// sheet's, and says something else for the water the unit gets.
func (u *UnitReport) BesideTheSheet() bool {
	return u.FlowM3s > 0 && slices.ContainsFunc(u.At, func(a UnitAt) bool {
		return !a.Rated && a.Working.OutputW > 0 && slices.ContainsFunc(u.At, func(b UnitAt) bool {
			return b.Rated && math.Abs(a.AirC-b.AirC) < 0.05 && math.Abs(a.WaterC-b.WaterC) < 0.05
		})
	})
}

// same reports whether another line of the table says the same: at the same air and water, to
// a two-hundredth.
func (u UnitAt) same(other UnitAt) bool {
	near := func(a, b, tol float64) bool { return math.Abs(a-b) <= tol }
	return near(u.AirC, other.AirC, 0.05) && near(u.WaterC, other.WaterC, 0.05) &&
		near(u.Working.OutputW, other.Working.OutputW, 0.005*u.Working.OutputW) && near(u.Working.InputW, other.Working.InputW, 0.005*u.Working.InputW)
}

func boolInt(v bool) int {
	if v {
		return 1
	}
	return 0
}

// rise heats the tub up from the fill at the design day's mildest guess and brings it back
// after a bath.
func (b *builder) rise(s *scene, r *Report) {
	plant := s.planned
	if plant == nil {
		plant = s.today
	}
	if plant == nil {
		return
	}
	air := heat.Air{TempC: s.designC, Humidity: s.humid, Wind: meanWind(b.more.Weather)}
	from := b.in.Ask.FromC.Or(s.tub.FillC)
	still := func(float64) heat.Air { return air }
	r.HeatUp = &Rise{FromC: from, ToC: s.tub.SetC, AirC: s.designC}
	through := still
	if day, name, ok := b.day(); ok {
		through, r.HeatUp.Through = day, name
		r.HeatUp.AirC = day(0).TempC
	}
	r.HeatUp.Warmed = heat.WarmThrough(&s.tub, plant, through, from)
	from = heat.Bathed(&s.tub, air)
	r.Recovery = &Rise{FromC: from, ToC: s.tub.SetC, AirC: s.designC, Warmed: heat.WarmThrough(&s.tub, plant, still, from)}
}

// day returns the air from the day that is asked for on, and its name; the year goes round.
func (b *builder) day() (air func(seconds float64) heat.Air, name string, ok bool) {
	w := b.more.Weather
	if w == nil || b.in.Ask.Month == 0 {
		return nil, "", false
	}
	start, ok := w.Day(b.in.Ask.Month, b.in.Ask.Day)
	if !ok {
		return nil, "", false
	}
	return func(seconds float64) heat.Air {
		return w.Hours[(start+int(seconds/3600))%len(w.Hours)]
	}, fmt.Sprintf("%02d-%02d", b.in.Ask.Month, b.in.Ask.Day), true
}

// Noted returns what heat, the year and the supply go by and nobody gave, in the order it was met: the
// settled values among it, and what hangs on the job as a whole.
func (b *builder) Noted() []Assumed {
	return slices.DeleteFunc(slices.Clone(b.assumed), func(a Assumed) bool { return a.Given })
}

// list returns what was assumed and nobody gave, the heaviest first.
func (b *builder) list() []Assumed {
	out := b.Noted()
	slices.SortStableFunc(out, func(x, y Assumed) int { return cmp.Compare(math.Abs(y.MovesKWh), math.Abs(x.MovesKWh)) })
	return out
}
