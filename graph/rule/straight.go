package rule

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/route"
)

// stretch is the straight pipe before a part, and what ends it: "" where that is neither a
// pump nor a turn, or not known.
type stretch struct {
	mm    float64
	end   string
	where graph.Related
}

// straightBefore follows the water back from a part as long as it goes straight on: through
// pipe, tees passed straight, and parts that lie in their line.
func straightBefore(in *Input, v *view, p *graph.Part) stretch {
	var s stretch
	for seen := map[string]bool{}; !seen[p.ID]; {
		seen[p.ID] = true
		_, run := v.net.Inlet(p)
		if run == nil {
			return s
		}
		mm, turned, known := straightEnd(in, run, v.net.Against(run))
		s.mm += mm
		if !known {
			return s
		}
		if turned {
			s.end, s.where = fmt.Sprintf("the bend in run %q", run.Said()), hereRun(run)
			return s
		}
		from, _ := v.net.Ends(run)
		p = v.net.Part(from.Part)
		switch {
		case p.Kind == graph.Pump:
			s.end, s.where = fmt.Sprintf("pump %q", p.ID), here(p)
			return s
		case p.Kind == graph.Tee:
			port, _ := v.net.Inlet(p)
			if port == graph.Branch || from.Port == graph.Branch {
				s.end, s.where = fmt.Sprintf("the turn in tee %q", p.ID), here(p)
				return s
			}
		case p.Kind.TwoPort() && passable(p.Kind) && p.Kind != graph.CheckValve:
			s.mm += p.LengthMM
		default:
			return s
		}
	}
	return s
}

// straightEnd returns the length of the last straight stretch of a run (of the first, where
// the water goes against it as written), and whether a turn ends it. It is not known for a
// run with bends that nobody measured.
func straightEnd(in *Input, run *graph.Run, against bool) (mm float64, turned, known bool) {
	path := in.Layout.Path(run.ID)
	if path == nil || len(path.Points) < 2 {
		return pathLength(in, run), false, len(run.Fittings) == 0
	}
	points := path.Points
	at := func(i int) graph.Vec {
		if against {
			return points[i]
		}
		return points[len(points)-1-i]
	}
	var way graph.Vec
	for i := 1; i < len(points); i++ {
		step := at(i).Sub(at(i - 1))
		if way.Len() == 0 {
			way = step
		}
		if step.Len() > 0 && way.AngleTo(step) > 1 {
			return mm - takeOffAt(path, len(points), i-1, against), true, true
		}
		mm += step.Len()
	}
	return mm, false, true
}

// takeOffAt returns the take-off of the elbow at the i-th point from the end of a path.
func takeOffAt(path *route.Path, points, i int, against bool) float64 {
	if !against {
		i = points - 1 - i
	}
	for _, f := range path.Fittings {
		if f.Point == i && f.TurnDeg > 0 {
			return f.Row.TakeOffMM
		}
	}
	return 0
}

// pathLength returns the length of a run along its axis, mm: the layout's, else what is
// written.
func pathLength(in *Input, run *graph.Run) float64 {
	if p := in.Layout.Path(run.ID); p != nil {
		return p.LengthMM
	}
	return run.LengthMM + graph.LegsMM(run.Legs)
}

// lengthOf returns the length of runs together, mm.
func lengthOf(in *Input, runs []*graph.Run) float64 {
	sum := 0.0
	for _, r := range runs {
		sum += pathLength(in, r)
	}
	return sum
}

// boreMM returns the bore of a run, mm; 0 where it is not known.
func boreMM(in *Input, run *graph.Run) float64 {
	if r := in.ask().run(run); r != nil {
		return r.Bore.V
	}
	return 0
}
