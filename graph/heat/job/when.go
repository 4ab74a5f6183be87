package job

import "dryfit/graph/heat"

// timer finds the cheapest times of day for the coldest month's mean day, within the band the
// user allows. Nothing is said where the file names no band or no price.
func (b *builder) timer(s *scene, r *Report) {
	u := b.in.Stage.Circuit.Use
	if s.planned == nil || !s.tariff.Known || u == nil || u.Between == nil || !u.Between[0].Set || !u.Between[1].Set {
		return
	}
	mean, humidity := meanDay(b.more.Weather)
	d := heat.TimerDay{UA: s.tub.UA() + s.tub.PipesUA, Capacity: s.tub.Capacity(), SetC: s.tub.SetC}
	open := heat.Shares([]heat.Window{{FromH: s.tub.Use.At, ToH: wrap(s.tub.Use.At + s.tub.Use.OpenS/3600)}})
	unit := withCOP(s.planned.Unit, s.cop)
	for k := range d.Slots {
		hour := k / 2
		air := heat.Air{TempC: mean[hour], Humidity: humidity, Wind: meanWind(b.more.Weather)}
		at := unit.At(air, s.tub.SetC, s.planned.FlowM3s)
		out, in := at.OutputW, at.InputW
		if out <= 0 {
			out, in = s.planned.ElementW, s.planned.ElementW
		}
		around := s.tub.Around(air).TempC
		d.Slots[k] = heat.Slot{AirC: around, LowC: u.Between[0].V, HighC: u.Between[1].V, OutW: out, InW: in + s.planned.PumpW,
			LossW: open[hour]*s.tub.Use.TimesAWeek/7*s.tub.Bathing(s.tub.SetC, air).Total() + s.tub.PipesUA*(around-air.TempC),
			Price: s.tariff.PriceBetween(float64(k)/2, float64(k+1)/2)}
	}
	t := d.Timer()
	r.Timer = &t
}

func wrap(h float64) float64 {
	if h > 24 {
		return h - 24
	}
	return h
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
