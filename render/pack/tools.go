package pack

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/rule"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// tool is one line of what to take along.
type tool struct {
	What, For string
	UsedUp    bool // not taken back
}

// tools lists what to take along besides the parts, for what this job has. Common practice,
// no source.
func tools(p *plan.Plan, j jobIn) []tool {
	cement, barb := jointKinds(p)
	var out []tool
	add := func(there bool, what, why string) {
		if there {
			out = append(out, tool{What: what, For: why})
		}
	}
	use := func(there bool, what, why string) {
		if there {
			out = append(out, tool{What: what, For: why, UsedUp: true})
		}
	}
	add(true, "Drawings, this pack, a pencil", "the label sheet cut up beforehand")
	switch {
	case j.Cuts && j.Marked:
		add(true, "Calliper", "the old pipe's outside diameter, and every part marked * in the parts list")
	case j.Cuts:
		add(true, "Calliper", "the old pipe's outside diameter")
	default:
		add(j.Marked, "Calliper", "every part marked * in the parts list")
	}
	add(true, "Tape, square, spirit level, marker", "lengths, witness marks, depth marks")
	add(j.Saws || j.Cuts, "Fine saw or pipe shears, mitre box", "square cuts; the cut list counts with this saw's kerf")
	add(cement && (j.Saws || j.Cuts), "Deburrer or knife, file", "chamfer of 10 to 15 degrees, burrs off")
	add(!cement && (j.Saws || j.Cuts), "Knife", "burrs off")
	for _, b := range bored(j.Holes) {
		size := quantity.Length.Of(b.mm)
		add(true, j.say(quantity.Say("Hole saw of %s or the next larger, drill", size)), "the wall of the cabinet")
		use(true, j.say(quantity.Say("%s for a hole of %s, soft sealant", number(b.n, "sleeve", "sleeves"), size)), "the pipe through the wall of the cabinet")
	}
	add(j.CutsHose || j.NewCutHose, "Hose shears or sharp knife", whichHose(j))
	add(true, "Wet vacuum, pump, bucket", "what stays in the low loops")
	use(true, "Rags, tissues", "a dry tissue on every joint")
	add(true, "Hose with backflow protection, drain adaptor", "emptying and filling")
	add(j.UnionNuts, "Strap wrench", "union nuts, hand-tight and a little more")
	use(j.UnionNuts, "Silicone grease", "the seals of the unions")
	add(j.Unit != nil, "Thermometer, and insulation to hold it to the pipe", "the rise across "+j.OfUnits("the unit", "each unit")+", one thermometer moved from pipe to pipe")
	meter := j.OfUnits("the unit's flow where its display", "the flow of each unit whose display") + " shows none"
	switch {
	case j.Cold:
		meter += "; what a heater's sheet gives tells nothing of it here"
	case smallRise(p):
		meter += "; here the rise is too small to reckon it from"
	}
	add(j.Unit != nil, "Flow meter (clamp-on)", meter)
	add(!gauged(p) && asksGauge(p, j), "Pressure gauge with a tapping that takes it", "the reading that is to be taken first")
	add(gauged(p), "The gauges of the job, seen at nought with the pump off", "the drop across "+j.OfUnits("the unit", "each unit"))
	add(true, "Lock and tag for the isolator", "power stays off")
	use(true, "Test strips or kit for chlorine and pH; the tub's own disinfectant", "disinfecting what was handled; before anybody bathes")
	base, setting := j.OfUnits("the unit's", "its")+" base", "setting it down"
	if _, many := j.SetDown(); many {
		base, setting = "each unit's base", "setting them down"
	}
	use(j.Unit != nil, "Rubber mounts, bolts for "+base+"; "+j.say(quantity.Say("%s hose", quantity.Length.About(19))), setting+"; condensate")
	add(cement, gloves(j), "cement vapour is heavy and burns")
	add(barb, "Screwdriver, warm water", "the hoses and their clips")
	return out
}

// gloves is what is worn where pipe is cemented, and what airs the place.
func gloves(j jobIn) string {
	switch {
	case j.PlugIn:
		return "Gloves, goggles"
	case j.NoCabinet:
		return "Gloves, goggles, fan for the shed, cellar or pit"
	}
	return "Gloves, goggles, fan for the cabinet"
}

// bore is a size of hole and how many there are of it.
type bore struct {
	mm float64
	n  int
}

// bored are the sizes of some holes, each once, in their order.
func bored(holes []practice.Hole) []bore {
	var out []bore
	for _, h := range holes {
		i := slices.IndexFunc(out, func(b bore) bool { return b.mm == h.BoreMM() })
		if i < 0 {
			i, out = len(out), append(out, bore{mm: h.BoreMM()})
		}
		out[i].n++
	}
	return out
}

// smallRise reports whether in some mode in which a unit gets water it warms too little to tell its flow by,
// or nobody knows by how much.
func smallRise(p *plan.Plan) bool {
	return slices.ContainsFunc(plan.Summarise(p), func(m plan.ModeSummary) bool {
		return slices.ContainsFunc(m.Units(), func(u plan.UnitSummary) bool { return u.Flow > 0 && u.RiseK < rule.LeastRiseK })
	})
}

// asksGauge reports whether what is to be measured first is read by a gauge.
func asksGauge(p *plan.Plan, j jobIn) bool {
	return strings.Contains(table.MeasureFirst(p.Ranges, nil, form.Style{Units: j.units}), "gauge")
}

// gauged reports whether the job has pressure gauges to read.
func gauged(p *plan.Plan) bool {
	return p.After != nil && len(p.After.Circuit.OfKind(graph.PressureGauge)) > 0
}

func jointKinds(p *plan.Plan) (cement, barb bool) {
	if p.After == nil || p.After.Layout == nil {
		return false, false
	}
	var kinds []string
	for _, j := range p.After.Layout.Joints {
		kinds = append(kinds, j.Kind)
	}
	return slices.Contains(kinds, "cement") || slices.Contains(kinds, "slip"), slices.Contains(kinds, "barb")
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

// whichHose is what is cut with shears or a knife.
func whichHose(j jobIn) string {
	switch {
	case !j.NewCutHose:
		return "the old hose, square"
	case j.CutsHose:
		return "the old hose and the new, square"
	}
	return "the new hose, square"
}
