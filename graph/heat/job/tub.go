package job

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// number stands for the dimension of a value that is a number alone.
const number = quantity.Dimension(-1)

// tub settles the water, its skin and its use.
func (b *builder) tub(s *scene) {
	c := b.in.Stage.Circuit
	t := &s.tub
	t.Fluid, t.SetC = b.in.Fluid, b.in.Ask.ToC.Or(b.in.SetC)
	volume := b.in.Stage.Water.Volume
	t.VolumeM3 = volume.V
	if volume.How == settle.Assumed {
		b.assume("volume of the water", volume.V, quantity.Volume, volume.Why, 1+volume.Low, 1+volume.High, func(s *scene, f float64) { s.tub.VolumeM3 *= f })
	}
	t.FillC = c.Site.TapC()
	if !c.Site.FillC.Set {
		b.assume("temperature of the tap", t.FillC, quantity.Temperature, "judgement: between the mains of winter and of summer", -5, 6, func(s *scene, d float64) { s.tub.FillC += d })
		b.assumed[len(b.assumed)-1].Adds = true
	}
	b.room(t)
	b.skin(t)
	b.pipes(s)
	b.use(t)
	b.air(t)
}

// usualRoomC is the air of a room with a tub in it where nobody says it: a cellar or a
// conservatory is cooler, a pool hall is kept as warm as its water. Source: judgement.
const usualRoomC = 22

// room settles whether the tub stands in a room, and how warm that is.
func (b *builder) room(t *heat.Tub) {
	site := b.in.Stage.Circuit.Site
	t.Indoor, t.RoomC = site.Indoor(), site.RoomC.Or(usualRoomC)
	warmer := func(s *scene, d float64) { s.tub.RoomC += d }
	switch {
	case !t.Indoor:
	case site.RoomC.Set:
		b.assumed = append(b.assumed, Assumed{What: "air of the room", Given: true, Value: t.RoomC, Dim: quantity.TemperatureDifference, Low: -1, High: 1, Adds: true, apply: warmer})
	default:
		b.assumed = append(b.assumed, Assumed{What: "air of the room the tub stands in", Value: t.RoomC, Dim: quantity.Temperature, Source: graph.Say("judgement: %s to %s; say [site] room", quantity.Temperature.About(16), quantity.Temperature.About(28)), Low: -6, High: 6, Adds: true, apply: warmer})
	}
}

// scaleSkin is a sample's change of one term of the skin.
func scaleSkin(term heat.Term) func(*scene, float64) {
	return func(s *scene, f float64) { s.tub.SkinUA[term] *= f }
}

// usualSkin takes the standing loss to be that of a usual tub.
func (b *builder) usualSkin(t *heat.Tub) {
	t.SkinUA[heat.TermTub] = b.assume("standing loss for each degree", b.usualUA(t.VolumeM3), quantity.Conductance, b.usualSource(), 0.6, 1.7, scaleSkin(heat.TermTub))
}

// skin settles the standing loss: from a measured fall, a standing power, a figure for each
// kelvin, or from cover and shell; what is missing is that of a usual tub.
func (b *builder) skin(t *heat.Tub) {
	c := b.in.Stage.Circuit
	t.SkinUA = map[heat.Term]float64{}
	usual, usualSource := b.usualUA(t.VolumeM3), b.usualSource()
	if h := c.HeatLoss; h != nil {
		switch {
		case h.Fall != nil:
			b.fall(t, h.Fall)
			return
		case h.Standing != nil:
			t.SkinUA[heat.TermTub] = heat.StandingUA(h.Standing.PowerW.V, h.Standing.WaterC.V, h.Standing.AirC.V)
			b.vary("standing loss", 0.9, 1.1, scaleSkin(heat.TermTub))
			return
		case h.UA.Set:
			t.SkinUA[heat.TermTub] = h.UA.V
			b.vary("standing loss", 0.93, 1.07, scaleSkin(heat.TermTub))
			return
		}
	}
	cover, covered := b.cover(c.Cover)
	shell, shelled := b.shells(c.Shells)
	switch {
	case !covered && !shelled:
		b.usualSkin(t)
	default:
		if t.SkinUA[heat.TermCover] = cover; !covered {
			t.SkinUA[heat.TermCover] = b.assume("loss through the cover for each degree", usual*coverShare, quantity.Conductance, quantity.Say("half of %s", usualSource), 0.6, 2, scaleSkin(heat.TermCover))
		} else {
			b.vary("loss through the cover", 0.9, 1.8, scaleSkin(heat.TermCover)) // soaked, or gaping at the hinge: judgement
		}
		if t.SkinUA[heat.TermShell] = shell; !shelled {
			t.SkinUA[heat.TermShell] = b.assume("loss through walls and floor for each degree", usual*(1-coverShare), quantity.Conductance, quantity.Say("half of %s", usualSource), 0.6, 1.8, scaleSkin(heat.TermShell))
		} else {
			b.vary("loss through walls and floor", 0.9, 1.3, scaleSkin(heat.TermShell))
		}
	}
}

// tubs is how many tubs share the unit's water: each has a skin and a surface of its own. At least 1.
func (b *builder) tubs() int {
	net, n := b.in.Stage.Net(), 0
	for _, p := range b.in.Stage.Circuit.OfKind(graph.Tub) {
		if !net.Apart(p) {
			n++
		}
	}
	return max(n, 1)
}

// usualSource says where the usual standing loss is from.
func (b *builder) usualSource() quantity.Text {
	if n := b.tubs(); n > 1 {
		return quantity.Say("what a limit for factory-made ones allowed %d tubs that share this volume alike (California, title 20, 2006)", n)
	}
	return "what a limit for factory-made tubs of this volume allowed (California, title 20, 2006)"
}

// usualUA is the usual standing loss [W/K] of the tubs that share a volume [m³], as of tubs of one size.
func (b *builder) usualUA(volumeM3 float64) float64 {
	n := float64(b.tubs())
	return n * heat.TubUA(volumeM3/n)
}

// coverShare is the cover's part of a usual tub's loss. Source: judgement.
const coverShare = 0.5

// fall calibrates the standing loss by a watched fall of the temperature.
func (b *builder) fall(t *heat.Tub, f *graph.LossFall) {
	fall := heat.Fall{FromC: f.FromC.V, ToC: f.ToC.V, Seconds: f.InS.V, AirC: f.AirC.V, HeatW: f.HeatW.Or(0)}
	ua, err := fall.UA(t.Capacity())
	if err != nil {
		b.notes = append(b.notes, "[heat-loss] fall: "+err.Error()+"; the loss of a usual tub is taken")
		b.usualSkin(t)
		return
	}
	t.SkinUA[heat.TermTub] = ua
	low, high := fall.UARange(t.Capacity(), f.PlusMinusK.Or(0.2))
	if low < ua/vagueFall || high > ua*vagueFall {
		b.notes = append(b.notes, "[heat-loss] fall: as far as the two readings may be off, it says next to nothing of the loss; let the water cool longer, and read it well above the air")
		low, high = max(low, ua/vagueFall), min(high, ua*vagueFall)
	}
	b.vary("standing loss", low/ua, high/ua*1.1, scaleSkin(heat.TermTub)) // heat in shell and foam lets the fall read a tenth low
}

// vagueFall is how many times more or less than was read the loss is taken to be at most, where the
// readings of a fall allow more still. Source: judgement.
const vagueFall = 5

func (b *builder) cover(c *graph.Cover) (ua float64, ok bool) {
	if c == nil {
		return 0, false
	}
	r := c.Insulance()
	if !c.AreaM2.Set || !r.Set || r.V <= 0 {
		return 0, false
	}
	return heat.Wall{AreaM2: c.AreaM2.V, Resistance: r.V}.UA(), true
}

func (b *builder) shells(list []graph.Shell) (ua float64, ok bool) {
	for i := range list {
		s := &list[i]
		if r := s.Insulance(); s.AreaM2.Set && r.Set && r.V > 0 {
			ua += heat.Wall{AreaM2: s.AreaM2.V, Resistance: r.V}.UA()
			ok = true
		}
	}
	return ua, ok
}

// pipes adds up the pipes outside, after the work and today.
func (b *builder) pipes(s *scene) {
	t, known := &s.tub, true
	for _, p := range b.in.Today {
		s.pipes += p.UAPerMetre() * p.LengthM
	}
	for _, p := range b.in.Pipes {
		t.PipesUA += p.UAPerMetre() * p.LengthM
		if known && !p.Known {
			b.assume("insulation of pipes outside of which nobody says it", p.InsulationM*1e3, quantity.Length, graph.Say("heat pump manuals, %s to %s (from memory); say insulation on the run", quantity.Length.About(19), quantity.Length.About(25)), 0, 0, nil)
		}
		known = known && p.Known
	}
	if t.PipesUA > 0 || s.pipes > 0 {
		low, high := 0.85, 1.4 // wind and wet foam: judgement
		if !known {
			high = 1.8
		}
		b.vary("loss of the pipes outside", low, high, func(s *scene, f float64) { s.tub.PipesUA, s.pipes = s.tub.PipesUA*f, s.pipes*f })
	}
}

// usualBathers is how many bathe each time where nobody says. Source: common practice, no source.
const usualBathers = 2

// use settles how the tub is bathed in.
func (b *builder) use(t *heat.Tub) {
	c := b.in.Stage.Circuit
	u := graph.Use{}
	if c.Use != nil {
		u = *c.Use
	}
	t.Use.OpenS, t.Use.TimesAWeek, t.Use.At = u.OpenS.Or(45*60), u.TimesAWeek.Or(4), 20
	if u.At.Set {
		t.Use.At = hours(u.At)
	}
	openTime := func(s *scene, f float64) { s.tub.Use.OpenS *= f }
	if !u.OpenS.Set || !u.TimesAWeek.Set {
		why := quantity.Text("judgement: 45 minutes four times a week; say [use] open and times-a-week")
		if b.pool() {
			why += `; of a pool without a cover, open = "24 h" and times-a-week = 7`
		}
		b.assume("time with the cover off, a week", t.Use.OpenS*t.Use.TimesAWeek, quantity.Time, why, 0.5, 2, openTime)
	} else {
		b.vary("time with the cover off", 0.8, 1.25, openTime)
	}
	t.Use.AreaM2 = u.AreaM2.V
	if !u.AreaM2.Set {
		if c.Cover != nil && c.Cover.AreaM2.Set {
			t.Use.AreaM2 = c.Cover.AreaM2.V
		} else {
			n := float64(b.tubs())
			area, high, why := usualArea(t.VolumeM3/n, b.pool())
			area *= n
			t.Use.AreaM2 = b.assume("area of the water", area, quantity.Area, why, leastArea, high, func(s *scene, f float64) { s.tub.Use.AreaM2 *= f })
		}
	}
	t.Use.Activity = u.Activity.Or(1)
	activity := func(s *scene, f float64) { s.tub.Use.Activity *= f }
	switch {
	case u.Activity.Set:
		b.vary("activity of the water", 0.8, 1.2, activity)
	case b.pool():
		t.Use.Activity = b.assume("activity of the water (factor on the evaporation)", poolActivity, number, "ASHRAE Handbook, therapy pool (from memory); 0.5 of a pool at home to 1 of a public one", 0.75, 1.5, activity)
	default:
		b.assume("activity of the water (factor on the evaporation)", 1, number, "ASHRAE Handbook, whirlpool (from memory); 0.5 quiet to 1.5 jets", 0.5, 1.5, activity)
	}
	if t.Use.Bathers = u.Bathers.Or(usualBathers); !u.Bathers.Set {
		b.assume("bathers each time", usualBathers, number, "common practice, no source; say [use] bathers", 0.5, 2, func(s *scene, f float64) { s.tub.Use.Bathers *= f })
	}
	usual, low, high, why := 3.0, 0.5, 1.4, quantity.Text("common practice, no source: every three to four months")
	if b.pool() {
		usual, low, high, why = 1, 0, 3, "common practice, no source: a pool keeps its water for a year or more; say [use] refills"
	}
	t.Refills = u.Refills.Or(usual)
	if !u.Refills.Set {
		b.assume("refills a year", t.Refills, number, why, low, high, func(s *scene, f float64) { s.tub.Refills *= f })
	}
	b.wind(t, u)
	b.sun(t)
}

// Daylight in which sun may fall on open water, hours of the day, and how long a day it is open then, h,
// before it is told that its warmth is not counted. Judgement.
const (
	sunFromH, sunToH = 8.0, 18.0
	sunOpenH         = 2.0
)

// sun notes that the sun on water that is open by day is not counted: no weather of twelve months has it.
func (b *builder) sun(t *heat.Tub) {
	if t.Indoor || t.Use.OpenS <= 0 {
		return
	}
	day := 0.0
	for h := int(sunFromH); h < int(sunToH); h++ {
		day += t.OpenShare(h) * t.Use.TimesAWeek / 7
	}
	if day >= sunOpenH {
		b.assume("warmth of the sun on the open water", 0, number, "not counted: in the sun a pool takes in some kilowatt-hours a day on each square metre, which the heating is spared; common practice, no source", 0, 0, nil)
	}
}

// shelters is the share of the open country's wind that reaches the water: the height alone
// takes a quarter, (1/10)^0.14 of the wind at 10 m. Source of the exponent: ASHRAE Handbook, open
// country (from memory); the rest is judgement.
var shelters = map[string]float64{"open": 0.72, "fenced": 0.4, "walled": 0.25, "indoor": 0.02}

func (b *builder) wind(t *heat.Tub, u graph.Use) {
	site := b.in.Stage.Circuit.Site
	if b.in.Ask.WindMS.Set {
		u.WindMS = b.in.Ask.WindMS
	}
	if u.WindMS.Set {
		t.Use.Wind, t.Use.WindSet = u.WindMS.V, true
		b.vary("wind at the water", 0.7, 1.4, func(s *scene, f float64) { s.tub.Use.Wind *= f })
		return
	}
	scale := func(s *scene, f float64) { s.tub.Shelter = math.Min(1, s.tub.Shelter*f) }
	sheltered := site.Sheltered
	if site.Indoor() {
		sheltered = "indoor"
	}
	switch share, ok := shelters[sheltered]; {
	case site.WindShare.Set:
		t.Shelter = site.WindShare.V
		b.vary("wind at the water", 0.7, 1.4, scale)
	case ok:
		t.Shelter = share
		b.vary("wind at the water", 0.56, 1.8, scale)
	default:
		t.Shelter = b.assume("share of the wind that reaches the water", shelters["fenced"], quantity.Share, "judgement: a garden with fences; say [site] sheltered", 0.4, 1.8, scale)
	}
}

// air adds what blowers and venturis draw through the water.
func (b *builder) air(t *heat.Tub) {
	for _, p := range b.in.Stage.Parts {
		if p.Kind != graph.Blower {
			continue
		}
		flow := p.Air.V
		if p.Air.How == settle.Assumed {
			flow = b.once(p, quantity.Text("air of the blower "+name(p.Part)), p.Air, func(s *scene, f float64) { s.tub.UseAirM3 *= f })
		}
		t.UseAirM3 += flow * blowerShare
	}
}

// blowerShare is the part of a bath in which the blower runs. Source: judgement.
const blowerShare = 0.3

// pool reports whether the water is a pool's, by what heats and filters it.
func (b *builder) pool() bool {
	pump := b.in.Heating.Pump
	return pump != nil && b.in.Stage.Pool(pump.Part)
}

// poolActivity is ASHRAE's factor on the evaporation of a small pool people stand in. Source: ASHRAE
// Handbook, HVAC Applications, natatoriums, therapy pool (from memory).
const poolActivity = 0.65

// How deep a pool is whose walls stand straight, m: one to plunge in is 1.0 to 1.6. Judgement.
const poolDepthM = 1.3

// leastArea is the share of the usual area at which water is as deep as it gets: judgement.
const leastArea = 0.8

// usualArea is how wide water of a volume is, m³ to m², up to which share of that it may be wider,
// and why.
func usualArea(volumeM3 float64, pool bool) (m2, high float64, why quantity.Text) {
	if pool {
		return volumeM3 / poolDepthM, 1.3, quantity.Say("judgement: a pool with straight walls, %s deep; say [use] area", quantity.Length.About(1000*poolDepthM))
	}
	depth := 0.75 + 0.05*volumeM3
	return volumeM3 / depth * 1.6, 1.25, "judgement: seats and walls make a tub wider than its water is deep; say [use] area"
}
