package heat

import (
	"math"
	"slices"
)

// Timer is a plan that a person can set: times of day in which heating is on, the thermostat
// at the upper limit of the band.
type Timer struct {
	On        []Window
	CostDay   float64
	AlwaysDay float64 // of heating whenever the water falls below the set point
	LowestC   float64 // water over the day
	OK        bool    // false: no such plan keeps the band, and On is all day
}

// Slot is a stretch of time in which heat can be made.
type Slot struct {
	AirC, LowC, HighC float64 // the water's limits at its end
	OutW, InW         float64 // of the unit at full speed
	LossW             float64 // besides the skin's
	Price             float64 // a kWh
	TopC              float64 // what heats then goes no higher, °C; 0: to the band's upper end
}

// TimerDay is the day a timer is made for.
type TimerDay struct {
	Slots    [48]Slot // half hours from 00:00; LowC and HighC the band
	UA       float64
	Capacity float64
	SetC     float64 // what "always on" holds

	keeps, perWatt float64 // see fade
}

const halfHourS = 1800.0

// mostWindows is how many switch-ons a day a person sets.
const mostWindows = 3

// Timer returns the cheapest plan of at most three times of day on the half hour. The day
// repeats itself, so that the water ends where it began.
//
// Choices are followed half hour by half hour from several temperatures at midnight; of those
// that come to the same time with as many switch-ons only such are kept as are warmer or
// cheaper than every other, to a hundredth of the band. The best is then bettered
// time by time until no other place and length of any one of them is cheaper. Of plans that cost
// the same, as all do where electricity costs nothing, that is taken which draws less.
//
// Source: dynamic programming with dominance, own; within a five-hundredth of the cheapest of
// every choice in the tests.
func (d *TimerDay) Timer() Timer {
	d.fade()
	free := *d // "always on" is priced even where it leaves the band
	for k := range free.Slots {
		free.Slots[k].LowC = math.Inf(-1)
	}
	always := free.day(1<<48-1, d.SetC, math.Inf(1))
	asked := *d
	d = asked.neverForNothing()
	best := timerTry{cost: math.Inf(1)}
	for from := range 48 { // single times of day first: a good plan to beat
		var mask uint64
		for i := range 47 {
			mask |= 1 << ((from + i) % 48)
			d.try(mask, &best)
		}
	}
	low, high := d.Slots[0].LowC, d.Slots[0].HighC
	var front timerFront
	front.clear()
	for i := range midnights {
		start := low + (high-low)*float64(i)/(midnights-1)
		for _, lacks := range []float64{0, (high - low) / (midnights - 1)} {
			d.follow(start, lacks, false, &front, &best)
			d.follow(start, lacks, true, &front, &best)
		}
	}
	out := Timer{AlwaysDay: always.cost, CostDay: always.cost, LowestC: always.low, On: []Window{{0, 24}}}
	if math.IsInf(best.cost, 1) {
		return out
	}
	d.better(&best)
	best = asked.day(best.mask, high, math.Inf(1))
	out.OK, out.CostDay, out.LowestC, out.On = true, best.cost, best.low, windowsOf(best.mask)
	return out
}

// nextToNothing is the share of the dearest price that what costs nothing is taken for while a
// plan is looked for, so that nothing is drawn only because it may be: a kilowatt-hour of the
// dearest outweighs ten thousand of it.
const nextToNothing = 1e-4

// neverForNothing returns the day with every half hour at a price, for the search.
func (d *TimerDay) neverForNothing() *TimerDay {
	out := *d
	least := 0.0
	for k := range out.Slots {
		least = max(least, nextToNothing*out.Slots[k].Price)
	}
	if least == 0 {
		least = 1
	}
	for k := range out.Slots {
		out.Slots[k].Price = max(out.Slots[k].Price, least)
	}
	return &out
}

// midnights is from how many temperatures of the water at midnight choices are followed.
const midnights = 13

// timerState is a choice made up to some half hour: the water and the cost there.
type timerState struct {
	mask    uint64
	t, cost float64
}

// timerChoice is one that is followed on: whether heating is on, and how often it was switched on.
type timerChoice struct {
	timerState
	on, runs int
}

// timerTry is one choice: a bit for each half hour, from bit 0.
type timerTry struct {
	mask      uint64
	cost, low float64
	ok        bool
}

// timerBins is into how many temperatures the band is parted where choices are compared.
const timerBins = 125

// timerFront is where choices are compared at some half hour: by whether heating is on, how often it
// was switched on, and the water's temperature; cost +Inf: none.
type timerFront [2][mostWindows + 1][timerBins]timerState

// follow tries the masks that end a day that began with the water at start no more than lacks
// colder; wrap says whether heating is on over midnight. front is empty, and left so.
func (d *TimerDay) follow(start, lacks float64, wrap bool, front *timerFront, best *timerTry) {
	choices := []timerChoice{{timerState{t: start}, bit(wrap), 0}}
	for k := range d.Slots {
		for _, at := range choices {
			if at.cost < best.cost {
				d.branch(k, at, front, best.cost)
			}
		}
		choices = front.take(choices[:0])
	}
	for _, at := range choices {
		if at.on == bit(wrap) && at.t >= start-lacks-1e-9 && at.cost < best.cost && at.mask != 0 {
			d.try(at.mask, best)
		}
	}
}

// branch goes on from a choice through half hour k, with heating off and on.
func (d *TimerDay) branch(k int, at timerChoice, to *timerFront, limit float64) {
	s := &d.Slots[k]
	for on := range 2 {
		n := at.runs
		if on > at.on {
			n++
		}
		if n > mostWindows {
			continue
		}
		next := timerState{mask: at.mask | uint64(on)<<k}
		next.t, next.cost = d.step(k, at.timerState, on == 1, s.HighC)
		if next.t < s.LowC-1e-9 || next.cost >= limit {
			continue
		}
		bin := 0
		if s.HighC > s.LowC {
			bin = int((next.t - s.LowC) / (s.HighC - s.LowC) * timerBins)
		}
		if here := &to[on][n][min(max(bin, 0), timerBins-1)]; next.cost < here.cost || next.cost == here.cost && next.t > here.t {
			*here = next
		}
	}
}

// clear empties it.
func (f *timerFront) clear() {
	for on := range f {
		for runs := range f[on] {
			for bin := range f[on][runs] {
				f[on][runs][bin].cost = math.Inf(1)
			}
		}
	}
}

// take leaves it empty, and adds what was in it to a list, but for what is neither warmer nor cheaper
// than another: few are left, and only these are followed on.
func (f *timerFront) take(to []timerChoice) []timerChoice {
	for on := range f {
		for runs := range f[on] {
			bins := &f[on][runs]
			first, least := len(to), math.Inf(1)
			for bin := timerBins - 1; bin >= 0; bin-- { // from the warmest
				at := &bins[bin]
				if at.cost < least {
					least = at.cost
					to = append(to, timerChoice{*at, on, runs})
				}
				at.cost = math.Inf(1)
			}
			slices.Reverse(to[first:])
		}
	}
	return to
}

func bit(v bool) int {
	if v {
		return 1
	}
	return 0
}

// try keeps the mask if it is cheaper than the best and keeps the band.
func (d *TimerDay) try(mask uint64, best *timerTry) {
	got := d.day(mask, d.Slots[0].HighC, best.cost)
	if got.ok && got.cost < best.cost-1e-12 {
		*best = got
	}
}

// fade works out what half an hour does to a difference.
func (d *TimerDay) fade() {
	d.keeps, d.perWatt = 1, halfHourS/d.Capacity
	if d.UA > 0 {
		d.keeps = math.Exp(-d.UA * halfHourS / d.Capacity)
		d.perWatt = (1 - d.keeps) / d.UA
	}
}

// step moves the water through half an hour: where heating is on, the unit runs as much as
// brings it to the thermostat's temperature.
func (d *TimerDay) step(k int, at timerState, on bool, thermostat float64) (t, cost float64) {
	s := &d.Slots[k]
	if s.TopC > 0 {
		thermostat = min(thermostat, s.TopC)
	}
	t = s.AirC + (at.t-s.AirC)*d.keeps - s.LossW*d.perWatt
	if !on || t >= thermostat || s.OutW <= 0 {
		return t, at.cost
	}
	share := min(1, (thermostat-t)/(s.OutW*d.perWatt))
	return t + share*s.OutW*d.perWatt, at.cost + s.Price*s.InW*share*halfHourS/JoulesPerKWh
}

// better takes one time of day after another away, or none where there is room for one more, and
// puts the best one on the half hour in its place, as long as that helps.
func (d *TimerDay) better(best *timerTry) {
	for range 48 {
		was := best.mask
		rests := []uint64{was}
		for _, w := range windowsOf(was) {
			rests = append(rests, was&^maskOf(int(2*w.FromH), int(2*w.ToH)))
		}
		for _, rest := range rests {
			for from := range 48 {
				for length := range 48 {
					if m := rest | maskOf(from, from+length); m != 0 && runsOf(m) <= mostWindows {
						d.try(m, best)
					}
				}
			}
		}
		if best.mask == was {
			return
		}
	}
}

// maskOf returns the half hours from one up to another, which may lie in the next day.
func maskOf(from, to int) (mask uint64) {
	if to < from {
		to += 48
	}
	for i := from; i < to; i++ {
		mask |= 1 << (i % 48)
	}
	return mask
}

// day follows one day that repeats itself; it is given up where it costs limit or more.
func (d *TimerDay) day(mask uint64, thermostat, limit float64) timerTry {
	got := timerTry{mask: mask}
	at := timerState{t: thermostat}
	for range 60 { // until the day repeats itself
		got.low, at.cost = math.Inf(1), 0
		start := at.t
		for k := range d.Slots {
			at.t, at.cost = d.step(k, at, mask>>k&1 == 1, thermostat)
			got.low = min(got.low, at.t)
			if at.t < d.Slots[k].LowC-1e-9 || at.cost >= limit {
				got.cost, got.ok = at.cost, false
				return got
			}
		}
		if math.Abs(at.t-start) < 1e-6 {
			break
		}
	}
	got.cost, got.ok = at.cost, true
	return got
}

// runsOf counts the runs of a mask around the clock.
func runsOf(mask uint64) int {
	n := 0
	for i := range 48 {
		if mask>>i&1 == 1 && mask>>((i+47)%48)&1 == 0 {
			n++
		}
	}
	if n == 0 && mask != 0 {
		return 1
	}
	return n
}

// windowsOf returns the runs of a mask as times of day, in the order of their beginnings.
func windowsOf(mask uint64) []Window {
	var out []Window
	for i := range 48 {
		if mask>>i&1 == 0 || mask>>((i+47)%48)&1 == 1 {
			continue
		}
		j := i
		for mask>>(j%48)&1 == 1 {
			j++
		}
		to := float64(j) / 2
		if to > 24 {
			to -= 24
		}
		out = append(out, Window{FromH: float64(i) / 2, ToH: to})
	}
	if out == nil && mask != 0 {
		return []Window{{0, 24}}
	}
	return out
}
