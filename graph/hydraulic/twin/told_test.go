package twin

import "math"

// told is what a maker drew of a tub that no description holds, for who asks how far off each guess is.
type told struct {
	pieces map[string][]float64 // by the unknown they make together
	exact  map[string]float64   // by unknown; "bore of " a run, mm, where more friction is written as less of it
}

func (o *told) note(of string, v float64) float64 {
	if o.pieces == nil {
		o.pieces = map[string][]float64{}
	}
	o.pieces[of] = append(o.pieces[of], v)
	return v
}

func (o *told) know(of string, v float64) {
	if o.exact == nil {
		o.exact = map[string]float64{}
	}
	o.exact[of] = v
}

// drawn returns the mean of the pieces, NaN where there are none.
func (o *told) drawn(of string) float64 {
	sum, n := 0.0, float64(len(o.pieces[of]))
	for _, v := range o.pieces[of] {
		sum += v
	}
	return sum / n
}

func (o *told) joints(isOld bool, k float64, hose bool) {
	switch {
	case hose:
	case isOld:
		o.note("joints in the old pipe", k)
	default:
		o.note("joints and burrs in the new pipe", k)
	}
}

func (o *told) barb(isOld bool, k float64) float64 {
	if isOld {
		return o.note("K of old barbs", k)
	}
	return o.note("K of new barbs", k)
}

// cover takes up a suction, of which its pipe's own end counts half a velocity head by itself.
func (o *told) cover(k float64) float64 {
	o.note("the covers of the suctions", k-0.5)
	return k
}

// elbows takes up the elbows of a run, of which so many are listed.
func (o *told) elbows(run string, each []float64, listed int) {
	missed := 0.0
	for i, k := range each {
		if o.note("the handbook's K of fittings", k); i >= listed {
			missed += k
		}
	}
	o.know("elbows nobody listed in "+run, missed)
}

// valve takes up by how much of its way a handle is off, and K to that of the handbook where it stands.
func (o *told) valve(id string, off, k float64) {
	o.know("where the handle of "+id+" stands", off)
	o.know("where the wheel of "+id+" stands", off)
	o.know("the Kv of "+id, 1/math.Sqrt(k)-1)
}
