package job

import (
	"dryfit/graph"
	"dryfit/graph/sample"
)

// ends works out what each assumed value alone, at either end of its range, makes of the years;
// likely is what none of them comes to. What is only listed has none.
func (b *builder) ends(s *scene, likely outcome) [][2]outcome {
	out := make([][2]outcome, len(b.assumed))
	graph.SideBySide(len(b.assumed), func(k int) {
		a := &b.assumed[k]
		if a.apply == nil {
			return
		}
		for j, f := range []float64{a.Low, a.High} {
			c := s.clone()
			a.apply(c, f)
			asBefore := c.sameToday(s)
			if asBefore {
				c.today = nil
			}
			o, _, _ := b.run(c)
			if asBefore {
				o.todayKWh, o.todayCost = likely.todayKWh, likely.todayCost
			}
			out[k][j] = o
		}
	})
	return out
}

// sampled is what the years come to at every point of the sample. They are worked out at the few
// points that the flows were sampled at. Of so few the ends of nine in ten would be off by a sixth
// of the way to them as a rule (64 values drawn from a normal distribution); so what the values do to
// the years each by itself, which is known, is multiplied up at all points, and what the years worked
// out are more or less than that, by what the values do together and by the flows, is laid on in turn.
//
// The method is that of a control variate: R. Y. Rubinstein, D. P. Kroese, Simulation and the Monte Carlo
// Method (from memory); TestFewStandForAll holds it against years worked out at all points.
func (b *builder) sampled(s *scene, y *YearReport, likely outcome, ends [][2]outcome) []outcome {
	flows, points := b.more.Sample, b.more.Sample.Points
	if points == nil {
		points = sample.Few()
	}
	of := b.more.Sample.All
	if of == nil {
		of = sample.All()
	}
	moved := b.moved()
	more := make([]outcome, len(points))
	graph.SideBySide(len(points), func(n int) {
		c, i := s.clone(), points[n]
		if n < len(flows.FlowM3s) && c.planned != nil && flows.FlowM3s[n] > 0 { // not where it is NaN
			c.own().FlowM3s = flows.FlowM3s[n]
		}
		for n, k := range moved {
			b.assumed[k].apply(c, b.assumed[k].at(sample.Point(i, sample.OfYear(n))))
		}
		worked, _, _ := b.run(c)
		more[n] = worked.over(b.carried(likely, ends, moved, i))
	})
	y.Samples = len(points)
	all := make([]outcome, len(of))
	for n, i := range of {
		all[n] = b.carried(likely, ends, moved, i).times(more[n%len(more)])
	}
	return all
}

// moved are the assumed values that take a place in the sample: not what is only listed, nor what
// can't be anything else.
func (b *builder) moved() (out []int) {
	for k, a := range b.assumed {
		if a.apply != nil && a.Low != a.High {
			out = append(out, k)
		}
	}
	return out
}

// carried is what the years would come to at point i of the sample if every value did by itself what
// it does alone: the shares by which it makes them more or less, multiplied.
func (b *builder) carried(likely outcome, ends [][2]outcome, moved []int, i int) outcome {
	out := likely.each(outcome{}, func(a, _ float64) float64 {
		if a <= 0 { // of nothing there are no shares: what the years worked out are stands for all
			return 1
		}
		return a
	})
	for n, k := range moved {
		u := sample.Point(i, sample.OfYear(n))
		end, far := ends[k][0], 1-2*u
		if u >= 0.5 {
			end, far = ends[k][1], 2*u-1
		}
		out = out.times(end.over(likely).toward(far))
	}
	return out
}

// least is the least that one value leaves of a year as it is carried to other points. Judgement: no
// value does so much, and what nothing is left of has no share of it.
const least = 0.01

// toward is what is left of a share where a value is only so far on its way to its end, 0 to 1.
func (o outcome) toward(far float64) outcome {
	return o.each(outcome{}, func(a, _ float64) float64 { return max(least, 1+(a-1)*far) })
}

// over is an outcome as shares of another; 1 of what is nothing.
func (o outcome) over(of outcome) outcome {
	return o.each(of, func(a, b float64) float64 {
		if b <= 0 {
			return 1
		}
		return a / b
	})
}

func (o outcome) times(f outcome) outcome {
	return o.each(f, func(a, b float64) float64 { return a * b })
}

func (o outcome) each(p outcome, f func(a, b float64) float64) outcome {
	return outcome{f(o.todayKWh, p.todayKWh), f(o.plannedKWh, p.plannedKWh), f(o.todayCost, p.todayCost), f(o.plannedCost, p.plannedCost)}
}
