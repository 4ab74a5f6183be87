package rule

import (
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// spot is one point of new pipe.
type spot struct {
	z    float64
	run  *graph.Run
	end  *graph.PortRef // where it is the end of a run
	open bool           // meets old pipe, by which water or air gets away
	next []int
}

// trapped reports the low (sign -1) or high (sign 1) points of the new pipe that have
// neither a way into old pipe nor a tap of the kind. A check valve is passed by neither
// water nor air that is left to itself.
func trapped(in *Input, report Report, sign float64, tap graph.Kind, what, fitting, stays string) {
	v := in.ask()
	spots := profile(in, v)
	seen := make([]bool, len(spots))
	for i := range spots {
		if seen[i] {
			continue
		}
		level, extreme := plateau(spots, i, sign, seen)
		if !extreme || tapped(v, spots, level, tap) {
			continue
		}
		at := spots[level[0]]
		for _, k := range level {
			if spots[k].end != nil {
				at = spots[k]
				break
			}
		}
		where := fmt.Sprintf("in run %q", at.run.Said())
		if at.end != nil {
			where = fmt.Sprintf("at %q", at.end.String())
		}
		report(false, graph.Diagnostic{
			Pos: at.run.Pos, Severity: graph.Warning,
			Message: graph.Say("%s %s of the new pipe: 0 %ss within %s of it, needs 1; %s there", what, where, fitting, v.length(graph.TapNearMM), stays),
			Hint:    tapHint(tap, fitting),
		})
	}
}

// tapHint says what to do where a drain or a bleed is missing. Where [retrofit] found no room for
// it, the plan says what the room lacks in its place.
func tapHint(tap graph.Kind, fitting string) quantity.Text {
	way, plug := quantity.Text("falls"), quantity.Text("; a plug of the unit's own does as well if it is reached")
	if tap == graph.AirBleed {
		way, plug = "rises", ""
	}
	return graph.Say("add a tee with %s there, or lead the pipe so that it %s all the way to the line", graph.A(fitting), way) + plug
}

// profile returns the points of the new water pipes whose place is known, joined along the
// pipes and through the parts.
func profile(in *Input, v *view) []spot {
	var spots []spot
	ends := map[string][]int{} // part id -> spots at its ports
	for i := range in.Layout.Paths {
		path := &in.Layout.Paths[i]
		if !path.Located || !path.Run.New() || v.net.IsAir(path.Run) || v.net.Run(path.Run.ID) == nil {
			continue
		}
		for k, at := range path.Points {
			s := spot{z: at.Z, run: path.Run}
			id := len(spots)
			if k > 0 {
				s.next = append(s.next, id-1)
				spots[id-1].next = append(spots[id-1].next, id)
			}
			if k == 0 {
				s.end = &path.Run.From
			} else if k == len(path.Points)-1 {
				s.end = &path.Run.To
			}
			if s.end != nil {
				ends[s.end.Part] = append(ends[s.end.Part], id)
			}
			spots = append(spots, s)
		}
	}
	for _, p := range v.c.Parts {
		old := p.Kind == graph.Tub
		for _, r := range v.net.At(p) {
			old = old || !r.New()
		}
		here := ends[p.ID]
		for i, a := range here {
			spots[a].open = spots[a].open || old
			if i > 0 && p.Kind != graph.CheckValve {
				spots[a].next = append(spots[a].next, here[i-1])
				spots[here[i-1]].next = append(spots[here[i-1]].next, a)
			}
		}
	}
	return spots
}

// plateau returns the level spots that hang together with the first, and whether all that
// lead away from them rise (sign -1) or fall (sign 1) and none is open.
func plateau(spots []spot, first int, sign float64, seen []bool) (level []int, extreme bool) {
	level, extreme = []int{first}, true
	seen[first] = true
	ways := 0
	for k := 0; k < len(level); k++ {
		s := spots[level[k]]
		extreme = extreme && !s.open
		for _, n := range s.next {
			switch {
			case math.Abs(spots[n].z-spots[first].z) <= graph.LevelMM:
				if !seen[n] {
					seen[n] = true
					level = append(level, n)
				}
			case sign*(spots[n].z-spots[first].z) > 0:
				extreme = false
			default:
				ways++
			}
		}
	}
	return level, extreme && ways > 0
}

// tapped reports whether a part of the kind stands on the level or near it.
func tapped(v *view, spots []spot, level []int, tap graph.Kind) bool {
	seen := map[int]bool{}
	queue := slices.Clone(level)
	for k := 0; k < len(queue); k++ {
		s := spots[queue[k]]
		if seen[queue[k]] || math.Abs(s.z-spots[level[0]].z) > graph.TapNearMM {
			continue
		}
		seen[queue[k]] = true
		if s.end != nil {
			if p := v.net.Part(s.end.Part); p != nil && p.Kind == tap {
				return true
			}
		}
		queue = append(queue, s.next...)
	}
	return false
}
