package heat

import (
	"testing"
)

// halved is a unit of half the size in all that grows with it.
func halved(u *Unit) *Unit {
	h := *u
	h.Ratings = nil
	for _, r := range u.Ratings {
		r.OutputW, r.InputW = r.OutputW/2, r.InputW/2
		h.Ratings = append(h.Ratings, r)
	}
	h.StandbyW, h.StartJ, h.LeastW, h.RatedFlow = u.StandbyW/2, u.StartJ/2, u.LeastW/2, u.RatedFlow/2
	return &h
}

// Two units of half the size side by side are one: the year, the coldest air, the hours of heating up, and each
// carries half of it.
func TestTwoHalvesAreOne(t *testing.T) {
	w := readTestWeather(t)
	for _, inverter := range []bool{false, true} {
		one := mapUnit()
		one.StandbyW, one.StartJ, one.Inverter = 15, 2e5, inverter
		plant := &Plant{Units: Alone(one, 0), ElementW: 2000, PumpW: 240, PumpHeat: 0.6, FilterH: 4, Heating: AnyTime(), Runs: PumpOnCall}
		two := *plant
		two.Units = []Served{{Unit: halved(one)}, {Unit: halved(one)}}
		a, b := Year(yearTub(1), plant, w, Tariff{Price: 0.3}), Year(yearTub(1), &two, w, Tariff{Price: 0.3})
		if !near(a.KWh, b.KWh, 1e-6) || !near(a.Cost, b.Cost, 1e-6) || !near(a.UnitCOP, b.UnitCOP, 1e-9) || !near(a.ColdestC, b.ColdestC, 1e-9) {
			t.Errorf("inverter %t: one %.6f kWh, two halves %.6f", inverter, a.KWh, b.KWh)
		}
		if u := b.Units; !near(u[0].HeatKWh, a.UnitHeat/2, 1e-6) || !near(u[1].KWh, a.Units[0].KWh/2, 1e-6) {
			t.Errorf("the halves carry %+v of %+v", u, a.Units)
		}
		need := Need{DesignC: -10, Humidity: 0.8, HeatUpC: 5}
		x, y := Size(yearTub(0), plant.Units, need), Size(yearTub(0), two.Units, need)
		if !near(x.HeldW, y.HeldW, 1e-6) || !near(x.HoldsC, y.HoldsC, 1e-9) || !near(x.Hours, y.Hours, 1e-6) {
			t.Errorf("one %+v, two halves %+v", x, y)
		}
	}
}

// Of two in one line the second gets water that the first has warmed, and gives less of what it takes; the first
// gives as it does by itself. By hand: 6 kW into 1 l/s warm by 6000/(993 · 4179 · 0.001) K.
func TestSecondInLineGetsWarmedWater(t *testing.T) {
	u := mapUnit()
	perK := water38.perK() * 1e-3
	line := []Served{{Unit: u, FlowM3s: 1e-3, Warmed: []float64{0, 1 / perK}}, {Unit: u, FlowM3s: 1e-3}} // the second of the list stands first
	tub, air := &Tub{VolumeM3: 1.2, Fluid: water38, SetC: 38}, Air{TempC: 7, Humidity: 0.85}
	got := Gives(tub, line, air, 38)
	first := u.At(air, 38, 1e-3)
	if got[1].OutputW != first.OutputW || !near(got[0].EntersC, 38+first.OutputW/perK, 1e-9) {
		t.Errorf("the first gives %.0f W alone %.0f; to the second comes water of %.3f °C", got[1].OutputW, first.OutputW, got[0].EntersC)
	}
	if want := u.At(air, got[0].EntersC, 1e-3); got[0].OutputW != want.OutputW || got[0].InputW != want.InputW || !(got[0].COP() < got[1].COP()) {
		t.Errorf("the second gives %+v, want %+v", got[0], want)
	}
}

// A unit set lower begins where the first does not hold the tub: with a strong first one it never runs, with a weak
// one it keeps the water at what it is set to, and the first runs all the time.
func TestUnitSetLowerHelpsOut(t *testing.T) {
	w := readTestWeather(t)
	strong := mapUnit()
	weak := *strong
	weak.Ratings = []Rating{{AirC: 15, WaterC: 38, OutputW: 150, InputW: 40}}
	for _, c := range []struct {
		first *Unit
		helps bool
	}{{strong, false}, {&weak, true}} {
		plant := &Plant{Units: []Served{{Unit: c.first}, {Unit: strong, BelowK: 3}}, Heating: AnyTime(), Runs: PumpOnCall}
		a := Year(yearTub(0), plant, w, Tariff{})
		if helps := a.Units[1].HeatKWh > 0; helps != c.helps {
			t.Errorf("the second gives %.1f kWh", a.Units[1].HeatKWh)
		}
		if c.helps && !near(a.ColdestC, 35, 0.2) || !c.helps && a.ColdestC < 37.9 {
			t.Errorf("the coldest water is %.2f °C", a.ColdestC)
		}
		if !near(a.BalanceJ, 0, 1e3) {
			t.Errorf("balance %g J", a.BalanceJ)
		}
	}
}

// Where one stops the other holds the tub on: as far as either does, and to the very air in which one stops.
func TestHoldsAsFarAsOneDoes(t *testing.T) {
	tub := &Tub{VolumeM3: 1.2, Fluid: water38, SetC: 38, SkinUA: map[Term]float64{TermTub: 15}}
	mild, cold := mapUnit(), mapUnit()
	mild.LeastAirC, mild.HasLeast = 2, true
	cold.LeastAirC, cold.HasLeast = -7.03, true
	s := Size(tub, []Served{{Unit: mild}, {Unit: cold}}, Need{DesignC: -5, Humidity: 0.8})
	if !s.Hold || s.HoldsC != -7.03 {
		t.Errorf("%+v", s)
	}
}

// A unit that stands by for another does not shorten how long the pump runs for it: one that works all day keeps the
// pump running all day.
func TestHelperDoesNotStopThePump(t *testing.T) {
	weak := &Unit{Fluid: water38, Ratings: []Rating{{AirC: 15, WaterC: 38, OutputW: 10, InputW: 4}}}
	plant := &Plant{Units: []Served{{Unit: weak}, {Unit: mapUnit(), BelowK: 30}}, PumpW: 100, Heating: AnyTime(), Runs: PumpOnCall}
	if a := Year(yearTub(0), plant, readTestWeather(t), Tariff{}); !near(a.PumpKWh, 876, 1) {
		t.Errorf("the pump runs %.0f of 8760 hours", a.PumpKWh*10)
	}
}
