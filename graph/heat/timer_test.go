package heat

import (
	"math"
	"math/bits"
	"testing"
)

// Four hours by hand, and by a linear programme of a general-purpose library: air 0 °C,
// a = exp(-0.01), 3 kW out of 1 kW, 15 W/K.
func TestCheapestByHand(t *testing.T) {
	const ua, capacity = 15.0, 1.5 * JoulesPerKWh
	for _, c := range []struct {
		high        float64
		share, ends [4]float64
		cost        float64
	}{
		{40, [4]float64{0, 0.763857, 0, 0}, [4]float64{37.6219, 38.7677, 38.3819, 38}, 0.0763857},
		{38.5, [4]float64{0, 0.629362, 0, 0.131833}, [4]float64{37.6219, 38.5, 38.1169, 38}, 0.0893027},
	} {
		var slots []Slot
		for k, price := range []float64{0.30, 0.10, 0.30, 0.20} {
			low := 37.0
			if k == 3 {
				low = 38
			}
			slots = append(slots, Slot{LowC: low, HighC: c.high, OutW: 3000, InW: 1000, Price: price})
		}
		p, ok := Cheapest(slots, 38, ua, capacity, 3600)
		if !ok || !near(p.Cost, c.cost, 1e-7) {
			t.Errorf("up to %g °C: cost %.7f %v, want %.7f", c.high, p.Cost, ok, c.cost)
		}
		for k := range c.share {
			if !near(p.Share[k], c.share[k], 1e-6) || !near(p.EndC[k], c.ends[k], 5e-5) {
				t.Errorf("up to %g °C, hour %d: share %.6f end %.4f, want %.6f %.4f", c.high, k, p.Share[k], p.EndC[k], c.share[k], c.ends[k])
			}
		}
	}
	if _, ok := Cheapest([]Slot{{LowC: 39, HighC: 40, OutW: 100, InW: 50, Price: 1}}, 38, ua, capacity, 3600); ok {
		t.Error("a floor that cannot be reached is kept")
	}
}

// Every choice of running or standing in six slots, each a tenth: none that keeps the limits
// is cheaper than the plan.
func TestCheapestAgainstEveryChoice(t *testing.T) {
	const ua, capacity = 40.0, 1.2 * JoulesPerKWh
	prices := []float64{0.3, 0.12, 0.31, 0.22, 0.18, 0.4}
	outs := []float64{2000, 2600, 3000, 2400, 1500, 2800}
	for trial := range 8 {
		var slots []Slot
		for k := range prices {
			j := (k + trial) % len(prices)
			slots = append(slots, Slot{AirC: float64(trial - 3), LowC: 36.5, HighC: 37.5 + 0.4*float64(trial%4), OutW: outs[j], InW: 800, Price: prices[j], LossW: float64(100 * (k % 3))})
		}
		p, ok := Cheapest(slots, 37, ua, capacity, 3600)
		a := math.Exp(-ua * 3600 / capacity)
		per := (1 - a) / ua
		least := math.Inf(1)
		const parts = 6
		for choice := range int(math.Pow(parts, 6)) {
			temp, cost, c := 37.0, 0.0, choice
			for _, s := range slots {
				u := float64(c%parts) / (parts - 1)
				c /= parts
				temp = s.AirC + (temp-s.AirC)*a + (u*s.OutW-s.LossW)*per
				if temp < s.LowC || temp > s.HighC {
					cost = math.Inf(1)
					break
				}
				cost += s.Price * s.InW * u / 1e3
			}
			least = math.Min(least, cost)
		}
		if !ok && !math.IsInf(least, 1) {
			t.Errorf("trial %d: no plan, but one of %.5f keeps the limits", trial, least)
		}
		if ok && p.Cost > least+1e-9 {
			t.Errorf("trial %d: cost %.6f, a choice in fifths costs %.6f", trial, p.Cost, least)
		}
		for k := range slots {
			if ok && (p.EndC[k] < slots[k].LowC-1e-9 || p.EndC[k] > slots[k].HighC+1e-9 || p.Share[k] < 0 || p.Share[k] > 1) {
				t.Errorf("trial %d slot %d: %.6f °C, share %.6f", trial, k, p.EndC[k], p.Share[k])
			}
		}
	}
}

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
