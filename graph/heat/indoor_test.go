package heat

import (
	"math"
	"testing"

	"dryfit/graph/agree"
)

// A tub in a room loses to the room: with a room as warm as its water nothing but the pipes
// outside, in a room of its own temperature what it does outdoors in air of that temperature
// (by hand: UA 12 W/K over 14 K is 168 W, 8,760 h of it 1,472 kWh; pipes of 4 W/K to air of -10 °C
// 192 W), whatever the weather. The balance closes as it does outdoors.
func TestIndoors(t *testing.T) {
	tub := yearTub(0)
	tub.PipesUA, tub.Indoor, tub.RoomC = 4, true, 24
	if got := tub.Standing(38, Air{TempC: -10}); !near(got, 168+192, 1e-9) {
		t.Errorf("24 °C in the room, -10 °C outside: loses %g W", got)
	}
	if held := Size(tub, Alone(mapUnit(), 1e-3), Need{DesignC: -10, Humidity: 0.8}); !near(held.LostW, 168+192, 1e-6) {
		t.Errorf("sized for %g W", held.LostW)
	}
	element := &Plant{ElementW: 20e3, Heating: AnyTime(), Runs: PumpOnCall}
	tub.PipesUA = 0
	if a := Year(tub, element, readTestWeather(t), Tariff{}); !near(a.KWh, 168*8.760, 0.01) {
		t.Errorf("a year takes %g kWh", a.KWh)
	}
	// heating up in closed form: 20 kW from 10 to 38 °C in air of 24 °C
	if up := WarmThrough(tub, element, func(float64) Air { return Air{TempC: -10} }, 10); !near(up.Hours, warmingHours(tub.Capacity(), 12, 20e3, 10, 38, 24), 1e-3) {
		t.Errorf("heats up in %g h", up.Hours)
	}

	tub = yearTub(1.5)
	tub.FillC, tub.Refills, tub.UseAirM3, tub.PipesUA, tub.Indoor, tub.RoomC = 10, 3, 0.008, 4, true, 24
	p := &Plant{Units: Alone(mapUnit(), 0), ElementW: 500, PumpW: 240, PumpHeat: 0.6, FilterH: 4, Heating: AnyTime(), Runs: PumpOnCall}
	a := Year(tub, p, readTestWeather(t), Tariff{})
	if in := (a.HeatKWh + a.PumpKWh*p.PumpHeat) * JoulesPerKWh; !agree.Within(a.BalanceJ, 0, 1e-9*in) {
		t.Errorf("heat in less losses less stored is %g J of %g", a.BalanceJ, in)
	}

	// walls as warm as the air: σ (T⁴ - Tr⁴) · 0.95 on 4 m², by hand 319 W from 38 °C to 24 °C
	tub.Shelter = 0
	open := tub.Bathing(38, Air{TempC: -10, Humidity: 0.9, Wind: 5})
	want := 4 * 0.95 * 5.670374e-8 * (math.Pow(311.15, 4) - math.Pow(297.15, 4))
	if !near(open.RadiationW, want, 0.5) || !near(open.ConvectionW, 4*89*0.067*14, 1e-6) {
		t.Errorf("cover off: %+v, radiation by hand %g W", open, want)
	}
}
