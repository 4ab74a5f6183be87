package rule

import (
	"fmt"

	"dryfit/graph"
)

// Swapped is the name of the rule that speaks alone: what the others would say of a circuit
// whose water is taken to go the wrong way only follows from it.
const Swapped = "ports-not-swapped"

// swappedRules find inlets and outlets that were mixed up.
func swappedRules() []*Rule {
	return []*Rule{{
		Name:     Swapped,
		Asks:     "The water passes every machine from its inlet to its outlet.",
		Why:      "With in and out of a pump, filter or unit mixed up everything else is judged backwards.",
		Source:   "follows from the circuit",
		Severity: graph.Error,
		Check:    portsNotSwapped,
	}}
}

// machine reports whether a kind has a way the water must take, and stands in the line.
func machine(k graph.Kind) bool {
	switch k {
	case graph.Filter, graph.HeatPump, graph.ElementHeater, graph.HeatExchanger, graph.Strainer, graph.SaltCell, graph.OzoneInjector:
		return true
	}
	return false
}

// line counts the machines and jets of a pump by the way its water passes them.
type line struct {
	with, against []*graph.Part
}

// portsNotSwapped asks every machine, feeder and group of jets by which port the water of their pump
// comes. Where most of a pump's come by their outlet the pump is the one mixed up, for the
// way of the water follows from its ports; else each that is passed backwards is. Of a pump
// and a single machine that disagree nobody can tell which: both are named. The unit that is let
// in at a cut tells nothing: it was joined the way the water was taken to go.
func portsNotSwapped(in *Input, report Report) {
	v := in.ask()
	lines := map[string]*line{}
	for _, p := range v.c.Parts {
		letIn := in.Cut != nil && p.Kind == graph.HeatPump && p.New()
		if letIn || !machine(p.Kind) && p.Kind != graph.Feeder && p.Kind != graph.JetGroup {
			continue
		}
		inlet, r := v.net.Inlet(p)
		if r == nil || inlet != graph.In && inlet != graph.Out {
			continue
		}
		pump := v.net.LinePump(p)
		if pump == nil {
			continue
		}
		l := lines[pump.ID]
		if l == nil {
			l = &line{}
			lines[pump.ID] = l
		}
		if inlet == graph.Out {
			l.against = append(l.against, p)
		} else {
			l.with = append(l.with, p)
		}
	}
	for _, pump := range v.c.Parts {
		l := lines[pump.ID]
		switch {
		case l == nil || len(l.against) == 0:
		case len(l.against) > len(l.with):
			lookSwapped(report, pump, l, l.against)
		default:
			for _, p := range l.against {
				lookSwapped(report, p, l, nil)
			}
		}
	}
}

// lookSwapped reports a part on a line whose ports were mixed up: a pump with those it sends
// its water through backwards.
func lookSwapped(report Report, p *graph.Part, l *line, backwards []*graph.Part) {
	which := fmt.Sprintf("%s %q", p.Kind, p.ID)
	hint := graph.Say("write %s.out where %s.in stands in the runs, and the other way round; the water's way is judged once that is mended", p.ID, p.ID)
	if len(backwards) == 1 && backwards[0].Kind != graph.JetGroup {
		q := backwards[0]
		which += fmt.Sprintf(" or of %s %q", q.Kind, q.ID)
		hint = graph.Say("look which of the two it is, and write its out where its in stands in the runs, and the other way round; the water's way is judged once that is mended")
	}
	var related []graph.Related
	for _, q := range backwards {
		related = append(related, here(q))
	}
	report(false, graph.Diagnostic{
		Pos: p.Pos, Severity: graph.Error,
		Message: graph.Say("in and out of %s look swapped: as written the pump sends its water through %s from outlet to inlet, and through %d of what stands on its line the right way",
			which, partNames(l.against), len(l.with)),
		Hint: hint, Related: related,
	})
}
