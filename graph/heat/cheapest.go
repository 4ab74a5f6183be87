package heat

import "math"

// Slot is a stretch of time in which heat can be made.
type Slot struct {
	AirC, LowC, HighC float64 // the water's limits at its end
	OutW, InW         float64 // of the unit at full speed
	LossW             float64 // besides the skin's
	Price             float64 // a kWh
}

// Plan is how long the unit runs in each slot.
type Plan struct {
	Share []float64 // 0 to 1
	EndC  []float64 // water at each slot's end
	Cost  float64
}

// Cheapest returns the least cost at which the water keeps its limits over the slots, each
// of the given length [s], when the unit may run any share of each; ok is false where
// nothing keeps them.
//
//	minimise Σ price_k In_k u_k h,   0 <= u <= 1
//	t_{k+1} = ta_k + (t_k - ta_k) a + (u_k Out_k - loss_k)(1 - a)/UA,   a = exp(-UA h/C)
//
// Counted as if all heat were made in the first slot, heat of every slot is alike: the
// problem is one store with a floor and a ceiling at every time. Floors are met in their
// order, each from the cheapest slots before it that have output left and whose heat fits
// under every ceiling on the way; that gives the least cost.
//
// Source: the rule for a single store with linear costs, own; held against a linear
// programme in the tests.
func Cheapest(slots []Slot, startC, ua, capacity, seconds float64) (plan Plan, ok bool) {
	n := len(slots)
	plan = Plan{Share: make([]float64, n), EndC: make([]float64, n)}
	a, per := 1.0, seconds/capacity
	if ua > 0 {
		a = math.Exp(-ua * seconds / capacity)
		per = (1 - a) / ua
	}
	t := startC
	for k, s := range slots {
		t = s.AirC + (t-s.AirC)*a - s.LossW*per
		plan.EndC[k] = t
	}
	for k := range slots {
		for plan.EndC[k] < slots[k].LowC-1e-12 {
			j, room := cheapestBefore(slots, plan, k, a)
			if j < 0 {
				return plan, false
			}
			gives := slots[j].OutW * per // in the slot, K for a whole share
			lacks := (slots[k].LowC - plan.EndC[k]) / math.Pow(a, float64(k-j))
			add := math.Min(math.Min(lacks, room), (1-plan.Share[j])*gives)
			plan.Share[j] = math.Min(1, plan.Share[j]+add/gives)
			for i := j; i < n; i++ {
				plan.EndC[i] += add * math.Pow(a, float64(i-j))
			}
		}
	}
	for k, s := range slots {
		if plan.EndC[k] > s.HighC+1e-9 {
			return plan, false
		}
		plan.Cost += s.Price * s.InW * plan.Share[k] * seconds / JoulesPerKWh
	}
	return plan, true
}

// cheapestBefore returns the slot up to k whose next heat costs least, counted at k, and how
// many kelvin more fit into it before a ceiling is touched; -1 where there is none.
func cheapestBefore(slots []Slot, plan Plan, k int, a float64) (best int, room float64) {
	best = -1
	least := math.Inf(1)
	fits := math.Inf(1) // kelvin that fit, counted at the slot looked at
	for j := k; j >= 0; j-- {
		fits = math.Min(fits/a, slots[j].HighC-plan.EndC[j])
		if j == k {
			fits = slots[k].HighC - plan.EndC[k]
		}
		if fits <= 1e-12 {
			return best, room
		}
		if slots[j].OutW <= 0 || plan.Share[j] >= 1-1e-12 {
			continue
		}
		cost := slots[j].Price * slots[j].InW / slots[j].OutW / math.Pow(a, float64(k-j))
		if cost < least-1e-15 {
			best, least, room = j, cost, fits
		}
	}
	return best, room
}
