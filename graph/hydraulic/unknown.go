package hydraulic

import (
	"cmp"

	"dryfit/catalog"
	"dryfit/graph"
)

// unknown is one input that is not known exactly, with the shares by which it may be off.
type unknown struct {
	what      string // in words
	part      string // id; "" for a class
	low, high float64
	set       func(m *Model, p *Perturb, factor float64)
}

// unknowns lists the inputs of the models that have a spread, in the order of the circuit.
// The same part in several models (before and after, every mode) is one unknown. What one
// handbook gives is off together: K of all fittings is one unknown, and so is the bore of
// all pipe of one spec.
func unknowns(models []*Model) []unknown {
	var out []unknown
	seen := map[string]bool{}
	add := func(key string, u unknown) {
		if !seen[key] && u.high > u.low {
			seen[key] = true
			out = append(out, u)
		}
	}
	for _, m := range models {
		for i := range m.Parts {
			for _, u := range m.Parts[i].unknowns() {
				add(u.what+"\x00"+u.part, u)
			}
		}
		for i := range m.Runs {
			for _, u := range m.Runs[i].unknowns() {
				add(u.what+"\x00"+u.part, u)
			}
		}
	}
	return out
}

// unknowns lists what is not known exactly of a part.
func (p *ModelPart) unknowns() []unknown {
	id, known := p.Part.ID, p.Part.Known.String()
	onLoss := func(m *Model, q *Perturb, f float64) { setPart(m, &q.Loss, id, f) }
	switch {
	case p.pump != nil:
		low, high, _ := catalog.Spread(catalog.SpreadPumpHead, known)
		return []unknown{{"the head of " + id, id, low / 100, high / 100, onLoss}}
	case p.Part.Kind == graph.Tee || p.Part.Kind == graph.Reducer:
		low, high, _ := catalog.Spread(catalog.SpreadFittingK, catalogAssumed)
		return []unknown{{"the handbook's K of fittings", "", low / 100, high / 100, onTees}}
	case p.Source == "none" || len(p.edges) == 0 || p.Off || p.Shut:
		return nil
	}
	low, high := p.lossSpread()
	out := []unknown{{lossWords(p.Part), id, low, high, onLoss}}
	if p.check != nil && p.crack > 0 {
		low, high := p.crackingSpread()
		out = append(out, unknown{"the cracking pressure of " + id, id, low, high,
			func(m *Model, q *Perturb, f float64) { setPart(m, &q.Cracking, id, f) }})
	}
	return out
}

const catalogAssumed = "assumed"

func lossWords(p *graph.Part) string { return "the drop of " + p.ID }

// lossSpread returns the shares by which a part's loss may be off: the catalogue row's own
// range where the loss is the row's, else the spread of its class and grade.
func (p *ModelPart) lossSpread() (low, high float64) {
	row := p.Row
	if p.Source == "catalogue" && p.Part.Known == graph.Assumed {
		switch {
		case row.K > 0 && row.KHigh > 0:
			return row.KLow/row.K - 1, row.KHigh/row.K - 1
		case row.SpreadPct > 0:
			return -row.SpreadPct / 100, row.SpreadPct / 100
		}
	}
	class := catalog.SpreadPartLoss
	switch k := p.Part.Kind; {
	case k == graph.JetGroup:
		class = catalog.SpreadJetLoss
	case k == graph.HeatPump:
		class = catalog.SpreadUnitLoss
	case k.IsHandValve():
		class = catalog.SpreadValveKv
	}
	l, h, _ := catalog.Spread(class, p.Part.Known.String())
	return l / 100, h / 100
}

// crackingSpread returns the shares by which a check's cracking pressure may be off.
func (p *ModelPart) crackingSpread() (low, high float64) {
	row := p.Row
	if p.Part.Check != nil && !p.Part.Check.CrackingSet && row.CrackingPa > 0 && row.CrackingHighPa > 0 && p.Part.Known == graph.Assumed {
		return row.CrackingLowPa/row.CrackingPa - 1, row.CrackingHighPa/row.CrackingPa - 1
	}
	l, h, _ := catalog.Spread(catalog.SpreadCracking, p.Part.Known.String())
	return l / 100, h / 100
}

// unknowns lists what is not known exactly of a run.
func (r *ModelRun) unknowns() []unknown {
	if r.edge < 0 || r.LengthM == 0 {
		return nil
	}
	id, known := r.Run.ID, r.Run.Known.String()
	var out []unknown
	if len(r.Run.Legs) == 0 {
		low, high, _ := catalog.Spread(catalog.SpreadRunLength, known)
		out = append(out, unknown{"the length of " + id, id, low / 100, high / 100,
			func(m *Model, p *Perturb, f float64) { setRun(m, &p.Length, id, f) }})
	}
	if len(r.Fittings) > 0 {
		low, high, _ := catalog.Spread(catalog.SpreadFittingK, catalogAssumed)
		out = append(out, unknown{"the handbook's K of fittings", "", low / 100, high / 100, onTees})
	}
	if r.Run.BoreMM > 0 {
		return out // the user's own number
	}
	class, spec := catalog.SpreadBore, r.Run.Spec
	if spec.Flexible() {
		class = catalog.SpreadHoseBore
	}
	low, high, _ := catalog.Spread(class, known)
	return append(out, unknown{"the bore of " + string(spec) + " pipe", "", low / 100, high / 100,
		func(m *Model, p *Perturb, f float64) { setBores(m, p, spec, f) }})
}

// onTees sets the factor of every handbook fitting: in runs, tees and reducers.
func onTees(m *Model, p *Perturb, f float64) {
	p.Fittings = ones(p.Fittings, len(m.Runs))
	for i := range m.Runs {
		p.Fittings[i] = f
	}
	p.Loss = ones(p.Loss, len(m.Parts))
	for i := range m.Parts {
		if k := m.Parts[i].Part.Kind; k == graph.Tee || k == graph.Reducer {
			p.Loss[i] = f
		}
	}
}

func setBores(m *Model, p *Perturb, spec catalog.Spec, f float64) {
	p.Bore = ones(p.Bore, len(m.Runs))
	for i := range m.Runs {
		if m.Runs[i].Run.Spec == spec && m.Runs[i].Run.BoreMM == 0 {
			p.Bore[i] = f
		}
	}
}

func setPart(m *Model, list *[]float64, id string, f float64) {
	*list = ones(*list, len(m.Parts))
	for i := range m.Parts {
		if m.Parts[i].Part.ID == id {
			(*list)[i] = f
		}
	}
}

func setRun(m *Model, list *[]float64, id string, f float64) {
	*list = ones(*list, len(m.Runs))
	for i := range m.Runs {
		if m.Runs[i].Run.ID == id {
			(*list)[i] = f
		}
	}
}

// ones returns the list, or where it is nil a new one of factors that change nothing.
func ones(list []float64, n int) []float64 {
	if list != nil {
		return list
	}
	list = make([]float64, n)
	for i := range list {
		list[i] = 1
	}
	return list
}

// compareInfluence puts what matters most first.
func compareInfluence(a, b Influence) int {
	return cmp.Or(cmp.Compare(b.Effect, a.Effect), cmp.Compare(a.What, b.What), cmp.Compare(a.Mode, b.Mode))
}
