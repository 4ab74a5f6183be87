package rule

import (
	"fmt"

	"dryfit/graph"
)

// swappedName is the rule that speaks alone: what the others would say of a circuit whose
// water is told to run backwards is noise.
const swappedName = "ports-not-swapped"

// swappedRules find inlets and outlets that were mixed up.
func swappedRules() []*Rule {
	return []*Rule{{
		Name:     swappedName,
		Asks:     "The outlet of one machine leads to the inlet of the next.",
		Why:      "With in and out of a pump, filter or unit mixed up everything else is judged backwards.",
		Source:   "follows from the circuit",
		Severity: graph.Error,
		Check:    portsNotSwapped,
	}}
}

// machine reports whether a kind has a way the water must take, and stands in the line.
func machine(k graph.Kind) bool {
	return k == graph.Pump || k == graph.Filter || k == graph.HeatPump || k == graph.ElementHeater
}

// portsNotSwapped asks each end of a machine what it leads to through pipe, valves and
// joints: the inlet of another where it should be an outlet, or the other way round. A pump
// whose outlet leads to the tub alone and whose inlet leads to an inlet is one too.
func portsNotSwapped(in *Input, report Report) {
	v := in.ask()
	w := newWalk(v.c)
	type vote struct {
		wrong, right, tub int
		with              string // the machine at a wrong end
	}
	votes := map[string]vote{}
	for _, p := range v.c.Parts {
		if !machine(p.Kind) {
			continue
		}
		var x vote
		for _, port := range []string{graph.In, graph.Out} {
			switch far, ok := w.beyond(graph.PortRef{Part: p.ID, Port: port}); {
			case !ok && w.onlyTub(graph.PortRef{Part: p.ID, Port: port}):
				x.tub++
			case !ok:
			case far.Port == port:
				x.wrong++
				x.with = far.Part
			case far.Port == graph.In || far.Port == graph.Out:
				x.right++
			default:
				x.tub++
			}
		}
		votes[p.ID] = x
	}
	for _, p := range v.c.Parts {
		x, ok := votes[p.ID]
		if !ok || x.wrong == 0 || x.right > 0 || x.wrong == 1 && !(p.Kind == graph.Pump && x.tub == 1) {
			continue
		}
		if x.wrong == 1 && votes[x.with].wrong == 2 {
			continue // that one is the culprit
		}
		report(false, graph.Diagnostic{
			Pos: p.Pos, Severity: graph.Error,
			Message: graph.Say("in and out of %s %q look swapped: %s of it to one of the same name, and 0 may", p.Kind, p.ID, leads(x.wrong)),
			Hint:    graph.Say("write %s.out where %s.in stands in the runs, and the other way round; the water's way is judged once that is mended", p.ID, p.ID),
		})
	}
}

func leads(n int) string {
	if n == 1 {
		return "1 end leads"
	}
	return fmt.Sprintf("%d ends lead", n)
}

// walk follows pipe through what only joins or shuts it.
type walk struct {
	c    *graph.Circuit
	part map[string]*graph.Part
	at   map[string][]*graph.Run
}

func newWalk(c *graph.Circuit) *walk {
	w := &walk{c: c, part: map[string]*graph.Part{}, at: map[string][]*graph.Run{}}
	for _, p := range c.Parts {
		w.part[p.ID] = p
	}
	for _, r := range c.Runs {
		w.at[r.From.String()] = append(w.at[r.From.String()], r)
		w.at[r.To.String()] = append(w.at[r.To.String()], r)
	}
	return w
}

// beyond is the machine's port, or the tub's, that a port leads to without a branch between;
// false where a tee or manifold divides the way, or it ends.
func (w *walk) beyond(from graph.PortRef) (graph.PortRef, bool) {
	for range len(w.c.Parts) + 1 {
		runs := w.at[from.String()]
		if len(runs) != 1 {
			return graph.PortRef{}, false
		}
		far := runs[0].Other(from)
		p := w.part[far.Part]
		switch {
		case p == nil:
			return graph.PortRef{}, false
		case machine(p.Kind) || p.Kind == graph.Tub:
			return far, true
		case p.Kind == graph.Suction || p.Kind == graph.JetGroup || !p.Kind.TwoPort() || p.Kind == graph.CheckValve:
			return graph.PortRef{}, false
		}
		other := graph.Out
		if far.Port == graph.Out {
			other = graph.In
		}
		from = graph.PortRef{Part: far.Part, Port: other}
	}
	return graph.PortRef{}, false
}

// onlyTub reports whether a port leads to the tub and to no machine, whatever divides the way.
func (w *walk) onlyTub(from graph.PortRef) bool {
	seen := map[string]bool{from.Part: true}
	reached := false
	for queue := []graph.PortRef{from}; len(queue) > 0; queue = queue[1:] {
		for _, r := range w.at[queue[0].String()] {
			far := r.Other(queue[0])
			p := w.part[far.Part]
			switch {
			case p == nil || seen[far.Part] && p.Kind != graph.Tub:
				continue
			case machine(p.Kind):
				return false
			case p.Kind == graph.Tub:
				reached = true
				continue
			}
			seen[far.Part] = true
			for _, q := range p.Ports {
				if q.Name != far.Port {
					queue = append(queue, graph.PortRef{Part: p.ID, Port: q.Name})
				}
			}
		}
	}
	return reached
}
