package plan

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/rule"
)

// Fault is the first error finding of the plan in the order of the description; nil where
// it has none, unless the search found the place ruled out by what this plan didn't ask for. What is drawn of a plan with a fault is not to be built.
func (p *Plan) Fault() *graph.Diagnostic {
	for i := range p.Findings {
		if p.Findings[i].Severity == graph.Error {
			return &p.Findings[i]
		}
	}
	if len(p.against) > 0 {
		return &p.against[0]
	}
	return nil
}

// RuledOut is why the place the plan builds in is none to be cut: its first error finding.
// Nil where the place will do, and where the description holds its work already. Nobody is
// told where to saw, nor in which order to build, at a place that is ruled out.
func (p *Plan) RuledOut() *graph.Diagnostic {
	if p.Proposal == nil {
		return nil
	}
	return p.Fault()
}

// NoPlace is the error of work that is asked for and finds no place for the cut. Nil where it does.
func (p *Plan) NoPlace() *graph.Diagnostic {
	if p.Proposal != nil {
		return nil
	}
	for i := range p.Findings {
		if d := &p.Findings[i]; d.Rule == "retrofit" && d.Severity == graph.Error {
			return d
		}
	}
	return p.Fault()
}

// WhyNot words why nothing is cut where RuledOut says so: the place, or what holds wherever the
// cut is. Empty where it does not.
func (p *Plan) WhyNot() quantity.Text {
	d := p.RuledOut()
	switch {
	case d == nil:
		return ""
	case rule.SaysAnywhere(d.Rule):
		return "wherever the cut is, this has to be mended first: " + d.Message
	}
	return "the place is ruled out: " + d.Message
}
