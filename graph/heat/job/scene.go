package job

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
)

// scene is one complete set of values: what is described, and for the rest what is assumed.
// A sample changes a copy of it.
type scene struct {
	tub          heat.Tub
	hoursGuessed bool // nobody said how long the pump filters

	pipes   float64     // W/K of the pipes outside today; those after the work are the tub's
	today   *heat.Plant // nil: nothing heats today
	planned *heat.Plant // nil: no unit
	tariff  heat.Tariff
	designC float64
	humid   float64
	airK    float64 // added to every hour of the weather
}

func (s *scene) clone() *scene {
	c := *s
	c.tub.SkinUA = map[heat.Term]float64{}
	for _, t := range heat.Terms() {
		if ua := s.tub.SkinUA[t]; ua > 0 {
			c.tub.SkinUA[t] = ua
		}
	}
	for _, p := range []**heat.Plant{&c.today, &c.planned} {
		if *p != nil {
			plant := **p
			plant.Units = slices.Clone(plant.Units)
			for i := range plant.Units {
				unit := *plant.Units[i].Unit
				plant.Units[i].Unit = &unit
			}
			*p = &plant
		}
	}
	return &c
}

// sameToday reports whether today's year is the same in two scenes.
func (s *scene) sameToday(o *scene) bool {
	a, b := s.tubToday(), o.tubToday()
	return s.airK == o.airK && reflect.DeepEqual(&a, &b) && reflect.DeepEqual(s.today, o.today) && reflect.DeepEqual(&s.tariff, &o.tariff)
}

// tubToday is the tub before the work: the pipes to and from the unit are not there yet.
func (s *scene) tubToday() heat.Tub {
	t := s.tub
	t.PipesUA = s.pipes
	return t
}

// plants calls f on today's and the planned plant, where there is one.
func (s *scene) plants(f func(*heat.Plant)) {
	for _, p := range []*heat.Plant{s.today, s.planned} {
		if p != nil {
			f(p)
		}
	}
}

// unit calls f on a unit wherever it heats, today and as planned.
func (s *scene) unit(id string, f func(*heat.Unit)) {
	s.plants(func(p *heat.Plant) {
		for i := range p.Units {
			if p.Units[i].Unit.ID == id {
				f(p.Units[i].Unit)
			}
		}
	})
}

// own is the job's unit; there must be one.
func (s *scene) own() *heat.Served { return &s.planned.Units[0] }

// builder makes the scene and notes what it assumes; the answers read both.
type builder struct {
	in      *Input
	more    More
	assumed []Assumed
	notes   []string
}

// assume notes a value and returns it.
func (b *builder) assume(what quantity.Text, v float64, dim quantity.Dimension, source quantity.Text, low, high float64, apply func(*scene, float64)) float64 {
	a := Assumed{What: what, Value: v, Dim: dim, Source: source, Low: low, High: high, apply: apply}
	if dim == number {
		a.Dim, a.Plain = quantity.Share, true
	}
	b.assumed = append(b.assumed, a)
	return v
}

// assumeOf is assume of a value that is a part's.
func (b *builder) assumeOf(p *graph.Part, what quantity.Text, v float64, dim quantity.Dimension, source quantity.Text, low, high float64, apply func(*scene, float64)) float64 {
	b.assume(what, v, dim, source, low, high, apply)
	b.assumed[len(b.assumed)-1].Of = p.ID
	return v
}

// vary notes a value that was given and is still not exact.
func (b *builder) vary(what quantity.Text, low, high float64, apply func(*scene, float64)) {
	b.assumed = append(b.assumed, Assumed{What: what, Given: true, Low: low, High: high, apply: apply})
}

// settle makes the scene.
func (b *builder) settle() *scene {
	s := &scene{}
	b.climate(s)
	b.tub(s)
	b.plants(s)
	b.tariff(s)
	b.otherSources()
	return s
}

// otherSources tells that nothing is counted of what another source gives the water by an exchanger.
func (b *builder) otherSources() {
	for _, e := range b.in.Stage.Net().OtherSources() {
		b.assumeOf(e, quantity.Text("heat of another source by "+name(e)), 0, quantity.Power, "not counted, neither today nor after the work: of a boiler or a collector, its hours and its price nothing is described", 0, 0, nil)
	}
}

// usualHumidity is that of the air in which units are rated and tubs held, a share. Common practice, no
// source: near that of the standard rating points in mild air (EN 14511, 7 °C and 6 °C wet, 87 %, from
// memory).
const usualHumidity = 0.85

// climate settles the design day.
func (b *builder) climate(s *scene) {
	site := b.in.Stage.Circuit.Site
	s.humid = usualHumidity
	s.designC = site.AirC
	if b.in.Ask.Humidity.Set {
		s.humid = b.in.Ask.Humidity.V
	}
	switch {
	case b.in.Ask.AirC.Set:
		s.designC = b.in.Ask.AirC.V
	case !site.AirSet:
		s.designC = b.assume("coldest air at which the tub is held", -5, quantity.Temperature, "judgement: a mild winter's frost; say [site] air", 0, 0, nil)
	}
	b.months(b.in.Stage.Circuit.Climate)
	b.assumed = append(b.assumed, Assumed{What: "another year's air", Value: 0, Dim: quantity.TemperatureDifference, Source: "judgement: years differ", Low: -1.2, High: 1.2, Adds: true,
		apply: func(s *scene, d float64) { s.airK += d }})
}

// tariff settles the price of electricity.
func (b *builder) tariff(s *scene) {
	t := b.in.Stage.Circuit.Tariff
	if t == nil {
		return
	}
	s.tariff.Price, s.tariff.Known = money(t.Price)
	s.tariff.Standing, _ = money(t.Standing)
	for _, band := range t.Bands {
		price, _ := money(band.Price)
		s.tariff.Bands = append(s.tariff.Bands, heat.Band{FromH: hours(band.From), ToH: hours(band.To), Price: price})
	}
	if of := t.ByMinute(); !s.tariff.Known && !slices.Contains(of[:], 0) {
		s.tariff.Known, s.tariff.NoRest = true, true
	}
}

func money(text string) (float64, bool) {
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && !math.IsNaN(v)
}

func hours(c graph.Clock) float64 { return float64(c.Minute) / 60 }

// name returns how a part is called in words for the assumed list.
func name(p *graph.Part) string { return fmt.Sprintf("%q", p.ID) }
