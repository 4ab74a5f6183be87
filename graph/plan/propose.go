package plan

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
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
	p.searched = before
	if c.Retrofit.Remove {
		proposal, ds := retrofit.Remove(c, before.Layout)
		p.take(proposal, ds)
		return
	}
	s := newSearch(c, before)
	s.tell = p.tell
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
	p.fitted = best.stage
	if best.standing() > 0 {
		p.mends = s.mend(best)
	}
}

// placeRules are the rules that may rule a place out by where its pipes and parts lie.
var placeRules = []string{"retrofit", "assembly", "clash", "routing", "cut-room", "cut-reachable", "cut-clear-room"}

// mended gives the errors that rule out a place the description insists on the advice that was
// tried: what one of them says by itself may lead in a circle, and names runs nobody wrote.
func (p *Plan) mended(ds []graph.Diagnostic) {
	if p.Proposal == nil {
		return
	}
	said := false
	for i := range ds {
		d := &ds[i]
		if d.Severity != graph.Error || !slices.Contains(placeRules, d.Rule) {
			continue
		}
		switch {
		case len(p.mends) > 0 && !said:
			d.Hint, said = "the place would do with "+quantity.Join(p.mends, "; or with "), true
		case len(p.mends) > 0:
			d.Hint = ""
		case slices.ContainsFunc(p.Proposal.NewIDs, func(id string) bool { return strings.Contains(string(d.Hint), id) }):
			d.Hint = "nothing that was tried makes this place possible: leave cut out to have every place ranked"
		}
	}
}

// take builds a proposal in.
func (p *Plan) take(proposal *retrofit.Proposal, ds []graph.Diagnostic) {
	p.Findings = append(p.Findings, ds...)
	if proposal != nil {
		p.Proposal, p.Circuit = proposal, proposal.Circuit
	}
}

// none says that no place can take the unit, with why not the one that comes nearest, as the
// places are ranked, and what would make it possible.
func (s *search) none() graph.Diagnostic {
	d := graph.Diagnostic{Pos: s.asked.Retrofit.Pos, Rule: "retrofit", Severity: graph.Error,
		Message: graph.Say("no place for the cut: of %d looked at none can take the unit", len(s.trials)),
		Hint:    "cutin lists every place with its reasons",
	}
	if len(s.trials) == 0 {
		return d
	}
	v := s.verdict(s.trials[0])
	if len(v.Reasons) > 0 {
		d.Message += graph.Say("; nearest is %s: %s", v.Place.Where(), v.Reasons[0].Text)
		if v.Reasons[0].Pos.IsValid() {
			d.Related = append(d.Related, graph.Related{Pos: v.Reasons[0].Pos, Message: "it is described here"})
		}
	}
	switch {
	case len(v.Mend) == 0:
	case v.Verdict == "measure first":
		d.Hint = quantity.Join(v.Mend, "; or ")
	default:
		d.Hint = "that one would do with " + quantity.Join(v.Mend, "; or with ")
	}
	return d
}
