package search

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// straightRule is the rule that asks for straight pipe before a check valve.
const straightRule = "check-straight-length"

// WantsStraight reports whether a finding asks for straight pipe before a part.
func WantsStraight(d graph.Diagnostic, id string) bool {
	return d.Rule == straightRule && slices.Contains(d.Of, id)
}

// straighter says what would give the check in the bypass at the place that is chosen its straight
// pipe: the same leg cut so much farther along, which is tried; "" where the place does not speak of it.
// What the rule says by itself, so much down the line, may lead into something that stands there.
func (s *search) straighter(best *trial) quantity.Text {
	says := func(t *trial) bool {
		return t.proposal != nil && slices.ContainsFunc(t.findings, func(d graph.Diagnostic) bool { return WantsStraight(d, t.proposal.Element) })
	}
	p := &best.place
	if best.standing() > 0 || p.Leg == 0 || best.parallel() || !says(best) {
		return ""
	}
	if s.tries >= min(triesOfAll, triedRuns/len(s.asked.Runs)) {
		return "take a slight chatter into the bargain, or cut it elsewhere"
	}
	s.tries++
	at := s.even(p.FromMM + p.WantedMM - p.StraightMM)[0]
	h := help{kinds: []string{"cut"},
		say:  graph.Say("cut = { run = \"%s\", leg = %d, at = \"%s\" } in [retrofit]", p.Run, p.Leg, quantity.Closely(at)),
		cost: graph.Say("nothing: the same leg is cut %s farther along it", s.length(at-p.FromMM)),
		apply: func(c *graph.Circuit) {
			c.Retrofit.Cut = &graph.Cut{Run: p.Run, Leg: p.Leg, AtMM: at, Pos: c.Retrofit.Pos}
		}}
	if with := s.with(best, []help{h}); with.betters(best) && !says(with) {
		return s.said([]help{h}, with)
	}
	return graph.Say("take a slight chatter into the bargain, or cut it elsewhere: %s farther along this leg was tried, and is not better", s.length(at-p.FromMM))
}
