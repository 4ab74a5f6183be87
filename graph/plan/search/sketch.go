package search

import (
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/settle"
)

// solveLike is solve for another choice at the place of a trial: a bypass element of the same
// body lies as the trial's does, so that it is settled and solved, and nothing is built or laid
// out. The trial it returns is for its flows alone, which are sought from those of one near it.
func (s *search) solveLike(like *trial, choice retrofit.Choice, near *trial) *trial {
	t := s.sketch(like, choice)
	t.solve(s.before, near)
	return t
}

// sketch is layOutOnly for what is solved and not judged: laid out as a trial at the same place,
// where its bypass element has the same body, else by itself.
func (s *search) sketch(like *trial, choice retrofit.Choice) *trial {
	if like.proposal != nil {
		like.layOut()
		if t := like.with(choice); t != nil {
			return t
		}
	}
	return s.layOutOnly(like.place, choice)
}

// with is the trial with another spring or another setting in its bypass; nil where that is of
// another kind or has another body.
func (t *trial) with(choice retrofit.Choice) *trial {
	c := t.proposal.Other(t.stage.Circuit, choice)
	if c == nil {
		return nil
	}
	set := t.stage.Layout.Stage.With(c)
	if !sameBody(t.proposal.Element, t.stage.Layout.Stage, set) {
		return nil
	}
	proposal := *t.proposal
	proposal.Choice = choice
	lay := t.stage.Layout.As(c)
	lay.Stage = set
	return &trial{place: t.place, unit: t.unit, before: t.before, proposal: &proposal, stage: &stage.Stage{Circuit: c, Layout: lay}, sketched: true}
}

// sameBody reports whether a bypass element takes the same room in two stages and meets its pipe alike.
func sameBody(id string, a, b *settle.Stage) bool {
	p, q := a.Part(id), b.Part(id)
	if p == nil || q == nil || p.Length.V != q.Length.V || p.Spec.V != q.Spec.V || p.Size.V != q.Size.V ||
		p.Row.V.TakeOffMM != q.Row.V.TakeOffMM || p.Row.V.SocketMM != q.Row.V.SocketMM || p.Row.V.Ends != q.Row.V.Ends {
		return false
	}
	for i := range a.Runs {
		for k := range a.Runs[i].Ends {
			x, y := &a.Runs[i].Ends[k], &b.Runs[i].Ends[k]
			if x.Ref.Part == id && (x.DepthMM != y.DepthMM || len(x.Adaptors) != len(y.Adaptors)) {
				return false
			}
			for n := range x.Adaptors {
				if x.Ref.Part == id && x.Adaptors[n].Row.Name != y.Adaptors[n].Row.Name {
					return false
				}
			}
		}
	}
	return true
}
