package search

import (
	"fmt"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/advice"
)

// lack is water that the work takes from something on the line, and a weaker spring or wider pipe may leave it.
type lack struct {
	rule    string        // that says so
	nothing quantity.Text // what is said where nothing that was tried helps
}

var lacks = []lack{
	{"jets-keep-flow", "no weaker spring, no larger bypass and no larger pipe to the unit that was tried leaves them their water and makes nothing else worse; a circulation pump for the unit would, so that this one only drives the jets"},
	{"line-least-flow", "no weaker spring, no larger bypass and no larger pipe to the unit that was tried leaves it its least and makes nothing else worse; a circulation pump of its own for the unit takes none of it"},
}

// spare says, by the rule that says of what, what would leave it its water at the place that is chosen: weaker
// springs, the nearest first, a larger bypass and larger pipe to the unit, each tried as a change of the
// request; nothing where the place does not speak of it or its circuit is too large to try.
func (s *search) spare(best *trial) map[string]quantity.Text {
	out := map[string]quantity.Text{}
	for _, l := range lacks {
		if text := s.spareOf(best, l); text != "" {
			out[l.rule] = text
		}
	}
	return out
}

func (s *search) spareOf(best *trial, l lack) quantity.Text {
	says := func(t *trial) bool {
		return slices.ContainsFunc(t.findings, func(d graph.Diagnostic) bool { return d.Rule == l.rule && d.Severity > graph.Note })
	}
	if best.standing() > 0 || !says(best) || s.tries >= min(triesOfAll, triedRuns/len(s.asked.Runs)) {
		return ""
	}
	for _, h := range s.sparing(best) {
		s.tries++
		if with := s.with(best, []help{h}); with.betters(best) && !says(with) {
			return s.said([]help{h}, with)
		}
	}
	return l.nothing
}

// sparing are the changes that may leave what else is on the line more water.
func (s *search) sparing(best *trial) []help {
	var out []help
	springs := s.asked.Catalog.Springs()
	if i := slices.IndexFunc(springs, func(row catalog.Row) bool { return row.Name == best.proposal.Choice.Spring }); i > 0 {
		for _, row := range slices.Backward(springs[:i]) {
			out = append(out, writing("spring", fmt.Sprintf("%q", row.Name), "less water for the unit", func(r *graph.Retrofit) {
				r.Bypass, r.Spring, r.SpringPa = "spring", row.Name, 0
			}))
		}
	}
	if line := s.asked.Run(best.place.Run); line != nil && s.asked.Retrofit.BypassSize.IsZero() {
		if size, ok := advice.NextSize(s.asked.Catalog, line.Spec, line.Size); ok {
			out = append(out, writing("bypass-size", fmt.Sprintf("%q", size.String()), "a larger bypass, and its length", func(r *graph.Retrofit) { r.BypassSize = size }))
		}
	}
	if size, ok := s.wider(best); ok && s.asked.Retrofit.Size.IsZero() {
		out = append(out, writing("size", fmt.Sprintf("%q", size.String()), "larger pipe to the unit, and dearer valves", func(r *graph.Retrofit) { r.Size = size }))
	}
	return out
}
