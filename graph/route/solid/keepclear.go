package solid

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// checkKeptClear finds new pipe that passes what is to be kept clear: of each run what is deepest in a box.
func (s *Bodies) checkKeptClear() []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, k := range route.KeptClear(s.lay) {
		box := []Shape{Box(k.Low, k.High)}
		for _, r := range s.lay.Circuit.Runs {
			if !r.New() {
				continue
			}
			deepest, at := touchMM, -1
			for i := range s.All {
				b := &s.All[i]
				if b.Run != r.ID || !b.New || b.Group != k.Group {
					continue
				}
				if _, mm := through(b.Core, box); mm > deepest {
					deepest, at = mm, i
				}
			}
			if at >= 0 {
				d := s.wordKept(&s.All[at], r, k, deepest)
				d.Behind = s.besidePart(at, k.Part, func(m *Body) bool {
					_, mm := through(m.Core, box)
					return mm > touchMM
				})
				out = append(out, d)
			}
		}
	}
	return out
}

func (s *Bodies) wordKept(b *Body, r *graph.Run, k route.Kept, mm float64) graph.Diagnostic {
	d := graph.Diagnostic{Pos: b.Pos, Rule: "clash", Severity: graph.Error, Of: []string{b.Part}, Alters: []string{r.ID},
		Message: graph.Say("%s passes what is to be kept clear: %s; %s of it are inside", b.Name, k.Said(k.Number), quantity.Closely(mm)),
		Hint:    graph.Say("lead %s round it, at least %s farther off", r.ID, quantity.Closely(math.Ceil(mm))),
		Related: []graph.Related{{Pos: k.Pos, Message: "the box is described here"}}}
	if b.Leg > 0 && b.Leg <= len(r.Legs) && r.Legs[b.Leg-1].Pos.IsValid() {
		leg := r.Legs[b.Leg-1]
		d.Pos = leg.Pos
		d.Message = graph.Say("your leg %s passes what is to be kept clear: %s; %s of it are inside", leg.Quoted(), k.Said(k.Number), quantity.Closely(mm))
		d.Hint = "lead it round, or leave to-unit and from-unit out to have the pipes found"
	}
	return d
}
