package settle

import (
	"dryfit/graph"
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
	does := fit.Effects(p.ID)
	if len(does) == 0 {
		return nil
	}
	out := &taken{make([]float64, len(p.Speeds.V)), Origin{How: AsRead, Pos: fit.By()[0]}}
	for i := range out.heads {
		out.heads[i] = 1
		for _, e := range does {
			if out.heads[i] *= e.Loss; p.Speeds.V[i].Ratio > 0 {
				out.heads[i] *= e.Speed * e.Speed
			}
		}
	}
	return out
}
