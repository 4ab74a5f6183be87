package retrofit

import (
	"math"

	"dryfit/graph"
)

// branchNotKept says that the tees' branches do not point the way asked for: where the line
// runs that way itself, or where the first leg to the unit leaves another way. first is
// that leg.
func (l *limb) branchNotKept(line, first graph.Vec) (graph.Diagnostic, bool) {
	l.d.PointTo("branch")
	asked := l.w.asked.Branch
	if asked.Len() == 0 {
		return graph.Diagnostic{}, false
	}
	cosLine, cosFirst := math.Abs(asked.Unit().Dot(line.Unit())), asked.Unit().Dot(first.Unit())
	d := graph.Diagnostic{Pos: l.d.Pos, Rule: "retrofit", Severity: graph.Warning}
	switch {
	case cosLine > 0.02:
		d.Message = graph.Say("branch = %q is not kept: the line runs that way here, and the tees' branches stand square to it", graph.WayWords(asked))
		d.Hint = "name a way square to the pipe that is cut, or leave branch out"
	case cosFirst < 0.99 && math.Abs(first.Unit().Dot(line.Unit())) <= 0.02:
		d.Message = graph.Say("branch = %q is not kept: the first leg to the unit goes %s, and the branch points that way", graph.WayWords(asked), graph.WayWords(first))
		d.Hint = graph.Say("begin to-unit with a leg %s, or leave branch out", graph.WayWords(asked))
	default:
		return graph.Diagnostic{}, false
	}
	return d, true
}
