package heat

import "math"

// Timer is a plan that a person can set: times of day in which heating is on, the thermostat
// at the upper limit of the band.
type Timer struct {
	On        []Window
	CostDay   float64
	AlwaysDay float64 // of heating whenever the water falls below the set point
	LowestC   float64 // water over the day
	OK        bool    // false: no such plan keeps the band, and On is all day
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

// Timer returns the cheapest plan of at most three times of day on the half hour: every
// choice of whole hours is tried, from the full hour and from the half, and the best is
// bettered half hour by half hour. The day repeats itself, so that the water ends where it
// began. A choice is given up as soon as it costs more than the best or leaves the band.
func (d *TimerDay) Timer() Timer {
	d.fade()
	free := *d // "always on" is priced even where it leaves the band
	for k := range free.Slots {
		free.Slots[k].LowC = math.Inf(-1)
	}
	always := free.day(1<<48-1, d.SetC, math.Inf(1))
	best := timerTry{cost: math.Inf(1)}
	for from := range 48 { // single times of day first: a good plan to beat
		var mask uint64
		for i := range 47 {
			mask |= 1 << ((from + i) % 48)
			d.try(mask, &best)
		}
	}
	for _, phase := range []int{0, 1} {
		d.choose(phase, 0, timerState{t: d.Slots[0].HighC}, &best)
	}
	out := Timer{AlwaysDay: always.cost, CostDay: always.cost, LowestC: always.low, On: []Window{{0, 24}}}
	if math.IsInf(best.cost, 1) {
		return out
	}
	d.better(&best)
	out.OK, out.CostDay, out.LowestC, out.On = true, best.cost, best.low, windowsOf(best.mask)
	return out
}

// timerState is a choice made up to some hour, begun with the water at the thermostat's
// temperature: what it costs so far is no more than in the day that repeats itself.
type timerState struct {
	mask    uint64
	runs    int
	t, cost float64
}

// timerTry is one choice: a bit for each half hour, from bit 0.
type timerTry struct {
	mask      uint64
	cost, low float64
	ok        bool
}

// choose tries every mask of whole hours with at most mostWindows runs.
func (d *TimerDay) choose(phase, hour int, at timerState, best *timerTry) {
	if hour == 24 {
		if at.mask != 0 && runsOf(at.mask) <= mostWindows {
			d.try(at.mask, best)
		}
		return
	}
	first := (2*hour + phase) % 48
	second := (first + 1) % 48
	thermostat := d.Slots[0].HighC

	off := at
	if off.t, off.cost = d.step(first, off, false, thermostat); off.t >= d.Slots[first].LowC-1e-9 {
		if off.t, off.cost = d.step(second, off, false, thermostat); off.t >= d.Slots[second].LowC-1e-9 {
			d.choose(phase, hour+1, off, best)
		}
	}
	on := at
	if at.mask>>((first+47)%48)&1 == 0 { // a new run begins; the last may yet join the first
		if on.runs++; on.runs > mostWindows+1 {
			return
		}
	}
	on.mask |= 1<<first | 1<<second
	if on.t, on.cost = d.step(first, on, true, thermostat); on.t < d.Slots[first].LowC-1e-9 {
		return
	}
	if on.t, on.cost = d.step(second, on, true, thermostat); on.t < d.Slots[second].LowC-1e-9 || on.cost >= best.cost {
		return
	}
	d.choose(phase, hour+1, on, best)
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
	t = s.AirC + (at.t-s.AirC)*d.keeps - s.LossW*d.perWatt
	if !on || t >= thermostat || s.OutW <= 0 {
		return t, at.cost
	}
	share := math.Min(1, (thermostat-t)/(s.OutW*d.perWatt))
	return t + share*s.OutW*d.perWatt, at.cost + s.Price*s.InW*share*halfHourS/JoulesPerKWh
}

// better moves the ends of the runs by half hours as long as that helps.
func (d *TimerDay) better(best *timerTry) {
	for range 48 {
		was := best.mask
		for i := range 48 {
			if flipped := was ^ 1<<i; flipped != 0 && runsOf(flipped) <= mostWindows {
				d.try(flipped, best)
			}
		}
		if best.mask == was {
			return
		}
	}
}

// day follows one day that repeats itself; it is given up where it costs limit or more.
func (d *TimerDay) day(mask uint64, thermostat, limit float64) timerTry {
	got := timerTry{mask: mask}
	at := timerState{t: thermostat}
	for range 8 { // until the day repeats itself
		got.low, at.cost = math.Inf(1), 0
		start := at.t
		for k := range d.Slots {
			at.t, at.cost = d.step(k, at, mask>>k&1 == 1, thermostat)
			got.low = math.Min(got.low, at.t)
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
