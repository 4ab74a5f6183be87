package route

import (
	"math"
	"slices"

	"dryfit/graph"
)

// loose is by how much ports may lie deeper or higher than they are drawn, mm, because of parts on
// the way whose ports no measure ties together.
type loose struct {
	mm float64
	by []*graph.Part
}

// past is what hangs behind another such part: their heights have nothing to do with each other, so
// that the squares add.
func (l loose) past(p *graph.Part, mm float64) loose {
	return loose{math.Hypot(l.mm, mm), append(slices.Clip(l.by), p)}
}

// untiedMM is by how much two ports of a part of unknown size may differ in height, mm: a filter's
// on its vessel, a pump's over and beside its wheel. Judgement, no source.
const untiedMM = 300

// reach is by how much two ports of a part that nothing ties together may differ in height, mm: as
// its body is high.
func (l *Layout) reach(p *graph.Part) float64 {
	if s := l.Stage.Part(p.ID); s != nil && s.Body.HighMM > 0 {
		return s.Body.HighMM
	}
	if b := p.Box; b != nil {
		return math.Abs(b[0].Z - b[1].Z)
	}
	return untiedMM
}

// loosen works out how loosely each group of ports hangs on the depth that its level stands on: by
// the way past the least of untied ports.
func (v Levels) loosen() {
	type tie struct {
		a, b int // groups of two ports of a part that nothing ties together
		part *graph.Part
		mm   float64
	}
	var ties []tie
	for _, p := range v.l.Circuit.Parts {
		if p.Kind == graph.Tub {
			continue
		}
		groups := v.groupsOf(p)
		for i := 1; i < len(groups); i++ {
			ties = append(ties, tie{groups[0], groups[i], p, v.l.reach(p)})
		}
	}
	if len(ties) == 0 {
		return
	}
	least := map[int]loose{}
	for _, from := range v.said {
		if from.group >= 0 {
			least[from.group] = loose{}
			continue
		}
		for _, g := range v.groupsOf(from.part) { // said of a port that nothing leads from
			least[g] = loose{}.past(from.part, v.l.reach(from.part))
		}
	}
	for changed := true; changed; {
		changed = false
		for _, t := range ties {
			for _, way := range [][2]int{{t.a, t.b}, {t.b, t.a}} {
				from, ok := least[way[0]]
				if !ok {
					continue
				}
				far := from.past(t.part, t.mm)
				if have, ok := least[way[1]]; !ok || far.mm < have.mm {
					least[way[1]], changed = far, true
				}
			}
		}
	}
	for g, at := range least {
		if at.mm > 0 {
			v.loose[g] = at
		}
	}
}

// groupsOf are the groups that the placed ports of a part belong to, each once, in their order.
func (v Levels) groupsOf(p *graph.Part) (out []int) {
	seen := map[int]bool{}
	for _, port := range p.Ports {
		key := p.ID + "." + port.Name
		if _, placed := v.l.Positions[key]; placed && !seen[v.l.Groups[key]] {
			seen[v.l.Groups[key]] = true
			out = append(out, v.l.Groups[key])
		}
	}
	return out
}

// Loose returns by how much a part may lie deeper or higher than Part says, mm, and the parts whose
// ports no measure ties together that it hangs on; 0 and none where every measure is given, and where
// nothing tells its depth at all.
func (v Levels) Loose(p *graph.Part) (mm float64, by []*graph.Part) {
	if p.BelowWaterSet || v.l == nil {
		return 0, nil
	}
	var keys []string
	for _, port := range p.Ports {
		keys = append(keys, p.ID+"."+port.Name)
	}
	at := v.loosest(keys...)
	return at.mm, at.by
}

// loosest is what of the ports whose level is known hangs most loosely.
func (v Levels) loosest(keys ...string) (most loose) {
	for _, key := range keys {
		if _, known := v.port(key); !known {
			continue
		}
		if at := v.loose[v.l.Groups[key]]; at.mm > most.mm {
			most = at
		}
	}
	return most
}

// LooseRun is Loose of a path.
func (v Levels) LooseRun(i int) (mm float64, by []*graph.Part) {
	if v.l == nil || i >= len(v.l.Paths) {
		return 0, nil
	}
	run := v.l.Paths[i].Run
	at := v.loosest(run.From.String(), run.To.String())
	return at.mm, at.by
}
