package heat

import (
	"math"
	"reflect"
	"testing"
)

// UA 15 W/K and 48 K ask for 720 W, by hand; a tub without loss needs none.
func TestSize(t *testing.T) {
	tub := &Tub{VolumeM3: 1.2, Fluid: water38, SetC: 38, SkinUA: map[Term]float64{TermTub: 15}, FillC: 10}
	u := &Unit{Fluid: water38, Ratings: []Rating{{AirC: -15, WaterC: 38, OutputW: 3000, InputW: 1500, Frost: true}, {AirC: 15, WaterC: 38, OutputW: 9000, InputW: 2200, Frost: true}}}
	const flow = 1e-3
	need := Need{DesignC: -10, Humidity: 0.8, WithinH: 12, HeatUpC: 5, LeastM3s: 0.8e-3}
	s := Size(tub, Alone(u, flow), need)
	if !near(s.LostW, 720, 0.5) || !s.OK() || !near(s.HeldW, 4000, 1) {
		t.Errorf("%+v", s)
	}
	// cold water gives half a per cent more for each kelvin: power that falls with the water's
	// temperature has a closed form of its own, UA + b in place of UA
	const b = 7000 * 0.005
	rest := (7000*1.14 + b*10 + 15*5) / (15 + b)
	if exact := tub.Capacity() / (15 + b) * math.Log((rest-10)/(rest-38)) / 3600; !near(s.Hours, exact, 0.001) {
		t.Errorf("heating up takes %.4f h, closed form %.4f", s.Hours, exact)
	}
	need.LeastM3s, need.WithinH = 1.1e-3, 5
	if s := Size(tub, Alone(u, flow), need); s.Flow || s.Time || s.OK() || !s.Hold {
		t.Errorf("starved and late: %+v", s)
	}
	u.LeastAirC, u.HasLeast = -5, true
	if s := Size(tub, Alone(u, flow), need); s.Hold || !near(s.HoldsC, -5, 1e-9) {
		t.Errorf("below its least air: %+v", s)
	}
	u.LeastAirC = -20. / 3 // 20 °F: between two tenths of a °C
	if s := Size(tub, Alone(u, flow), need); !near(s.HoldsC, -20./3, 1e-9) {
		t.Errorf("holds down to %.4f °C, where it stops at 20 °F", s.HoldsC)
	}
	u.HasMost, u.MostC = true, 35
	if s := Size(tub, Alone(u, flow), need); s.Water {
		t.Error("a unit of 35 °C makes 38")
	}
	weak := &Unit{Fluid: water38, Ratings: []Rating{{AirC: 15, WaterC: 38, OutputW: 100, InputW: 50}}}
	if s := Size(tub, Alone(weak, flow), need); !math.IsInf(s.Hours, 1) || s.Hold {
		t.Errorf("100 W: %+v", s)
	}
}

// The year's use grows with loss, wind, open time and set point, and falls with warmer air.
func TestYearIsMonotone(t *testing.T) {
	w := readTestWeather(t)
	base := func() *Tub { return yearTub(1) }
	plant := &Plant{Units: Alone(mapUnit(), 0), Heating: AnyTime(), Runs: PumpOnCall}
	kWh := func(tub *Tub, w *Weather) float64 { return Year(tub, plant, w, Tariff{}).KWh }
	was := kWh(base(), w)
	for name, change := range map[string]func(*Tub){
		"loss":      func(t *Tub) { t.SkinUA[TermTub] *= 1.1 },
		"wind":      func(t *Tub) { t.Shelter *= 1.5 },
		"open time": func(t *Tub) { t.Use.OpenS *= 1.3 },
		"activity":  func(t *Tub) { t.Use.Activity = 1.5 },
		"set point": func(t *Tub) { t.SetC++ },
		"refills":   func(t *Tub) { t.Refills, t.FillC = 3, 10 },
		"venturi":   func(t *Tub) { t.AirM3s = 0.001 },
		"pipes":     func(t *Tub) { t.PipesUA = 5 },
	} {
		tub := base()
		change(tub)
		p := *plant
		p.FilterH = 4
		if name == "pipes" {
			if got, w0 := Year(tub, &p, w, Tariff{}).KWh, Year(base(), &p, w, Tariff{}).KWh; !(got > w0) {
				t.Errorf("%s: %.1f kWh, before %.1f", name, got, w0)
			}
			continue
		}
		if got := kWh(tub, w); !(got > was) {
			t.Errorf("%s: %.1f kWh, before %.1f", name, got, was)
		}
	}
	warmerYear := *w
	warmerYear.Hours = append([]Air{}, w.Hours...)
	for i := range warmerYear.Hours {
		warmerYear.Hours[i].TempC++
	}
	if got := kWh(base(), &warmerYear); !(got < was) {
		t.Errorf("warmer air: %.1f kWh, before %.1f", got, was)
	}
	none := base()
	none.SkinUA = nil
	none.Use = Use{}
	if got := kWh(none, w); got != 0 {
		t.Errorf("a tub without loss uses %g kWh", got)
	}
}

// What the unit gives is remembered for the element beside it, and for the same moment and water
// only: warming up through a day is, to the last digit, that of a plant that remembers nothing.
func TestWarmingRemembersOneMoment(t *testing.T) {
	tub := &Tub{VolumeM3: 1.2, Fluid: water38, SetC: 38, SkinUA: map[Term]float64{TermTub: 15, TermCover: 4}, PipesUA: 1, FillC: 10}
	u := &Unit{Fluid: water38, Ratings: []Rating{{AirC: -15, WaterC: 38, OutputW: 3000, InputW: 1500, Frost: true}, {AirC: 15, WaterC: 38, OutputW: 9000, InputW: 2200, Frost: true}}}
	p := &Plant{Units: Alone(u, 1e-3)}
	air := func(s float64) Air { return Air{TempC: 5 + 6*math.Sin(s/1e4), Humidity: 0.8} }
	sheet := u.sheet()
	want := Warming{Capacity: tub.Capacity(), FromC: 10, ToC: 38,
		Power:   func(waterC, s float64) float64 { return sheet.at(air(s), waterC, p.Units[0].FlowM3s).OutputW },
		Element: func(waterC, s float64) float64 { return p.Beside(sheet.at(air(s), waterC, p.Units[0].FlowM3s).OutputW) },
		Loss:    func(waterC, s float64) float64 { return (15 + 4 + 1) * (waterC - air(s).TempC) },
	}.Run()
	if got := WarmThrough(tub, p, air, 10); !got.Reached || !reflect.DeepEqual(got, want) {
		t.Errorf("%.9f h and %.9f kWh, remembering nothing %.9f h and %.9f kWh", got.Hours, got.HeatKWh, want.Hours, want.HeatKWh)
	}
}
