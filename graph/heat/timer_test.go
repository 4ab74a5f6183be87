package heat

import (
	"math"
	"math/bits"
	"testing"
)

func timerDay() *TimerDay {
	d := &TimerDay{UA: 12, Capacity: 1.2 * water38.perK(), SetC: 38}
	for k := range d.Slots {
		h := float64(k) / 2
		price := 0.30
		if h >= 23 || h < 7 {
			price = 0.15
		}
		d.Slots[k] = Slot{AirC: 5 + 4*math.Cos(2*math.Pi*(h-14)/24), LowC: 36, HighC: 39.5, OutW: 6000, InW: 2000, Price: price}
		if k == 40 || k == 41 {
			d.Slots[k].LossW = 3000
		}
	}
	return d
}

// Every pair of a beginning and an end on the half hour is tried beside it: none keeps the
// band for less.
func TestTimerAgainstEveryWindow(t *testing.T) {
	d := timerDay()
	got := d.Timer()
	if !got.OK || len(got.On) > mostWindows || got.LowestC < 36 {
		t.Fatalf("no plan: %+v", got)
	}
	if !(got.CostDay < got.AlwaysDay) {
		t.Errorf("%.4f a day, always on %.4f", got.CostDay, got.AlwaysDay)
	}
	for from := range 48 {
		for length := 1; length < 48; length++ {
			var mask uint64
			for i := range length {
				mask |= 1 << ((from + i) % 48)
			}
			if one := d.day(mask, 39.5, math.Inf(1)); one.ok && one.cost < got.CostDay-1e-9 {
				t.Fatalf("on from %g h for %g h costs %.5f, the plan %.5f", float64(from)/2, float64(length)/2, one.cost, got.CostDay)
			}
		}
	}
}

// drawn is what a choice draws [kWh a day].
func (d *TimerDay) drawn(windows []Window) float64 {
	at := *d
	at.fade()
	for k := range at.Slots {
		at.Slots[k].Price = 1
	}
	var mask uint64
	for _, w := range windows {
		mask |= maskOf(int(2*w.FromH), int(2*w.ToH))
	}
	return at.day(mask, at.Slots[0].HighC, math.Inf(1)).cost
}

// Electricity that costs nothing is no reason to heat: all day it is the plan of any even price,
// and in some hours none of as little cost draws less.
func TestTimerDrawsNothingForNothing(t *testing.T) {
	even := func(price float64) *TimerDay {
		d := timerDay()
		for k := range d.Slots {
			d.Slots[k].Price = price
		}
		return d
	}
	free, paid := even(0).Timer(), even(0.30).Timer()
	if !free.OK || free.CostDay != 0 || free.AlwaysDay != 0 {
		t.Fatalf("what costs nothing costs something: %+v", free)
	}
	if got, want := even(0).drawn(free.On), even(0).drawn(paid.On); !near(got, want, 1e-9) {
		t.Errorf("at no price %.4f kWh a day are drawn in %v, at an even one %.4f in %v", got, free.On, want, paid.On)
	}

	d := timerDay()
	for k := range d.Slots {
		if d.Slots[k].Price < 0.2 {
			d.Slots[k].Price = 0 // at night, enough to keep the band
		}
	}
	night := d.Timer()
	d.fade()
	for from := range 48 {
		for length := 1; length < 48; length++ {
			one := d.day(maskOf(from, from+length), 39.5, math.Inf(1))
			if one.ok && one.cost <= night.CostDay+1e-9 && d.drawn(windowsOf(one.mask)) < d.drawn(night.On)-1e-9 {
				t.Fatalf("on from %g h for %g h costs as little and draws %.4f kWh a day, the plan %.4f in %v", float64(from)/2, float64(length)/2, d.drawn(windowsOf(one.mask)), d.drawn(night.On), night.On)
			}
		}
	}
}

// Where the unit gives heat in sixteen half hours only, every choice of them that takes three
// switch-ons or fewer is followed: none is cheaper than the plan by more than a five-hundredth.
func TestTimerAgainstEveryChoice(t *testing.T) {
	for trial := range 3 {
		d := timerDay()
		var may []int
		for k := range d.Slots {
			s := &d.Slots[k]
			s.AirC -= float64(2 * trial)
			s.LowC, s.HighC = 34.5-0.5*float64(trial), 39+0.3*float64(trial)
			s.Price = []float64{0.31, 0.12, 0.22, 0.45}[(k/7+trial)%4]
			if (k+3*trial)%12 < 4 {
				may = append(may, k)
			} else {
				s.OutW = 0
			}
		}
		got := d.Timer()
		least := math.Inf(1)
		for choice := range uint64(1) << len(may) {
			if changes := bits.OnesCount64(choice ^ (choice>>1 | choice&1<<(len(may)-1))); changes > 2*mostWindows {
				continue // standing times between are passed over at no cost
			}
			var mask uint64
			for i, k := range may {
				mask |= choice >> i & 1 << k
			}
			if one := d.day(mask, d.Slots[0].HighC, math.Inf(1)); one.ok {
				least = math.Min(least, one.cost)
			}
		}
		if !got.OK || math.IsInf(least, 1) || got.CostDay < least-1e-9 || !near(got.CostDay, least, least/500) {
			t.Errorf("trial %d: %.6f a day %v, of every choice %.6f", trial, got.CostDay, got.OK, least)
		}
	}
}

func TestTimerWithoutAPlan(t *testing.T) {
	d := timerDay()
	for k := range d.Slots {
		d.Slots[k].OutW = 100
	}
	if got := d.Timer(); got.OK || got.CostDay != got.AlwaysDay {
		t.Errorf("a unit of 100 W keeps 36 °C: %+v", got)
	}
}

func BenchmarkTimer(b *testing.B) {
	d := timerDay()
	for b.Loop() {
		d.Timer()
	}
}
