package heat

import (
	"math"
	"testing"
)

// Water that nothing heats in a bath falls, and loses the less: the year's hours come to what steps of half a minute do,
// within a hundredth.
func TestBathInFallingWater(t *testing.T) {
	tub := yearTub(1)
	tub.VolumeM3 = 0.4
	w := readTestWeather(t)
	plant := &Plant{ElementW: 1500, Heating: AnyTime(), Runs: PumpOnCall}
	a := Year(tub, plant, w, Tariff{})
	const steps = 120
	c, water, lost := tub.Capacity(), tub.SetC, 0.0
	for i, air := range w.Hours {
		for range steps {
			used := tub.used(water, air, tub.OpenShare(i%24))
			loss := used.total() + tub.UA()*(water-air.TempC)
			lost += used[0] * hourS / steps / JoulesPerKWh
			water += (min(plant.ElementW, max(0, loss+c*(tub.SetC-water)*steps/hourS)) - loss) * hourS / steps / c
		}
	}
	if !near(a.Terms[TermEvaporate], lost, 0.01*lost) {
		t.Errorf("evaporation %.1f kWh, in small steps %.1f", a.Terms[TermEvaporate], lost)
	}
}

// What a bath falls to is what small steps come to, and no straight line.
func TestBathFallsAsItCools(t *testing.T) {
	tub := &Tub{VolumeM3: 0.5, Fluid: water38, SetC: 38, Use: Use{OpenS: 3600, AreaM2: 4, WindSet: true}}
	air := Air{TempC: -5, Humidity: 1, Wind: 0}
	got := Bathed(tub, air)
	t0, steps := 38.0, 100000
	for range steps {
		t0 -= tub.Bathing(t0, air).Total() / tub.Capacity() * 3600 / float64(steps)
	}
	if !near(got, t0, 1e-3) {
		t.Errorf("falls to %.4f °C, in small steps %.4f", got, t0)
	}
	straight := 38 - tub.Bathing(38, air).Total()/tub.Capacity()*3600
	if !(got > straight+0.05) || math.IsNaN(got) {
		t.Errorf("%.3f °C is a straight line's %.3f", got, straight)
	}
}
