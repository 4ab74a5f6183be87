package route

import "dryfit/graph"

// Doubt is a mistake of the new pipe that leaves open where what lies beyond it stands: a leg that goes
// back into what it comes from, or a loop that does not close.
type Doubt struct {
	Pos  graph.Pos  // where the finding that tells of it stands
	Legs []DoubtLeg // any of which may be the wrong one
	Miss graph.Vec  // by what the loop misses, mm; nothing: how far off is not known
}

// DoubtLeg is a leg of a run, from 1.
type DoubtLeg struct {
	Run string
	Leg int
}

// Stands tells which parts and legs stand in known places to each other whatever of a doubt's legs is
// wrong: two of the same number do. A leg the doubt names stands by itself.
func (l *Layout) Stands(d Doubt) (part func(id string) int, leg func(run string, leg int) int) {
	doubted := map[DoubtLeg]bool{}
	for _, g := range d.Legs {
		doubted[g] = true
	}
	number := map[any]int{}
	var up []int
	of := func(key any) int {
		i, ok := number[key]
		if !ok {
			i = len(up)
			number[key] = i
			up = append(up, i)
		}
		for up[i] != i {
			up[i] = up[up[i]]
			i = up[i]
		}
		return i
	}
	join := func(a, b any) { up[of(a)] = of(b) }
	old := struct{}{} // all that is there stands as it was measured
	for _, p := range l.Circuit.Parts {
		if p.Existing {
			join(p.ID, old)
		}
	}
	for _, r := range l.Circuit.Runs {
		if r.Spec.Flexible() || len(r.Legs) == 0 && (!r.HasLength || r.LengthMM > 0) {
			continue // it holds nothing in its place
		}
		var last any = r.From.Part
		for k := range max(1, len(r.Legs)) {
			g := DoubtLeg{r.ID, k + 1}
			if doubted[g] {
				last = nil
				continue
			}
			if last != nil {
				join(g, last)
			}
			last = g
		}
		if last != nil {
			join(r.To.Part, last)
		}
		if r.Existing {
			join(DoubtLeg{r.ID, 1}, old)
		}
	}
	return func(id string) int { return of(id) }, func(run string, leg int) int { return of(DoubtLeg{run, max(1, leg)}) }
}
