package search

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// mostAlong bounds how many other cut lines are tried in one search: each is a circuit built and laid
// out. In a circuit of very many runs they are fewer, as the other pairs of pipes are.
const mostAlong = 24

// along moves a place along its leg where nothing says where on it the cut is to be, and at its
// usual place no pipes lead to the unit, or the work meets something: to both ends of its room, and
// one third and two thirds along it. The one that has the fewest errors, and of those the fewest
// warnings, is taken, of equals the nearest; none is looked for behind one that nothing hinders.
func (s *search) along(t *trial) {
	if cut := s.asked.Retrofit.Cut; cut != nil && cut.AtMM >= 0 || s.bound != nil || !t.hindered() {
		return
	}
	for _, place := range s.elsewhere(t.place) {
		if s.moved >= mostAlong*100/max(100, len(s.asked.Runs)) {
			return
		}
		s.moved++
		o := &trial{place: place, unit: t.unit, before: t.before, others: t.others}
		if o.build(s.site, o.unit, place, s.first(place)); o.proposal.Unled && !t.unled() {
			continue
		}
		if o.judgeLayout(s.before); len(o.errors()) < len(t.errors()) || len(o.errors()) == len(t.errors()) && o.warnings() < t.warnings() {
			*t = *o
		}
		if !t.hindered() {
			return
		}
	}
}

// elsewhere are the other places on the leg of one, nearest first.
func (s *search) elsewhere(p retrofit.Place) []retrofit.Place {
	var out []retrofit.Place
	for _, at := range s.alongLeg(&p) {
		if q, ok := s.site.PlaceAt(graph.Cut{Run: p.Run, Leg: p.Leg, AtMM: at}, s.first(p)); ok && math.Abs(q.NeededMM-p.NeededMM) < 1 {
			out = append(out, q)
		}
	}
	slices.SortStableFunc(out, func(a, b retrofit.Place) int {
		switch da, db := math.Abs(a.FromMM-p.FromMM), math.Abs(b.FromMM-p.FromMM); {
		case da < db-0.05:
			return -1
		case db < da-0.05:
			return 1
		}
		return 0
	})
	return out
}

// unled reports whether no pipes lead from the place to where the unit stands.
func (t *trial) unled() bool { return t.proposal == nil || t.proposal.Unled }

// hindered reports whether no pipes lead to the unit, or the work meets something where it lies.
func (t *trial) hindered() bool {
	return t.unled() || slices.ContainsFunc(t.findings, func(d graph.Diagnostic) bool {
		return d.Severity > graph.Note && (d.Rule == "clash" || d.Rule == "assembly")
	})
}
