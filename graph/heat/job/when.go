package job

import (
	"dryfit/graph"
	"dryfit/graph/heat"
)

// timer finds the cheapest times of day for the coldest month's mean day, within the band the
// user allows. Nothing is said where the file names no band or no price.
//
// What a day costs is what making the heat costs: the pump's filter hours and the stand-by run
// either way, and their heat is in.
func (b *builder) timer(s *scene, r *Report) {
	u := b.in.Stage.Circuit.Use
	if s.planned == nil || !s.tariff.Known || u == nil || u.Between == nil || !u.Between[0].Set || !u.Between[1].Set {
		return
	}
	mean, humidity := meanDay(b.more.Weather)
	p := s.planned
	filter, high := p.FilterShare(), bandTop(s, u)
	pipes, pumpHeat := s.tub.PipesUA, p.PumpW*p.PumpHeat
	d := heat.TimerDay{UA: s.tub.UA() + filter*pipes, Capacity: s.tub.Capacity(), SetC: s.tub.SetC}
	for k := range d.Slots {
		hour := k / 2
		air := heat.Air{TempC: mean[hour], Humidity: humidity, Wind: meanWind(b.more.Weather)}
		slot := heat.Slot{AirC: s.tub.Around(air).TempC, LowC: u.Between[0].V, HighC: high,
			Price: s.tariff.PriceBetween(float64(k)/2, float64(k+1)/2)}
		for _, at := range heat.Gives(&s.tub, heat.Alike(p.Units), air, s.tub.SetC) {
			slot.OutW, slot.InW = slot.OutW+at.OutputW, slot.InW+at.InputW
		}
		if slot.OutW <= 0 {
			slot.OutW, slot.InW = p.ElementW, p.ElementW
			switch rest := p.ElementW - p.TopW; {
			case p.TopW > 0 && rest > 0: // most of the time the water is above what the others are set to
				slot.OutW, slot.InW = rest, rest
			case p.TopW > 0:
				slot.TopC = p.TopC
			}
		}
		slot.LossW = s.tub.Taken(s.tub.SetC, air, hour) + filter*pipes*(slot.AirC-air.TempC) - filter*pumpHeat - p.OtherW*p.PumpHeat
		d.Slots[k] = slot
	}
	if extra := beyondFilter(&d, filter); extra > 0 {
		for k := range d.Slots {
			if slot := &d.Slots[k]; slot.OutW > 0 {
				slot.OutW += extra * (pumpHeat - pipes*(s.tub.SetC-mean[k/2]))
				slot.InW += extra * p.PumpW
			}
		}
	}
	t := d.Timer()
	r.Timer, r.TimerC = &t, high
}

// beyondFilter is the part of the time in which heat is made that the pump runs for it alone: what of a
// day at the set point does not go into its filter hours, a share of the day.
func beyondFilter(d *heat.TimerDay, filter float64) float64 {
	needW, outW := 0.0, 0.0
	for _, s := range d.Slots {
		needW += d.UA*(d.SetC-s.AirC) + s.LossW
		outW += s.OutW
	}
	if needW <= 0 || outW <= 0 {
		return 0
	}
	return max(0, 1-filter*outW/needW)
}

// bandTop is the upper end of the band that a timer may use, or the hottest water that all the units make where
// that is less, °C.
func bandTop(s *scene, u *graph.Use) float64 {
	high := u.Between[1].V
	for _, p := range s.planned.Units {
		if p.Unit.HasMost {
			high = min(high, p.Unit.MostC)
		}
	}
	return high
}

// meanDay returns the mean of each hour of the day over the coldest month, and its humidity.
func meanDay(w *heat.Weather) (mean [24]float64, humidity float64) {
	coldest, from, n := 0.0, 0, 0
	for m := 1; m <= 12; m++ {
		start, _ := w.Day(m, 1)
		end := len(w.Hours)
		if m < 12 {
			end, _ = w.Day(m+1, 1)
		}
		sum := 0.0
		for _, a := range w.Hours[start:end] {
			sum += a.TempC
		}
		if sum /= float64(end - start); m == 1 || sum < coldest {
			coldest, from, n = sum, start, end-start
		}
	}
	for i, a := range w.Hours[from : from+n] {
		mean[i%24] += a.TempC / float64(n/24)
		humidity += a.Humidity / float64(n)
	}
	return mean, humidity
}
