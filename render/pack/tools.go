package pack

import (
	"fmt"
	"slices"

	"dryfit/graph/plan"
)

// tool is one line of what to take along.
type tool struct{ What, For string }

// tools lists what to take along besides the parts. Common practice, no source.
func tools(p *plan.Plan) []tool {
	cement, barb, thread := jointKinds(p)
	out := []tool{
		{"Drawings, this pack, a pencil", "the label sheet cut up beforehand"},
		{"Calliper", "the old pipe's outside diameter, and every part marked * in the parts list"},
		{"Tape, square, spirit level, marker", "cut lines, witness marks, depth marks"},
		{"Fine saw or pipe shears, mitre box", "square cuts; the cut list counts with this saw's kerf"},
		{"Deburrer or knife, file", "chamfer of 10 to 15 degrees, burrs off"},
		{"Wet vacuum, pump, bucket, rags", "what stays in the low loops"},
		{"Hose, drain adaptor", "emptying, and filling through the filter well"},
		{"Strap wrench", "union nuts, hand-tight and a little more"},
		{"Two thermometers, or one and two pockets", "the rise across the unit"},
		{"Lock and tag for the isolator", "power stays off"},
		{"Pipe clips, closed-cell insulation, tape", "the pipes to and from the unit"},
		{"Gloves, goggles, fan for the cabinet", "cement vapour is heavy and burns"},
	}
	if cement {
		out = append(out, tool{"Primer and cement for this pipe, in date; one tin of cement over", "each joint; read the cure time on the tin"})
	}
	if barb {
		out = append(out, tool{"Two clamps for each barb, screwdriver, warm water", "hoses"})
	}
	if thread {
		out = append(out, tool{"PTFE tape, no paste", "plastic threads: by hand and one turn"})
	}
	return out
}

func jointKinds(p *plan.Plan) (cement, barb, thread bool) {
	if p.After == nil || p.After.Layout == nil {
		return false, false, false
	}
	var kinds []string
	for _, j := range p.After.Layout.Joints {
		kinds = append(kinds, j.Kind)
	}
	return slices.Contains(kinds, "cement") || slices.Contains(kinds, "slip"), slices.Contains(kinds, "barb"), slices.Contains(kinds, "thread")
}

// joints counts the joints of the new work.
func joints(p *plan.Plan) int {
	if p.After == nil || p.After.Layout == nil {
		return 0
	}
	return len(p.After.Layout.Joints)
}

func number(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
