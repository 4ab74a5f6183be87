package settle

import (
	"reflect"

	"dryfit/graph"
)

// With settles a circuit that has most of its parts and runs in common with the stage: it is
// what Of gives, but what is the same part or run in both, among the same neighbours, is taken
// over as it was settled. What stands in one stage of many proposals is so settled once. A nil
// stage has nothing in common with any circuit.
func (s *Stage) With(c *graph.Circuit) *Stage {
	out := indexed(c)
	out.Water = waterOf(c)
	if s == nil || out.cat != s.cat || s.Circuit.Fit != c.Fit || !reflect.DeepEqual(out.Water, s.Water) {
		s = &Stage{}
	}
	oldRun, oldPart := make([]int, len(c.Runs)), make([]int, len(c.Parts)) // in s; -1 where it is another
	for i, r := range c.Runs {
		oldRun[i] = s.runLike(r)
		if k := oldRun[i]; k >= 0 {
			out.Runs[i] = s.Runs[k]
		} else {
			out.Runs[i] = new(Run)
			out.settleRun(out.Runs[i], r)
		}
	}
	for i, p := range c.Parts {
		oldPart[i] = s.partLike(out, p)
		if k := oldPart[i]; k >= 0 {
			out.Parts[i] = s.Parts[k]
		} else {
			out.Parts[i] = new(Part)
			out.settlePart(out.Parts[i], p)
		}
	}
	for i := range out.Runs {
		if oldRun[i] >= 0 {
			if out.sameEnds(out.Runs[i], oldPart) {
				continue
			}
			own := *out.Runs[i]
			out.Runs[i] = &own
		}
		out.settleEnds(out.Runs[i])
	}
	for i, k := range oldPart {
		if k < 0 {
			out.settleLoss(out.Parts[i])
		}
	}
	return out
}

// runLike returns where the run stands in the stage; -1 where it is another.
func (s *Stage) runLike(r *graph.Run) int {
	if k, ok := s.runs[r.ID]; ok && s.Runs[k].Run == r {
		return k
	}
	return -1
}

// partLike returns where the part stands in the stage among the same runs; -1 where it does
// not. A row that hangs on the pump of its line hangs on what may be far away.
func (s *Stage) partLike(now *Stage, p *graph.Part) int {
	k, ok := s.parts[p.ID]
	if !ok || s.Parts[k].Part != p || byLine(p.Kind) && p.Kind != graph.JetGroup {
		return -1
	}
	was, is := s.at[k], now.runsOf(p.ID)
	if len(was) != len(is) {
		return -1
	}
	for n, i := range is {
		r := now.Circuit.Runs[i]
		if s.Circuit.Runs[was[n]] != r || !s.joinsAlike(now, r) && s.carries(r) != now.carries(r) {
			return -1
		}
	}
	if p.Kind == graph.JetGroup && !s.sameLine(now, p) {
		return -1
	}
	return k
}

// sameLine reports whether jets stand in the line of the same pump in two stages, whose speeds are
// described, and that is a pool's in both where it was asked in the first: of the jets of a large tub
// most are so taken over.
func (s *Stage) sameLine(now *Stage, jets *graph.Part) bool {
	pump := s.Net().LinePump(jets)
	if pump != now.Net().LinePump(jets) {
		return false
	}
	if pump == nil {
		return true
	}
	pool, asked := s.pools[pump]
	return pump.Pump != nil && len(pump.Pump.Speeds) > 0 && (!asked || pool == now.filtersPool(pump))
}

// joinsAlike reports whether the very same parts stand at both ends of a run in two stages: a
// part with many ports, as a tub, is then not searched for what they carry.
func (s *Stage) joinsAlike(now *Stage, r *graph.Run) bool {
	for _, ref := range [2]graph.PortRef{r.From, r.To} {
		was, ok := s.parts[ref.Part]
		is, too := now.parts[ref.Part]
		if !ok || !too || s.Circuit.Parts[was] != now.Circuit.Parts[is] {
			return false
		}
	}
	return true
}

// sameEnds reports whether the parts at both ends of a run taken over are taken over too: its
// ends then stand as they were settled.
func (s *Stage) sameEnds(r *Run, oldPart []int) bool {
	for _, ref := range [2]graph.PortRef{r.From, r.To} {
		if i, ok := s.parts[ref.Part]; !ok || oldPart[i] < 0 {
			return false
		}
	}
	return true
}
