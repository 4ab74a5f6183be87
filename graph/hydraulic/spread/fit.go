package spread

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// Fit brings the case as described to what was read on the tub as it stands, laid out as it is today (nil:
// nothing closes there), in some modes. Where it comes to all of that, as far as it may be off, it stays.
// Else what may be off is taken where it is likeliest by both, what was read and how far each may be off:
// the least sum of squares of all of them, each in its own standard deviations, so that what is known by a
// data sheet moves least. That is the likeliest point of what Of samples. What moves nothing that was read
// stays as described. Where even that is no nearer than three times the error of what was read, or so far
// from what may be that none in ten thousand is, it is Unfit; where it lies no nearer than the description, for
// the reading is good for little or nothing that may be off moves it, that stays. Of a very large circuit what
// costs little is not moved. What one instrument read again and again of one water counts as its mean, no surer.
//
// Source: C. D. Rodgers (2000), Inverse Methods for Atmospheric Sounding, 5.3, the iteration of Gauss and
// Newton in as many equations as there are readings (from memory).
func Fit(today *route.Layout, modes []graph.Mode, all []graph.Reading) *graph.Fit {
	s := &spreader{}
	if today != nil {
		s = spreaderOf(today, today, "", modes)
	}
	s.readings(all)
	out, beyond := &graph.Fit{}, false
	for _, r := range s.read {
		r.Taken = r.AsDescribed
		beyond = beyond || r.Beyond()
	}
	if f := s.fitter(); beyond && len(f.read) > 0 {
		if z, g, ok := f.nearest(f.read, nil); ok {
			out.Values = f.take(z, g)
		} else {
			out.Unfit = true
			f.against()
		}
	}
	for _, r := range s.read {
		out.Read = append(out.Read, r.Met)
	}
	return out
}

// How far the search goes: rounds, and how often a step is halved that leads no nearer.
const (
	mostFitted = 8
	mostHalved = 6
)

const (
	// unlikely is how far from the middle of what may be off the fit may lie, in standard deviations: of a
	// normal distribution one in sixteen thousand lies farther out.
	unlikely = 4
	// idle is by how many of its standard deviations what was read moves with one of an unknown that does
	// not move it.
	idle = 1e-4
)

// fitter seeks the fit. A place in it is how many standard deviations each unknown that is moved lies
// from its middle; last how deep below the water lies what nothing says it of.
type fitter struct {
	*spreader
	read   []*reading // what is answered
	stages []*spreadStage
	moved  []int // of all, which unknowns
	solved int   // how many runs so far
}

func (s *spreader) fitter() *fitter {
	f := &fitter{spreader: s, stages: s.readStages()}
	for _, r := range s.read {
		if r.at != nil {
			f.read = append(f.read, r)
		}
	}
	work := 0
	for _, st := range f.stages {
		work += st.work()
	}
	f.moved = s.worthMoving(max(mostRunsFitted/max(mostFitted*work, 1), leastMoved))
	return f
}

// values are the unknowns at a place; those that are not moved, or stay, as described.
func (f *fitter) values(z []float64, stays []bool) []float64 {
	out := make([]float64, len(f.all))
	for k := range out {
		out[k] = f.all[k].asDescribed()
	}
	for j, k := range f.moved {
		if stays == nil || !stays[j] {
			out[k] = f.all[k].standard(z[j])
		}
	}
	return out
}

// off is by how many standard deviations of its error each of what was read lies from what it comes to;
// nil where something has no answer.
func (f *fitter) off(read []*reading, z []float64, stays []bool) []float64 {
	values, at := f.values(z, stays), level()
	depth := at.Middle + aside(z[len(f.moved)], at.Middle-at.Low, at.High-at.Middle)
	out := make([]float64, len(read))
	for _, st := range f.stages {
		if !slices.ContainsFunc(read, func(r *reading) bool { return r.at == st }) {
			continue
		}
		f.solved += st.work()
		a := f.solve(st, values, 0)
		for i, r := range read {
			if r.at != st {
				continue
			}
			v, ok := r.value(a, depth)
			if !ok {
				return nil
			}
			out[i] = r.deviation(v)
			r.Taken = v
		}
	}
	return out
}

// slopes is how off moves with each unknown, by what was read and unknown.
func (f *fitter) slopes(read []*reading, z, off []float64) [][]float64 {
	const step = 0.1
	out := make([][]float64, len(read))
	for i := range out {
		out[i] = make([]float64, len(z))
	}
	for j := range z {
		at := slices.Clone(z)
		if at[j] += step; at[j] > farthest {
			at[j] -= 2 * step
		}
		moved := f.off(read, at, nil)
		for i := range moved {
			out[i][j] = (moved[i] - off[i]) / (at[j] - z[j])
		}
	}
	return out
}

// nearest seeks the likeliest place for some of what was read, and says whether it is one; slopes are of
// the first place, nil where they are to be worked out at each.
func (f *fitter) nearest(read []*reading, slopes [][]float64) (z []float64, g [][]float64, ok bool) {
	z, g = make([]float64, len(f.moved)+1), slopes
	off := f.off(read, z, nil)
	if off == nil {
		return z, g, false
	}
	for range mostFitted {
		if slopes == nil {
			g = f.slopes(read, z, off)
		}
		to, was := step(z, off, g), squares(z)+squares(off)
		share, found := 1.0, false
		for range mostHalved {
			at := make([]float64, len(z))
			for j := range z {
				at[j] = z[j] + share*(to[j]-z[j])
			}
			if near := f.off(read, at, nil); near != nil && squares(at)+squares(near) < was {
				z, off, found = at, near, true
				break
			}
			share /= 2
		}
		if !found || was-squares(z)-squares(off) < 1e-6*was {
			break
		}
	}
	return z, g, fits(read, z, off)
}

// fits reports whether a place is near enough to what was read and to what may be. Of one instrument that read one
// water again and again every reading has to be near, though they count as their mean.
func fits(read []*reading, z, off []float64) bool {
	sum := squares(off)
	for _, r := range read {
		sum += r.scatter
	}
	return math.Exp(-sum/2) >= unfit && squares(z) <= unlikely*unlikely
}

// take is what the fit takes otherwise than described: what moves something that was read. It is nil where that
// brings what was read no nearer.
func (f *fitter) take(z []float64, g [][]float64) (out []graph.Fitted) {
	stays, all := make([]bool, len(f.moved)), make([]bool, len(f.moved))
	for j := range f.moved {
		stays[j], all[j] = !slices.ContainsFunc(g, func(by []float64) bool { return math.Abs(by[j]) > idle }), true
	}
	was, off := f.off(f.read, z, all), f.off(f.read, z, stays) // with what lies at no known depth as deep in both
	if was == nil || off == nil || squares(off) >= squares(was) {
		f.asDescribed()
		return nil
	}
	for j, k := range f.moved {
		if u := &f.all[k]; !stays[j] {
			stays[j] = true
			share := along(off, f.off(f.read, z, stays), was)
			stays[j] = false
			out = append(out, graph.Fitted{What: u.what, Part: u.part, Value: u.standard(z[j]), Share: share,
				Settles: f.settling(u, f.stages[0].model), Does: f.does(u, u.standard(z[j]))})
		}
	}
	f.off(f.read, z, stays)
	return out
}

// along is how far of the way from one point to another a third lies, where it is nearest to that; 0 of none.
func along(from, at, to []float64) float64 {
	if at == nil {
		return 0
	}
	sum, way := 0.0, 0.0
	for i := range to {
		sum, way = sum+(at[i]-from[i])*(to[i]-from[i]), way+(to[i]-from[i])*(to[i]-from[i])
	}
	return sum / way
}

// asDescribed takes what was read to come to what it does as described.
func (f *fitter) asDescribed() {
	for _, r := range f.read {
		r.Taken = r.AsDescribed
	}
}

// does is what an unknown at a value does to pumps and jets, whose unknowns are called by what is described
// of them; nil of one that stands for no part.
func (f *fitter) does(u *unknown, value float64) (out []graph.Effect) {
	if u.part == "" {
		return nil
	}
	for _, st := range f.stages {
		p := &hydraulic.Perturb{}
		u.set(st.model, p, value)
		for i := range st.model.Parts {
			part := st.model.Parts[i].Part
			e := graph.Effect{Part: part.ID, Loss: at(p.Loss, i), Flow: at(p.Flow, i), Speed: at(p.Speed, i)}
			if (part.Kind == graph.Pump || part.Kind == graph.JetGroup) && e != (graph.Effect{Part: part.ID, Loss: 1, Flow: 1, Speed: 1}) && !slices.Contains(out, e) {
				out = append(out, e)
			}
		}
	}
	return out
}

// at is a factor of a list; 1 of none.
func at(list []float64, i int) float64 {
	if list == nil {
		return 1
	}
	return list[i]
}

// against says, where nothing fits all that was read, what of it may be so by itself, and which two of
// these can't both be so: as many pairs as are worth solving, along the slopes in the middle, each for itself
// whatever was read besides.
func (f *fitter) against() {
	for _, r := range f.read {
		r.times, r.scatter = 1, 0
	}
	defer f.byOne()
	z := make([]float64, len(f.moved)+1)
	off := f.off(f.read, z, nil)
	if off == nil {
		return
	}
	g := f.slopes(f.read, z, off)
	may := func(of ...int) bool {
		var some []*reading
		var slopes [][]float64
		for _, i := range of {
			some, slopes = append(some, f.read[i]), append(slopes, g[i])
		}
		_, _, ok := f.nearest(some, slopes)
		return ok
	}
	for i := range f.read {
		f.read[i].Alone = may(i)
	}
	for i := range f.read {
		for j := i + 1; j < len(f.read); j++ {
			if a, b := f.read[i], f.read[j]; a.Alone && b.Alone && f.solved < mostRunsFitted && !may(i, j) {
				a.Against, b.Against = append(a.Against, f.placeOf(b)), append(b.Against, f.placeOf(a))
			}
		}
	}
	f.asDescribed()
}

// placeOf is where one of what was read stands among all.
func (f *fitter) placeOf(r *reading) int { return slices.Index(f.spreader.read, r) }

// step is the place at which the sum of squares of all deviations is least if what was read moves along
// its slopes: from z' = -gᵀ(1 + ggᵀ)⁻¹(off - gz), nothing farther out than anything is taken. What would
// lie there stays at its end, and the others make up for it.
func step(z, off []float64, g [][]float64) []float64 {
	out, held := make([]float64, len(z)), make([]bool, len(z))
	for range len(z) {
		rest := slices.Clone(off)
		square := make([][]float64, len(g))
		for i := range g {
			square[i] = make([]float64, len(g))
			square[i][i] = 1
			for j, by := range g[i] {
				if rest[i] -= by * z[j]; held[j] {
					rest[i] += by * out[j]
				}
			}
			for k := range i + 1 {
				for j, by := range g[i] {
					if !held[j] {
						square[i][k] += by * g[k][j]
					}
				}
			}
		}
		by, more := solve(square, rest), false
		for j := range z {
			if held[j] {
				continue
			}
			out[j] = 0
			for i := range g {
				out[j] -= g[i][j] * by[i]
			}
			if math.Abs(out[j]) > farthest {
				out[j], held[j], more = math.Copysign(farthest, out[j]), true, true
			}
		}
		if !more {
			break
		}
	}
	return out
}

// solve solves equations whose matrix is symmetric and positive, of which the lower half is given and
// written over: Cholesky.
func solve(a [][]float64, b []float64) []float64 {
	x := slices.Clone(b)
	for i := range a {
		for j := range i + 1 {
			sum := a[i][j]
			for k := range j {
				sum -= a[i][k] * a[j][k]
			}
			if i == j {
				a[i][i] = math.Sqrt(sum)
			} else {
				a[i][j] = sum / a[j][j]
			}
		}
		for k := range i {
			x[i] -= a[i][k] * x[k]
		}
		x[i] /= a[i][i]
	}
	for i := len(a) - 1; i >= 0; i-- {
		for k := i + 1; k < len(a); k++ {
			x[i] -= a[k][i] * x[k]
		}
		x[i] /= a[i][i]
	}
	return x
}

// squares is the sum of the squares of a list.
func squares(list []float64) (sum float64) {
	for _, v := range list {
		sum += v * v
	}
	return sum
}
