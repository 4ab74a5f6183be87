package rule

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// modeRules hold the modes that are written against what the circuit can do.
func modeRules() []*Rule {
	return []*Rule{{
		Name:     "every-speed-judged",
		Asks:     "Where modes are written, each pump runs at each of its speeds in one of them; where none are, it is known whether pumps in one line run together.",
		Why:      "What a mode that nobody wrote would show is not worked out: at a low speed the unit may lack its flow, at a high one get too much.",
		Source:   "follows from the description",
		Severity: graph.Warning,
		Anywhere: true,
		Check:    everySpeedJudged,
	}}
}

// everySpeedJudged tells of the speeds that no written mode runs a pump at. Where no mode is written
// they follow from the pumps (see graph.Circuit.AllModes), and what was taken of pumps in one line is told.
func everySpeedJudged(in *Input, report Report) {
	v := in.ask()
	if len(v.c.Modes) == 0 {
		v.togetherTaken(report)
		return
	}
	modes := v.c.AllModes()
	for _, p := range v.c.Pumps() {
		speeds := p.SpeedNames()
		left := slices.DeleteFunc(slices.Clone(speeds), func(s string) bool {
			return slices.ContainsFunc(modes, func(m graph.Mode) bool { return m.Speeds[p.ID] == s })
		})
		if len(left) == 0 {
			continue
		}
		severity := graph.Note
		if slices.ContainsFunc(v.branches, func(b branch) bool { return slices.Contains(b.Feeds(), p) }) {
			severity = graph.Warning
		}
		report(!v.job, graph.Diagnostic{
			Pos: or(v.c.Modes[0].Pos, p.Pos), Severity: severity, Related: []graph.Related{here(p)},
			Message: graph.Say("%s pump %q%s: what flows then is not judged", noneRuns(len(modes)), p.ID, atSpeeds(left, len(speeds))),
			Hint:    modesFor(p.ID, left) + "; leave out what the controller never does",
		})
	}
}

// togetherTaken tells of pumps in one line of which nobody says whether they run together, and what was taken.
func (v *view) togetherTaken(report Report) {
	modes := v.c.AllModes()
	for _, j := range v.net.PumpJoins() {
		if j.How == "suction" || j.A.Pump.NeverOff() || j.B.Pump.NeverOff() {
			continue
		}
		severity := graph.Note
		if slices.ContainsFunc(v.branches, func(b branch) bool { return b.up.HasPart(j.A.ID) || b.up.HasPart(j.B.ID) }) {
			severity = graph.Warning
		}
		report(!v.job, graph.Diagnostic{
			Pos: j.A.Pos, Severity: severity, Related: []graph.Related{here(j.B)},
			Message: graph.Say("whether pumps %q and %q, in one line, run together is said in 0 [[mode]] tables, needs 1: %s", j.A.ID, j.B.ID, takenOf(modes, j.A.ID, j.B.ID)),
			Hint:    graph.Say("write a [[mode]] for each way the controller runs them, such as speeds = { %q = %q, %q = %q } for both at once; leave out what it never does", j.A.ID, j.A.Fastest(), j.B.ID, j.B.Fastest()),
		})
	}
}

// takenOf says in which ways two pumps in one line run in modes that nobody wrote.
func takenOf(modes []graph.Mode, a, b string) quantity.Text {
	runs := func(withA, withB bool) bool {
		return slices.ContainsFunc(modes, func(m graph.Mode) bool { return (m.Speeds[a] != "") == withA && (m.Speeds[b] != "") == withB })
	}
	var ways []string
	if runs(true, false) {
		ways = append(ways, fmt.Sprintf("%q alone", a))
	}
	if runs(false, true) {
		ways = append(ways, fmt.Sprintf("%q alone", b))
	}
	if runs(true, true) {
		ways = append(ways, "all of that line at once")
	}
	if ways == nil {
		return "neither is taken to run"
	}
	return graph.Say("taken to run %s", quantity.Listed(ways, "or"))
}

// modesFor says what [[mode]] tables run a pump at some speeds, one for each.
func modesFor(pump string, speeds []string) quantity.Text {
	var each []string
	for _, s := range speeds {
		each = append(each, fmt.Sprintf("speeds = { %q = %q }", pump, s))
	}
	if len(each) == 1 {
		return graph.Say("add a [[mode]] for it, with a name of its own and %s", each[0])
	}
	return graph.Say("add a [[mode]] for each, with a name of its own: %s", strings.Join(each, "; "))
}

// noneRuns begins to say of so many modes that none runs a pump.
func noneRuns(modes int) quantity.Text {
	if modes == 1 {
		return "the 1 [[mode]] that is written does not run"
	}
	return graph.Say("none of %d [[mode]] tables runs", modes)
}

// atSpeeds says at which of its speeds a pump runs; "" of its only one, and where it is all of them.
func atSpeeds(left []string, of int) string {
	switch {
	case len(left) == of && of == 1:
		return ""
	case len(left) == of:
		return fmt.Sprintf(" at any of its %d speeds", of)
	case len(left) == 1:
		return " at its " + graph.SpeedWords(left[0])
	}
	return " at its speeds " + names(left, func(s string) string { return s })
}
