package spread

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// onFittings sets the factor of every handbook fitting but tees: in runs, and reducers.
func onFittings(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
	p.Fittings = list(p.Fittings, len(m.Runs), 1)
	for i := range m.Runs {
		p.Fittings[i] *= f
	}
	p.Loss = list(p.Loss, len(m.Parts), 1)
	for i := range m.Parts {
		if m.Parts[i].Part.Kind == graph.Reducer {
			p.Loss[i] *= f
		}
	}
}

// onTees sets the factor of the handbook's loss of every tee.
func onTees(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
	p.Loss = list(p.Loss, len(m.Parts), 1)
	for i := range m.Parts {
		if m.Parts[i].Part.Kind == graph.Tee {
			p.Loss[i] *= f
		}
	}
}

// onStraight adds K to what goes straight on through every tee.
func onStraight(m *hydraulic.Model, p *hydraulic.Perturb, k float64) {
	p.Straight = list(p.Straight, len(m.Parts), 0)
	for i := range m.Parts {
		if m.Parts[i].Tee != nil {
			p.Straight[i] += k
		}
	}
}

// onReducingTees sets the factor of the loss of tees between the handbook's two kinds.
func onReducingTees(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
	p.Loss = list(p.Loss, len(m.Parts), 1)
	for i := range m.Parts {
		if reducingTee(&m.Parts[i]) {
			p.Loss[i] *= f
		}
	}
}

// onBarbs sets the factor of K of the barbs on old hose, or on new.
func onBarbs(old bool) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
		p.Barbs = list(p.Barbs, len(m.Runs), 1)
		for i := range m.Runs {
			if m.Runs[i].Run.New() != old {
				p.Barbs[i] *= f
			}
		}
	}
}

// onUnlisted adds K to an old run; what is left of one that was cut has its share by length.
func onUnlisted(whole string) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, k float64) {
		p.Joints = list(p.Joints, len(m.Runs), 0)
		for _, left := range m.LeftOf[whole] {
			p.Joints[left.Run] += k * left.Share
		}
	}
}

// onEntrances adds K to the runs by which the water comes from the tub.
func onEntrances(m *hydraulic.Model, p *hydraulic.Perturb, k float64) {
	p.Joints = list(p.Joints, len(m.Runs), 0)
	for i := range m.Runs {
		if m.Runs[i].FromTub {
			p.Joints[i] += k
		}
	}
}

// onJoints adds K to the old runs, or to the new ones: of pipe, for hose has barbs and no cement.
func onJoints(old bool) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, k float64) {
		p.Joints = list(p.Joints, len(m.Runs), 0)
		for i := range m.Runs {
			if r := &m.Runs[i]; r.LengthM > 0 && r.Run.New() != old && !r.Run.Spec.IsHose() {
				p.Joints[i] += k
			}
		}
	}
}

// onLengths sets the factor of a run's length; of all that are measured leg by leg for "".
func onLengths(id string) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
		p.Length = list(p.Length, len(m.Runs), 1)
		if i, ok := m.RunAt[id]; ok {
			p.Length[i] *= f
			return
		}
		for i := range m.Runs {
			if r := m.Runs[i].Run; id == "" && len(r.Legs) > 0 {
				p.Length[i] *= f
			}
		}
	}
}

func onBores(spec catalog.Spec, old bool) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
		p.Bore = list(p.Bore, len(m.Runs), 1)
		for i := range m.Runs {
			if r := m.Runs[i].Run; r.Spec == spec && r.BoreMM == 0 && m.Runs[i].Run.New() != old {
				p.Bore[i] *= f
			}
		}
	}
}

// onWrittenBore sets the factor of the bore of a run whose description says it, and where a table has
// its pipe of every such run of that pipe.
func onWrittenBore(of *graph.Run, listed bool) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
		p.Bore = list(p.Bore, len(m.Runs), 1)
		for i := range m.Runs {
			r := m.Runs[i].Run
			like := r.Spec == of.Spec && r.Size == of.Size && r.New() == of.New()
			if r.BoreMM > 0 && (r.ID == of.ID || listed && like) {
				p.Bore[i] *= f
			}
		}
	}
}

func onRoughness(spec catalog.Spec, old bool) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, p *hydraulic.Perturb, f float64) {
		p.Roughness = list(p.Roughness, len(m.Runs), 1)
		for i := range m.Runs {
			if r := m.Runs[i].Run; r.Spec == spec && r.RoughnessMM <= 0 && m.Runs[i].Run.New() != old {
				p.Roughness[i] *= f
			}
		}
	}
}

func timesPart(m *hydraulic.Model, to *[]float64, id string, f float64) {
	*to = list(*to, len(m.Parts), 1)
	if i, ok := m.PartAt[id]; ok {
		(*to)[i] *= f
	}
}

func addPart(m *hydraulic.Model, to *[]float64, id string, v float64) {
	*to = list(*to, len(m.Parts), 0)
	if i, ok := m.PartAt[id]; ok {
		(*to)[i] += v
	}
}

// list returns the list, or where it is nil a new one that changes nothing.
func list(have []float64, n int, nothing float64) []float64 {
	if have != nil {
		return have
	}
	have = make([]float64, n)
	for i := range have {
		have[i] = nothing
	}
	return have
}
