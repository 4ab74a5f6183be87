package route

import (
	"dryfit/catalog"
	"dryfit/graph"
)

// PartFit is what a part was taken to be.
type PartFit struct {
	Row    catalog.Row // the row it has its dimensions from; zero where the catalogue has none
	Spec   catalog.Spec
	Size   catalog.Size // of its run, at a tee
	Branch catalog.Size // of a tee's branch socket; zero for other kinds
}

// noteFits keeps what every part was taken to be, for the lists.
func (l *layer) noteFits() {
	l.lay.Fits = make(map[string]PartFit, len(l.c.Parts))
	for _, p := range l.c.Parts {
		fit := PartFit{Row: *l.partRow(p), Spec: p.Spec, Size: p.Size}
		if fittedKind(p.Kind) {
			fit.Spec, fit.Size = l.madeFor(p)
		} else {
			fit.fill(l.partRuns(p))
		}
		if p.Kind == graph.HeatPump && p.Unit != nil && !p.Unit.PortsSize.IsZero() {
			fit.Size = p.Unit.PortsSize
		}
		if p.Kind == graph.Tee {
			fit.Branch = fit.Size
			switch run := l.runAt(p.ID, graph.Branch); {
			case fit.Row.Kind == "reducing-tee":
				fit.Branch = fit.Row.Size2
			case !p.BranchSize.IsZero():
				fit.Branch = p.BranchSize
			case run != nil && fit.Size.IsZero():
				fit.Branch = run.Size
			}
		}
		l.lay.Fits[p.ID] = fit
	}
}

// fill takes what the part does not say from the first of its runs.
func (f *PartFit) fill(runs []*graph.Run) {
	for _, r := range runs {
		if f.Spec == "" {
			f.Spec = r.Spec
		}
		if f.Size.IsZero() {
			f.Size = r.Size
		}
	}
}

// partRuns returns the runs at a part, in the order of the circuit.
func (l *layer) partRuns(p *graph.Part) []*graph.Run {
	var out []*graph.Run
	for _, r := range l.c.Runs {
		if r.From.Part == p.ID || r.To.Part == p.ID {
			out = append(out, r)
		}
	}
	return out
}
