package heat

import (
	"cmp"
	"slices"
)

// Served is a unit of a plant and the water that comes to it.
type Served struct {
	Unit    *Unit
	FlowM3s float64   // 0: not known, taken as its rated one
	BelowK  float64   // by how much its set point lies below the highest of the plant [K]
	Warmed  []float64 // by how much a watt of each unit of the plant warms the water on its way here [K/W]; nil: none does
}

// Alone is a unit that heats by itself, with a flow [m³/s].
func Alone(u *Unit, flow float64) []Served { return []Served{{Unit: u, FlowM3s: flow}} }

// topC is how hot it heats a tub of setC, °C.
func (s *Served) topC(setC float64) float64 {
	top := setC - s.BelowK
	if s.Unit.HasMost {
		return min(top, s.Unit.MostC)
	}
	return top
}

// heats reports whether it heats water of a temperature in a tub of setC.
func (s *Served) heats(waterC, setC float64) bool {
	return s.Unit.Makes(waterC) && (s.BelowK <= 0 || waterC <= setC-s.BelowK)
}

// bank is the units of a plant, each with its table in order. Those of one set point run together, each as
// long as the others; those set lower begin where the water has come down to what they are set to. The
// water that comes to a unit is the tub's, warmed by what stands before it in the same line.
type bank struct {
	setC   float64
	units  []banked
	order  []int   // what warms water before what it is warmed for
	levels [][]int // the units of one set point, the highest first
	tops   []float64
}

type banked struct {
	*sheet
	Served
	before []warmer
}

// warmer is a unit whose water another gets.
type warmer struct {
	unit int
	kW   float64 // K/W
}

// bankOf sorts a plant's units for a tub of setC.
func bankOf(units []Served, setC float64) *bank {
	b := &bank{setC: setC}
	for i := range units {
		b.units = append(b.units, banked{sheet: units[i].Unit.sheet(), Served: units[i]})
	}
	left := make([]int, len(units))
	for i := range left {
		left[i] = i
	}
	top := func(i int) float64 { return units[i].topC(setC) }
	slices.SortStableFunc(left, func(i, j int) int { return -cmp.Compare(top(i), top(j)) })
	for n, i := range left {
		if n == 0 || top(i) < top(left[n-1]) {
			b.levels, b.tops = append(b.levels, nil), append(b.tops, top(i))
		}
		last := len(b.levels) - 1
		b.levels[last] = append(b.levels[last], i)
	}
	for _, level := range b.levels {
		b.inLine(level)
	}
	for n, i := range b.order {
		for _, j := range b.order[:n] {
			if w := units[i].Warmed; j < len(w) && w[j] > 0 {
				b.units[i].before = append(b.units[i].before, warmer{j, w[j]})
			}
		}
	}
	return b
}

// inLine adds the units of a level to the order, each behind those that warm its water; of two that warm each
// other's, the first of the circuit is the first.
func (b *bank) inLine(level []int) {
	left := slices.Clone(level)
	for len(left) > 0 {
		k := slices.IndexFunc(left, func(i int) bool {
			w := b.units[i].Warmed
			return !slices.ContainsFunc(left, func(j int) bool { return j != i && j < len(w) && w[j] > 0 })
		})
		k = max(k, 0)
		b.order = append(b.order, left[k])
		left = slices.Delete(left, k, k+1)
	}
}

// work enters what each unit gives and takes at full speed while all run for which runs says so (nil: all), in
// air and with the tub's water at waterC: the figures alone, as a year asks for them at every hour.
func (b *bank) work(air Air, waterC float64, runs func(*banked) bool, out []figure) {
	for _, i := range b.order {
		u := &b.units[i]
		if runs != nil && !runs(u) || u.stands(air) {
			out[i] = figure{}
			continue
		}
		out[i], _ = u.full(air, u.enters(waterC, out), u.FlowM3s)
	}
}

// enters is the water that comes to a unit [°C], the tub's at waterC, while those before it give what they give.
func (u *banked) enters(waterC float64, gives []figure) float64 {
	for _, w := range u.before {
		waterC += w.kW * gives[w.unit].outputW
	}
	return waterC
}

// told is work with all that is known of each figure.
func (b *bank) told(air Air, waterC float64, runs func(*banked) bool) []Working {
	gives, out := make([]figure, len(b.units)), make([]Working, len(b.units))
	b.work(air, waterC, runs, gives)
	for i := range b.units {
		out[i] = Working{EntersC: waterC}
		if u := &b.units[i]; runs(u) {
			enters := u.enters(waterC, gives)
			out[i] = u.at(air, enters, u.FlowM3s)
			out[i].EntersC = enters
		}
	}
	return out
}

// heating is what the units give together to water of a temperature, W: those that heat it.
func (b *bank) heating(air Air, waterC float64, out []figure) float64 {
	b.work(air, waterC, func(u *banked) bool { return u.heats(waterC, b.setC) }, out)
	return together(out)
}

// together is the output of all, W.
func together(list []figure) float64 {
	sum := 0.0
	for i := range list {
		sum += list[i].outputW
	}
	return sum
}

// holdsDownTo returns the coldest air [°C] in which the units make up the loss that lossW gives for an air
// temperature: to a tenth, or the very air in which one stops; at least -40. ok is false where they do not
// even at 30 °C.
func (b *bank) holdsDownTo(humidity float64, lossW func(airC float64) float64) (airC float64, ok bool) {
	out := make([]figure, len(b.units))
	holds := func(airC float64) bool {
		return b.heating(Air{TempC: airC, Humidity: humidity}, b.setC, out) >= lossW(airC)
	}
	for tenth := 300; tenth >= -400; tenth-- {
		at := float64(tenth) / 10
		if !holds(at) {
			if !ok {
				return 0, false
			}
			for i := range b.units {
				if u := &b.units[i]; u.HasLeast && at < u.LeastAirC && u.LeastAirC < airC && holds(u.LeastAirC) {
					airC = u.LeastAirC
				}
			}
			return airC, true
		}
		airC, ok = at, true
	}
	return airC, ok
}
