package job

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// plants settles what heats the tub: the element as today, and the unit as planned with the
// element as a back-up where it stays.
func (b *builder) plants(s *scene) {
	watts, heatShare, filter, runs := b.pump(s)
	elements := b.elements()
	base := heat.Plant{PumpW: watts, PumpHeat: heatShare, FilterH: filter, Runs: runs, Heating: heat.AnyTime(), OtherW: b.otherSpeeds()}
	if u := b.in.Stage.Circuit.Use; u != nil && len(u.Heating) > 0 {
		base.Heating = heat.Shares(windows(u.Heating))
	}
	known := len(b.in.Old) > 0
	for _, old := range b.in.Old {
		known = known && (old.Unit.BySheet() || old.Unit.Row.How != settle.Assumed)
	}
	switch {
	case known:
		today := base
		for _, old := range b.in.Old {
			today.Units = append(today.Units, heat.Served{Unit: b.unit(old.Unit), FlowM3s: old.FlowM3s})
		}
		b.kept(&today, elements)
		s.today = &today
	case len(elements) > 0 && len(b.in.Old) == 0:
		today := base
		today.Runs = heat.PumpOnCall
		today.ElementW = b.elementsW(elements)
		s.today = &today
	}
	if b.in.Unit == nil {
		return
	}
	planned := base
	planned.Units = b.served(s)
	b.duty()
	b.kept(&planned, elements)
	s.planned = &planned
	b.vary("heat that the pump gives the water", 0.6, 1.5, func(s *scene, f float64) { s.plants(func(p *heat.Plant) { p.PumpHeat = min(1, p.PumpHeat*f) }) })
}

func windows(list []graph.Hours) []heat.Window {
	var out []heat.Window
	for _, h := range list {
		out = append(out, heat.Window{FromH: hours(h.From), ToH: hours(h.To)})
	}
	return out
}

// elements are the element heaters that heat the tub today, in the order of the description. One that is to be
// disconnected heats until the work that fits the unit is done; in a job without a unit it is off as described.
func (b *builder) elements() []*settle.Part {
	var out []*settle.Part
	unitless := len(b.in.Stage.Circuit.Units()) == 0
	for _, p := range b.in.Stage.Parts {
		if p.Kind == graph.ElementHeater && p.Element != nil && (p.Existing || b.in.Unit == nil) &&
			!(unitless && p.Element.Disconnected) && !b.in.Stage.Net().Apart(p.Part) {
			out = append(out, p)
		}
	}
	return out
}

// elementsW is what some elements make together, W.
func (b *builder) elementsW(elements []*settle.Part) float64 {
	sum := 0.0
	for _, p := range elements {
		sum += b.powerOf(p, "element")
	}
	return sum
}

// kept gives a plant the elements that stay connected: all they make, how much of it is kept apart from
// the unit, and how much has a set point of its own; of several the highest.
func (b *builder) kept(plant *heat.Plant, elements []*settle.Part) {
	for _, p := range elements {
		e := p.Element
		if e.Disconnected {
			continue
		}
		watts := b.powerOf(p, "element")
		plant.ElementW += watts
		if keepsApart(e.Interlock) {
			plant.ApartW += watts
		}
		if e.Interlock == graph.InterlockSetPoint && e.SetPointSet {
			plant.TopW += watts
			plant.TopC = max(plant.TopC, e.SetPointC)
		}
	}
}

// pumpHeatShare is the part of a pump's power that ends in the water. Source: judgement, the
// shaft power of small wet-end pumps.
const pumpHeatShare = 0.6

// pump settles the power of the pump at the speed that heats, the share of it that warms the
// water, the hours a day in which it runs anyway, and how it runs for heat.
func (b *builder) pump(s *scene) (watts, heatShare, filter float64, runs heat.PumpRuns) {
	h := b.in.Heating
	runs = heat.PumpOnCall
	if h.Pump == nil || len(h.Pump.Speeds.V) == 0 {
		return 0, 0, 0, runs
	}
	data, speeds := h.Pump.Pump, h.Pump.Speeds.V
	heatShare = pumpHeatShare
	power := func(s *scene, f float64) { s.plants(func(p *heat.Plant) { p.PumpW *= f }) }
	speed := speedOf(speeds, h.Speed)
	watts = b.pumpPower(h.Pump, h.Speed, power)
	if e := h.Pump.EfficiencyAt(h.Speed); e > 0 && h.WaterTodayW > 0 {
		watts = h.WaterTodayW / e // as flow has it
	}
	switch hours := speed.HoursADay; {
	case hours.Set:
		filter = hours.V
	case data.NeverOff():
		filter = 24
	case len(speeds) < 2 && b.isCirculation(h.Pump):
		filter = b.hoursOf(h.Pump, 24, "a pump that heats, with others for the jets, mostly runs day and night; common practice, no source; say always-on or hours-a-day", 0.25, 1)
	default:
		s.hoursGuessed = true
		filter = b.hoursOf(h.Pump, 4, "common practice, no source: two to eight; say hours-a-day", 0.5, 2)
	}
	if data != nil {
		switch data.RunsForHeat {
		case "hours":
			runs = heat.PumpHours
		case "always":
			runs, filter = heat.PumpAlways, 24
		}
	}
	for _, other := range b.otherPumps() {
		if other.Pump.Pump.NeverOff() {
			continue // it is among the others by its day, see otherSpeeds
		}
		more, hours := b.pumpPower(other.Pump, other.Speed, power), speedOf(other.Pump.Speeds.V, other.Speed).HoursADay.Or(0)
		if slices.Contains(b.in.Heating.With, other) {
			hours = max(hours, filter)
		}
		// As many kWh a day as each takes by its own hours; a pump that has none runs in those in which heat is made.
		if together := runs != heat.PumpOnCall && hours <= filter; !together && watts+more > 0 {
			filter = (watts*filter + more*hours) / (watts + more)
		}
		watts += more
	}
	return watts, heatShare, filter, runs
}

// hoursOf assumes in how many hours a day a pump filters.
func (b *builder) hoursOf(pump *settle.Part, hours float64, source quantity.Text, low, high float64) float64 {
	b.assumeOf(pump.Part, quantity.Text("hours a day in which "+name(pump.Part)+" filters"), hours, quantity.Time, source, low, high,
		func(s *scene, f float64) { s.plants(func(p *heat.Plant) { p.FilterH = min(24, p.FilterH*f) }) })
	b.assumed[len(b.assumed)-1].Value *= 3600
	return hours
}

// otherPumps are the pumps that run for heat with that of the job's unit: those that run wherever that does, and those
// that move the water of units beside it; each once.
func (b *builder) otherPumps() []Running {
	var out []Running
	all := slices.Clone(b.in.Heating.With)
	for _, other := range b.in.Beside {
		all = append(all, Running{Pump: other.Pump, Speed: other.Speed})
	}
	for _, other := range all {
		same := func(o Running) bool { return o.Pump.ID == other.Pump.ID }
		if other.Pump == nil || other.Pump.Pump == nil || b.in.Heating.Pump != nil && other.Pump.ID == b.in.Heating.Pump.ID || slices.ContainsFunc(out, same) {
			continue
		}
		out = append(out, other)
	}
	return out
}

// powerOf is what an element or a blower takes, W; it is noted where nobody said it.
func (b *builder) powerOf(p *settle.Part, kind string) float64 {
	v := p.Power
	if v.How != settle.Assumed {
		return v.V
	}
	return b.once(p, quantity.Text("power of the "+kind+" "+name(p.Part)), v, nil)
}

// once notes a settled value of a part that nobody gave, if it is not noted yet, and returns it.
func (b *builder) once(p *settle.Part, what quantity.Text, v settle.Value, apply func(*scene, float64)) float64 {
	if slices.ContainsFunc(b.assumed, func(a Assumed) bool { return a.What == what }) {
		return v.V
	}
	low, high := 1+v.Low, 1+v.High
	if apply == nil {
		low, high = 0, 0
	}
	b.assumeOf(p.Part, what, v.V, v.Dim, v.Why, low, high, apply)
	b.assumed[len(b.assumed)-1].Settled = true
	return v.V
}

// pumpPower is what a pump takes at a speed, W; it is noted where nobody said it, apply is what it
// moves.
func (b *builder) pumpPower(p *settle.Part, speed string, apply func(*scene, float64)) float64 {
	v := p.PowerAt(speed)
	if v.How != settle.Assumed {
		return v.V
	}
	return b.once(p, quantity.Text("power of the pump "+name(p.Part)+" at "+speed), v, apply)
}

// otherSpeeds is what all speeds but the one that heats draw as a mean over the day, by the hours
// that are given; a speed without hours, as the jets', runs as long in either year. A pump that never stops
// and is not the one that heats runs the rest of the day too: at its speed in the mode that heats, else at its first.
// The one that heats, where it never stops, is counted all day at that speed: of its others it is what they draw more.
func (b *builder) otherSpeeds() float64 {
	sum := 0.0
	for _, p := range b.in.Stage.Parts {
		if p.Kind != graph.Pump || p.Removed || len(p.Speeds.V) == 0 {
			continue
		}
		ours, at := b.callsFor(p)
		always := !ours && p.Pump.NeverOff() && !b.in.Stage.Net().Apart(p.Part)
		heats := speedOf(p.Speeds.V, at)
		allDay := ours && p.Pump.NeverOff() && (p.Pump.RunsForHeat == graph.RunsAlways || !heats.HoursADay.Set)
		rest := 24.0
		for _, speed := range p.Speeds.V {
			if speed.HoursADay.Set && (always || speed.Name != at) {
				watts := b.pumpPower(p, speed.Name, nil)
				if allDay {
					watts -= b.pumpPower(p, at, nil)
				}
				sum += watts * speed.HoursADay.V / 24
				rest -= speed.HoursADay.V
			}
		}
		if at == "" {
			at = p.Speeds.V[0].Name
		}
		if always && rest > 0 && !speedOf(p.Speeds.V, at).HoursADay.Set {
			sum += b.pumpPower(p, at, nil) * rest / 24
		}
	}
	return sum
}

// callsFor returns at which speed a pump runs while heat is made, "" where it does not, and whether it is the one
// of the job's unit.
func (b *builder) callsFor(p *settle.Part) (ours bool, speed string) {
	if b.in.Heating.Pump != nil && p.ID == b.in.Heating.Pump.ID {
		return true, b.in.Heating.Speed
	}
	for _, other := range b.otherPumps() {
		if other.Pump.ID == p.ID {
			return false, other.Speed
		}
	}
	return false, ""
}

// duty counts by how much less the pump may draw after the work than today at the speed that heats.
// The unit's head is on top of today's, so the flow is less, and a radial wheel draws the less the less
// it moves (the curves of power in any sheet; Karassik, Pump Handbook, from memory). How much less is
// not worked out and taken as no saving, for wheel and motor get worse off their best: only the range
// goes below, as far as what it gives the water at one efficiency.
func (b *builder) duty() {
	h := b.in.Heating
	if h.WaterTodayW <= 0 || h.WaterPlannedW <= 0 {
		return
	}
	b.assumeOf(h.Pump.Part, quantity.Text("what "+name(h.Pump.Part)+" draws after the work, of what it draws today"), 1, number,
		"less water through it draws no more, and is not taken as a saving; judgement", min(1, max(h.WaterPlannedW/h.WaterTodayW, leastDuty)), 1,
		func(s *scene, v float64) {
			if s.planned != nil {
				s.planned.PumpW *= v
			}
		})
}

// leastDuty is by how much the power a pump draws may fall with its duty at one speed. Source:
// judgement, power curves of small pumps, which are flatter than their water power.
const leastDuty = 0.7

// isCirculation reports whether a pump of one speed is not the one for the jets alone: it is
// the pump that heats, so it runs day and night in a tub with jet pumps apart; not one that heats with another.
func (b *builder) isCirculation(pump *settle.Part) bool {
	return len(b.in.Stage.Circuit.OfKind(graph.Pump)) > 1 && pump == b.in.Heating.Pump && len(b.in.Heating.With) == 0
}

func speedOf(speeds []graph.Speed, name string) graph.Speed {
	for _, s := range speeds {
		if s.Name == name {
			return s
		}
	}
	return graph.Speed{}
}

// served settles the units that heat together, the job's first.
func (b *builder) served(s *scene) []heat.Served {
	parts, out := []*settle.Part{b.in.Unit}, []heat.Served{{Unit: b.unit(b.in.Unit), FlowM3s: b.in.Heating.FlowM3s}}
	for _, other := range b.in.Beside {
		parts = append(parts, other.Unit)
		one := heat.Served{FlowM3s: other.FlowM3s}
		if s.today != nil {
			for _, old := range s.today.Units { // it heats today as it will
				if old.Unit.ID == other.Unit.ID {
					one.Unit = old.Unit
				}
			}
		}
		if one.Unit == nil {
			one.Unit = b.unit(other.Unit)
		}
		out = append(out, one)
	}
	highest := math.Inf(-1)
	for _, p := range parts {
		if p.Unit.SetPointSet {
			highest = max(highest, p.Unit.SetPointC)
		}
	}
	for i, p := range parts {
		if p.Unit.SetPointSet {
			out[i].BelowK = highest - p.Unit.SetPointC
		}
		if i < len(b.in.Warmed) {
			out[i].Warmed = b.in.Warmed[i]
		}
	}
	return out
}

// unit settles a heat pump.
func (b *builder) unit(p *settle.Part) *heat.Unit {
	scale := func(s *scene, f float64) { s.unit(p.ID, func(u *heat.Unit) { scaleCOP(u, f) }) }
	u := unitOf(p, b.in.Fluid)
	data := p.Unit
	genericSource := b.ratedRow(p.Row.V).RatingsSource
	if !p.BySheet() {
		generic := b.fromRow(p.Row.V)
		u.Ratings = generic.Ratings
		if !u.HasLeast {
			u.LeastAirC, u.HasLeast, u.Guessed = generic.LeastAirC, true, true
			b.leastAir(p.Part, u.LeastAirC, genericSource)
		}
		told := toldAt(u.Ratings)
		b.assumeOf(p.Part, quantity.Say("output of %s in air of %s", name(p.Part), quantity.Temperature.Of(told.AirC)), told.OutputW, quantity.Power, genericSource, 0.75, 1.25, func(s *scene, f float64) {
			s.unit(p.ID, func(u *heat.Unit) {
				u.Ratings = slices.Clone(u.Ratings)
				for i := range u.Ratings {
					u.Ratings[i].OutputW, u.Ratings[i].InputW = u.Ratings[i].OutputW*f, u.Ratings[i].InputW*f
				}
			})
		})
	}
	if row := b.ratedRow(p.Row.V); !u.HasMost && row.MostWaterC != nil {
		u.MostC, u.HasMost = *row.MostWaterC, true
		b.assumeOf(p.Part, quantity.Text("hottest water that "+name(p.Part)+" makes"), u.MostC, quantity.Temperature, row.RatingsSource, 0, 0, nil)
	}
	if p.BySheet() && !u.HasLeast {
		u.LeastAirC, u.HasLeast, u.Guessed = usualLeastC, true, true
		for _, r := range u.Ratings {
			u.LeastAirC = min(u.LeastAirC, r.AirC)
		}
		b.leastAir(p.Part, u.LeastAirC, "many stop there, from memory; say least-air")
	}
	if frostUnsaid(p) {
		b.assumeOf(p.Part, quantity.Say("defrosts in the figures of %s below %s", name(p.Part), quantity.Temperature.Of(heat.FrostBelowC)), 1, number, "EN 14511 counts them in (from memory); say defrost at the unit's ratings", 0.91, 1.0, scale)
	}
	spread, _ := u.At(heat.Air{TempC: 5, Humidity: usualHumidity}, b.in.SetC, 0).Basis.Spread()
	if !p.BySheet() {
		spread = 0.2
		told := toldAt(u.Ratings)
		b.assumeOf(p.Part, quantity.Say("COP of %s in air of %s", name(p.Part), quantity.Temperature.Of(told.AirC)), told.COP(), number, genericSource, 1-spread, 1+spread, scale)
	} else {
		b.vary(quantity.Text("COP of "+name(p.Part)), 1-spread, 1+spread, scale)
	}
	if !data.StandbyW.Set {
		u.StandbyW = b.assumeOf(p.Part, quantity.Text("stand-by of "+name(p.Part)), genericStandbyW, quantity.Power, "median of certified units up to 20 kW: hplib, doi:10.5281/zenodo.5521597", 0.6, 1.5,
			func(s *scene, f float64) { s.unit(p.ID, func(u *heat.Unit) { u.StandbyW *= f }) })
	}
	if !data.StartLossKWh.Set {
		at := u.At(heat.Air{TempC: 7, Humidity: usualHumidity}, b.in.SetC, 0)
		u.StartJ = 90 * at.InputW
		b.assumeOf(p.Part, quantity.Text("energy lost at each start of "+name(p.Part)), u.StartJ/heat.JoulesPerKWh, quantity.Energy, "judgement: a minute and a half of input", 0.5, 2,
			func(s *scene, f float64) { s.unit(p.ID, func(u *heat.Unit) { u.StartJ *= f }) })
	}
	return u
}

// usualLeastC is the coldest air in which a unit runs whose sheet does not say it. Source: from
// memory; the sheet beats it.
const usualLeastC = -7.0

// Where units stop that do not say it: from milder to colder than what is usual, K. Source: common
// practice, no source: the simplest stop in light frost, those with an inverter near -15 °C.
const leastMilderK, leastColderK = 5.0, -8.0

// leastAir notes the coldest air in which a unit runs, °C, which nobody said.
func (b *builder) leastAir(p *graph.Part, leastC float64, source quantity.Text) {
	b.assumeOf(p, quantity.Text("coldest air in which "+name(p)+" runs"), leastC, quantity.Temperature, source, leastColderK, leastMilderK, func(s *scene, d float64) {
		s.unit(p.ID, func(u *heat.Unit) { u.LeastAirC += d })
	})
	b.assumed[len(b.assumed)-1].Adds = true
}

// frostUnsaid reports whether a rating in frost does not say whether defrosts are in it.
func frostUnsaid(p *settle.Part) bool {
	if !p.BySheet() {
		return false
	}
	for _, r := range p.Ratings.V {
		if r.AirC < heat.FrostBelowC && r.Defrost == nil && p.Unit.RatingsAt.Defrost == nil {
			return true
		}
	}
	return false
}

// unitOf is what its sheet says of a unit: the description, or the user's row it names.
func unitOf(p *settle.Part, fluid heat.Fluid) *heat.Unit {
	d := p.Unit
	u := &heat.Unit{ID: p.ID, RatedFlow: p.Rated.V, LeastAirC: p.LeastAir.V, HasLeast: p.LeastAir.Known, MostC: p.MostWater.V, HasMost: p.MostWater.Known,
		Inverter: d.Inverter, LeastW: d.LeastOutputW.Or(0), StandbyW: d.StandbyW.Or(0), StartJ: d.StartLossKWh.Or(0) * heat.JoulesPerKWh, Fluid: fluid}
	if !p.BySheet() {
		return u
	}
	for _, r := range p.Ratings.V {
		input := r.Input()
		if input <= 0 || r.OutputW <= 0 {
			continue
		}
		waterIs, frost := r.WaterIs, r.Defrost
		if waterIs == "" {
			waterIs = d.RatingsAt.WaterIs
		}
		if frost == nil {
			frost = d.RatingsAt.Defrost
		}
		u.Ratings = append(u.Ratings, heat.Rating{AirC: r.AirC, WaterC: r.WaterC, OutputW: r.OutputW, InputW: input,
			Leaving: waterIs == "leaving", Frost: frost == nil && r.AirC < heat.FrostBelowC || frost != nil && *frost})
	}
	return u
}
