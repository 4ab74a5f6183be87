package job

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph/heat"
)

// Sampled is what the flows came to at the points a year's ranges stand on: both
// are worked out at the same points, the year's unknowns in coordinates of their own.
type Sampled struct {
	Points  []int     // of the sample, those worked out; nil: sample.Few
	All     []int     // those that they stand for; nil: sample.All
	FlowM3s []float64 // through the unit, point by point; NaN: no answer there; nil: the flow as described in all
}

// year compares the year as it is with the year as planned, with ranges from one sample of
// both. It returns what neither spread nor change comes to.
func (b *builder) year(s *scene, r *Report) (likely outcome) {
	y := &YearReport{Priced: s.tariff.Known}
	likely, y.Today, y.Planned = b.run(s)
	if y.Planned == nil && y.Today == nil {
		return likely
	}
	r.Year = y
	ends := b.ends(s, likely)
	all := b.sampled(s, y, likely, ends)
	y.BathsSpread = s.tub.Use.OpenS > 0 && s.tub.Use.TimesAWeek < 7
	pick := func(of func(outcome) float64) Range { return rangeOf(all, likely, of) }
	y.TodayKWh = pick(func(o outcome) float64 { return o.todayKWh })
	y.PlannedKWh = pick(func(o outcome) float64 { return o.plannedKWh })
	y.SavingKWh = pick(func(o outcome) float64 { return o.todayKWh - o.plannedKWh })
	y.SavingCost = pick(func(o outcome) float64 { return o.todayCost - o.plannedCost })
	y.SavingShare = pick(outcome.share)
	b.influences(r, ends)
	b.terms(y, r)
	b.other(s, y)
	b.payback(y)
	return likely
}

// outcome is what one set of values comes to in a year.
type outcome struct{ todayKWh, plannedKWh, todayCost, plannedCost float64 }

func (o outcome) share() float64 {
	if o.todayKWh <= 0 {
		return 0
	}
	return 1 - o.plannedKWh/o.todayKWh
}

// run works out both years of a scene.
func (b *builder) run(s *scene) (o outcome, today, planned *heat.Account) {
	weather := b.more.Weather
	if s.airK != 0 {
		w := *weather
		w.WarmerK = s.airK
		weather = &w
	}
	if s.today != nil {
		tub := s.tubToday()
		today = heat.Year(&tub, s.today, weather, s.tariff)
		o.todayKWh, o.todayCost = today.KWh, today.Cost
	}
	if s.planned != nil {
		planned = heat.Year(&s.tub, s.planned, weather, s.tariff)
		o.plannedKWh, o.plannedCost = planned.KWh, planned.Cost
	}
	return o, today, planned
}

// at returns the value at a share u of the sample: half of it on either side of what is
// taken as likely, evenly spread on each.
func (a *Assumed) at(u float64) float64 {
	middle := 1.0
	if a.Adds {
		middle = 0
	}
	if u < 0.5 {
		return a.Low + 2*u*(middle-a.Low)
	}
	return middle + (2*u-1)*(a.High-middle)
}

// scaleCOP divides every input of a unit by a factor.
func scaleCOP(u *heat.Unit, f float64) {
	u.Ratings = slices.Clone(u.Ratings)
	for i := range u.Ratings {
		u.Ratings[i].InputW /= f
	}
}

// rangeOf returns the middle nine tenths of a sample.
func rangeOf(all []outcome, likely outcome, of func(outcome) float64) Range {
	values := make([]float64, len(all))
	for i, o := range all {
		values[i] = of(o)
	}
	slices.Sort(values)
	at := func(share float64) float64 { return values[int(math.Round(share*float64(len(values)-1)))] }
	v := of(likely)
	return Range{Low: math.Min(v, at(0.05)), Likely: v, High: math.Max(v, at(0.95))}
}

// mostMoves is how many of what moves the saving most are named.
const mostMoves = 3

// influences says what each value alone moves, by what it makes of the years at its ends.
func (b *builder) influences(r *Report, ends [][2]outcome) {
	y := r.Year
	for k := range b.assumed {
		a := &b.assumed[k]
		if a.apply == nil {
			continue
		}
		var year, saving [2]float64
		for j, o := range ends[k] {
			switch year[j] = o.plannedKWh; {
			case y.Planned == nil:
				year[j] = o.todayKWh
				saving[j] = year[j]
			case y.Today == nil:
				saving[j] = year[j]
			default:
				saving[j] = o.todayKWh - o.plannedKWh
			}
		}
		a.MovesKWh, a.Saving = (year[1]-year[0])/2, (saving[1]-saving[0])/2
	}
	for _, a := range b.assumed {
		if a.apply != nil {
			r.Moves = append(r.Moves, a)
		}
	}
	slices.SortStableFunc(r.Moves, func(x, y Assumed) int { return cmp.Compare(math.Abs(y.Saving), math.Abs(x.Saving)) })
	r.Moves = r.Moves[:min(mostMoves, len(r.Moves))]
}

// terms enters what each way of losing heat takes in the planned year.
func (b *builder) terms(y *YearReport, r *Report) {
	account := y.Planned
	if account == nil {
		account = y.Today
	}
	r.Loss.KWhYear = true
	for i := range r.Loss.Terms {
		r.Loss.Terms[i].KWhYear = account.Terms[r.Loss.Terms[i].Term]
	}
}

// The other ways of a planned year.
const (
	UnitAlone   = "unit alone"
	WithElement = "unit and element"
)

// other works out the planned year with the unit alone where the element helps, else with today's
// element as a back-up.
func (b *builder) other(s *scene, y *YearReport) {
	elements := b.elements()
	if s.planned == nil || len(elements) == 0 {
		return
	}
	c := s.clone()
	if y.OtherWay = UnitAlone; s.planned.ElementW > 0 {
		c.planned.ElementW, c.planned.ApartW, c.planned.TopW = 0, 0, 0
	} else {
		y.OtherWay = WithElement
		c.planned.ElementW, c.planned.ApartW, c.planned.TopW = b.elementsW(elements), 0, 0
	}
	c.today = nil
	_, _, y.Other = b.run(c)
}

// payback divides the bill and the labour, with margin and tax, by the saving. The unit is most
// of a bill: while it has no price there is no payback, not even a least one.
func (b *builder) payback(y *YearReport) {
	if y.Stands = b.in.Unit != nil && b.in.Unit.Existing; y.Stands {
		return
	}
	t := b.in.Stage.Circuit.Tariff
	if !y.Priced || t == nil || y.Today == nil || y.Planned == nil || y.SavingCost.Likely <= 0 || y.Cold() {
		return
	}
	if b.more.Bill.UnitOpen {
		y.PaybackWantsUnit = true
		return
	}
	work, priced := money(t.Work)
	total := (b.more.Bill.Total + work) * cmp.Or(b.more.Bill.Times, 1)
	if total <= 0 {
		return
	}
	y.PaybackKnown, y.PaybackAtLeast = true, !priced || !b.more.Bill.Complete
	years := func(saving float64) float64 {
		if saving <= 0 {
			return math.Inf(1)
		}
		return total / saving
	}
	y.Payback = Range{Low: years(y.SavingCost.High), Likely: years(y.SavingCost.Likely), High: years(y.SavingCost.Low)}
}

// coldYearK is by how much colder the water may get than today before what a year takes less is
// no saving, K. Judgement.
const coldYearK = 5

// Cold reports whether the planned year lets the water get so much colder than today's does that
// what it takes less is heat that is missing, and no saving.
func (y *YearReport) Cold() bool {
	return y.Today != nil && y.Planned != nil && y.Planned.ColdestC < y.Today.ColdestC-coldYearK
}
