package pack

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/route"
)

// stage is one stretch of the work. Hold is what has to be true before the next begins.
type stage struct {
	Title string
	First int // number of its first step
	Steps []string
	Hold  string
}

// method is the work from the first measuring to the hand-over: the steps of the assembly
// with what goes round them. But for those it is common practice, no source.
func method(p *plan.Plan) []stage {
	if joints(p) == 0 {
		return nil
	}
	cement, barb, _ := jointKinds(p)
	var out []stage
	add := func(title, hold string, steps ...string) {
		if len(steps) > 0 {
			out = append(out, stage{Title: title, Hold: hold, Steps: steps})
		}
	}
	add("Before the day", "Every part is there and measured; the owner has signed for the work on his tub; the electrician has a date.",
		"Check the parts against the parts list; measure every part marked * and correct the description if it differs: the cut list changes with it.",
		"Measure the old pipe's outside diameter once more at the cut, with a calliper.",
		"Print drawings.pdf at 100 % and prove the bar of 100 mm on the sheet of the saw bands with a rule.")
	add("On the bench", "The bench work cures before it is moved.", phase(p, route.Bench)...)
	add("Getting ready at the tub", "Power is off, locked and proved dead; no water above the cut; the old pipe is dry.",
		"Power off, locked off and proved dead by a qualified person.",
		"Photograph the pipework as it is; draw flow arrows on the old pipe.",
		"Empty below the cut: about 5 to 15 litres come out of each low loop afterwards; wet vacuum, rags.",
		"Mark both cut lines and the insertion depths as the section on marking out says; wrap the saw bands round the pipe.")
	dry := []string{
		"Cut the new pieces to the cut list: square, burrs off, chamfered, each with its number on it.",
		"Dry-fit for angles only. A tapered socket grips dry at a third to two thirds of its depth, so a length taken from a dry fit comes out short: the cut list counts from stop to stop.",
		"Mark across every joint which way it points, mark the insertion depth, and a second mark further back, for primer wipes off the first.",
	}
	add("Dry fit", "HOLD: hold the new string beside the old pipe. Tee to tee, cut to cut and every depth agree with the drawing. After this there is no way back.", dry...)
	add("Into the old line", "Arrows of checks and pump agree; handles can be reached with the panel on.",
		append([]string{"Cut the old pipe once at each line, on the waste side; clean and dry the ends."}, phase(p, route.InLine)...)...)
	pipes := phase(p, route.Pipes)
	if len(pipes) > 0 {
		pipes = append(pipes, "Clip the pipes so that they can slide, carry valves on clips of their own, let them rise or fall steadily.")
	}
	add("Pipes to the unit", "Union nuts are on the pipe before their tails are cemented; no strain on the unit's ports.", pipes...)
	add("At the unit, last", "", phase(p, route.Unit)...)
	if cement {
		add("Cure", "HOLD: no water and no power before the cure time of the largest joint is over.",
			"Each joint: primer on both, cement on pipe, in the socket, on the pipe again; push home with a quarter turn, hold 30 to 60 s, longer in the cold; wipe the bead.",
			"Air the cabinet; nothing that sparks in it.")
	}
	if barb {
		out[len(out)-1].Steps = append(out[len(out)-1].Steps, "Hoses: warm, pushed home without a twist, two clamps each.")
	}
	add("Fill and test", "HOLD: every joint dry at each stage, or back to the joint.",
		"Valves as in the schedule, both isolators open. Fill with the hose in the filter well, so that the pipes fill from below.",
		"Bleed at the highest point, or by easing the union at the unit; then pulse the pump for 10 to 15 s on low.",
		"Full tub, pump off: 30 minutes. Then low; then high with the jets turned down; then hot. A dry tissue on every joint each time. Water only, never compressed air.",
		"Flush with the unit shut off, 10 to 30 minutes; clean the filter.")
	add("Commissioning and hand-over", "The record is filled in and signed; the owner knows the valves, the winter and the first hour of a frost.",
		commissioning(p)...)
	n := 1
	for i := range out {
		out[i].First = n
		n += len(out[i].Steps)
	}
	return out
}

// commissioning are the last steps.
func commissioning(p *plan.Plan) []string {
	var out []string
	if len(p.After.Circuit.OfKind(graph.ElementHeater)) > 0 {
		out = append(out, "The electrician does what the section on the element heater says, and the unit's supply, protection and bonding.")
	}
	if p.After.Circuit.TheUnit() != nil {
		out = append(out, "Set or prove the bypass as the valve schedule says; fill in the record in every mode.",
			"Try the unit's flow switch: shut the isolator to the unit slowly, the unit must stop; open it again at once.")
	}
	return append(out, "Hang the labels on the valves; shock the water with the unit shut off and bypassed; look at every joint next day, after a week and after the first refill.")
}

// phase lists the steps of the assembly that belong to a phase.
func phase(p *plan.Plan, ph route.Phase) []string {
	if p.Assembly == nil {
		return nil
	}
	var out []string
	for _, s := range p.Assembly.Steps {
		if s.Phase != ph {
			continue
		}
		text := s.Text
		for _, lead := range []string{"on the bench: ", "in the old line: ", "at the unit, last: "} {
			text = strings.TrimPrefix(text, lead)
		}
		out = append(out, fmt.Sprintf("%s [assembly step %d]", capital(text), s.Number))
	}
	return out
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
