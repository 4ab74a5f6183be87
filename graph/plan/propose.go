package plan

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// propose builds the work that [retrofit] asks for into the plan's circuit: at the place it
// names, or at the best of all. Without [retrofit] the circuit is drawn in full and stays
// as it is.
func propose(p *Plan, want Want) {
	c := p.Asked
	if c.Retrofit == nil {
		return
	}
	before := &Stage{Circuit: c.At(graph.Before)}
	before.lay()
	if c.Retrofit.Remove {
		proposal, ds := retrofit.Remove(c, before.Layout)
		p.take(proposal, ds)
		return
	}
	s := newSearch(c, before)
	if cut := c.Retrofit.Cut; cut != nil {
		s.forced(*cut)
	} else {
		s.beside()
		s.places()
	}
	s.rank()
	s.preferParallel()
	best := s.chosen()
	if want&Places != 0 {
		p.Places = s.verdicts()
	}
	if t := s.starved(best); t != nil {
		p.Findings = append(p.Findings, s.compare(t)...)
	}
	if best == nil {
		p.Findings = append(p.Findings, s.none())
		p.Findings = append(p.Findings, s.refused...)
		return
	}
	p.take(best.proposal, best.built)
}

// take builds a proposal in.
func (p *Plan) take(proposal *retrofit.Proposal, ds []graph.Diagnostic) {
	p.Findings = append(p.Findings, ds...)
	if proposal != nil {
		p.Proposal, p.Circuit = proposal, proposal.Circuit
	}
}

// none says that no place can take the unit, with what is nearest to one.
func (s *search) none() graph.Diagnostic {
	d := graph.Diagnostic{Pos: s.asked.Retrofit.Pos, Rule: "retrofit", Severity: graph.Error,
		Message: fmt.Sprintf("no place for the cut: of %d looked at none can take the unit", len(s.trials)),
		Hint:    "cutin lists every place with its reasons",
	}
	for _, t := range s.trials {
		v := s.verdict(t)
		if len(v.Mend) > 0 {
			d.Hint = fmt.Sprintf("nearest is %s: %s", t.place.Where(), strings.Join(v.Mend, "; "))
			break
		}
	}
	return d
}
