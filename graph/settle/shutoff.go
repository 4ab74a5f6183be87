package settle

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
)

// ShutOffAt is what a pump gives at no flow at one of its speeds (index), in water of a density in kg/m³; of
// one that what was read has otherwise than described, as it is taken. It is false where no curve is known.
func (p *Part) ShutOffAt(speed int, density float64) (laws.ShutOff, bool) {
	off, ok := p.ShutOffDescribed(speed, density)
	if ok && p.taken != nil {
		off.HeadM *= p.taken.heads[speed]
		off.GreatestM *= p.taken.heads[speed]
	}
	return off, ok
}

// ShutOffDescribed is ShutOffAt of the pump as it is described, whatever was read.
func (p *Part) ShutOffDescribed(speed int, density float64) (laws.ShutOff, bool) {
	return laws.ShutOffAt(p.Speeds.V, speed, density)
}

// taken is the head of a pump over that described, at each of its speeds, and by what.
type taken struct {
	heads []float64
	by    Origin
}

// takenOf is how a pump is taken by what was read; nil where it is as described.
func takenOf(p *Part, fit *graph.Fit) *taken {
	if !fit.Changes() {
		return nil
	}
	all, slow, found := 1.0, 1.0, false
	for _, n := range p.PumpUnknowns() {
		v, ok := fit.Value(n.Words, n.Whose)
		if !ok {
			continue
		}
		found = true
		switch n.Number {
		case SizeNumber:
			_, head := formula.PumpOfSize(v)
			all *= head
		case ShapeNumber:
			all /= v
		case HeadNumber:
			all *= v
		case RatioNumber:
			slow = v * v
		}
	}
	if !found {
		return nil
	}
	out := &taken{make([]float64, len(p.Speeds.V)), Origin{How: AsRead, Pos: fit.By()[0]}}
	for i := range out.heads {
		if out.heads[i] = all; p.Speeds.V[i].Ratio > 0 {
			out.heads[i] *= slow
		}
	}
	return out
}
