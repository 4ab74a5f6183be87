package sticker

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
	"dryfit/render/tag"
)

// Sticker is what one sticker says.
type Sticker struct {
	Big   string    // number of the piece or tag of the valve
	Head  string    // its length, or what kind of valve
	Sub   string    // size and pipe, or where the valve stands
	Lines []string  // where it goes
	Modes []Setting // of a valve
	Valve bool
}

// Setting is a valve's position in a mode.
type Setting struct{ Mode, Position string } // of a diverter: outlet and how far it is open

// OfPieces returns a sticker for every piece, in their order.
func OfPieces(pieces []route.Piece, names *tag.Names, units quantity.System) []Sticker {
	var out []Sticker
	for _, p := range pieces {
		l := Sticker{Big: fmt.Sprint(p.Number), Head: quantity.Format(p.SawMM(), quantity.Length, units),
			Sub: strings.TrimSpace(fmt.Sprintf("%s  %s", p.Size, p.Spec))}
		if p.Measure {
			l.Head += " *"
		}
		if p.OnSite {
			l.Head = "cut on site"
		}
		l.Lines = append(l.Lines, end(p.From, names), end(p.To, names))
		if p.OverMM > 0 {
			l.Lines = append(l.Lines, fmt.Sprintf("%s over: fit at %s, last", quantity.Format(p.OverMM, quantity.Length, units), tag.Joint(p.FitJoint)))
		}
		out = append(out, l)
	}
	return out
}

func end(e route.End, names *tag.Names) string {
	if e.Joint == 0 {
		return names.End(e.Fitting)
	}
	return tag.Joint(e.Joint) + "  " + names.End(e.Fitting)
}

// OfValves returns a sticker for every valve of a circuit: hand valves, checks, diverters,
// drains and air bleeds, in the order of the description. solutions, one for each mode, say how
// the checks stand; without them the positions alone are said. hands says how a hand
// valve stands that is set by its Kv, by its id. set holds what throttles are set by, by their ids: readings to
// reach, last where to start; with too many rows for one sticker there are two. also holds what a tag says
// beside the positions, by id; a union that it speaks of has a sticker of that alone.
func OfValves(c *graph.Circuit, names *tag.Names, solutions []hydraulic.Solution, hands map[string]string, set, also map[string][]Setting) []Sticker {
	var out []Sticker
	for _, p := range c.Parts {
		if !isValve(p.Kind) && (p.Kind != graph.Union || len(also[p.ID]) == 0) {
			continue
		}
		l := Sticker{Big: names.Tag(p.ID), Head: names.Word(p.ID), Sub: names.Role(p.ID), Valve: true}
		l.Modes = set[p.ID]
		if l.Modes == nil && isValve(p.Kind) {
			l.Modes = settings(c, p, names, solutions, hands[p.ID])
		}
		l.Modes = append(slices.Clone(l.Modes), also[p.ID]...)
		if n := len(set[p.ID]); n > 0 && len(l.Modes) > mostRows { // the readings on one, where to start and the warnings on the next
			first := l
			first.Modes, l.Modes = l.Modes[:n-1], l.Modes[n-1:]
			out = append(out, first)
		}
		out = append(out, l)
	}
	return out
}

// mostRows is how many rows a sticker holds in letters that are read at arm's length.
const mostRows = 4

func isValve(k graph.Kind) bool {
	return k.IsHandValve() || k == graph.CheckValve || k == graph.DiverterValve || k == graph.DrainValve || k == graph.AirBleed
}

// settings says how a valve stands in each mode; once where it is the same in all.
func settings(c *graph.Circuit, p *graph.Part, names *tag.Names, solutions []hydraulic.Solution, hand string) []Setting {
	switch p.Kind {
	case graph.CheckValve:
		if names.OnAir(p.ID) { // whether water passes tells nothing of it
			return []Setting{{"air line", "works by itself"}}
		}
	case graph.DrainValve, graph.AirBleed:
		return []Setting{{"every mode", "SHUT"}}
	case graph.DiverterValve:
		return ways(p, names)
	}
	var out []Setting
	for _, m := range c.AllModes() {
		out = append(out, Setting{names.Mode(m.Name), position(p, m, solutions, hand)})
	}
	for _, s := range out {
		if s.Position != out[0].Position {
			return out
		}
	}
	if len(out) == 0 {
		return nil
	}
	words := "every mode"
	if len(out) == 1 {
		words = "in use"
	}
	return []Setting{{words, out[0].Position}}
}

// position is how a hand valve is set, or how a check is found, in a mode.
func position(p *graph.Part, m graph.Mode, solutions []hydraulic.Solution, hand string) string {
	if p.Kind == graph.CheckValve {
		for i := range solutions {
			if solutions[i].Mode.Name != m.Name {
				continue
			}
			if f := solutions[i].Part(p.ID); f != nil {
				return map[string]string{"shut": "stays shut", "lifting": "spring part open", "open": "open"}[f.State]
			}
		}
		return "by itself"
	}
	at := m.Opening(p)
	if at >= 1 && p.Valve != nil && p.Valve.Kv > 0 {
		return hand
	}
	return tag.Turned(p.Kind, float64(at))
}

func opening(at graph.Opening) string {
	if at <= 0 || at >= 1 {
		return strings.ToUpper(at.Words())
	}
	return at.Words()
}

// ways says how far each outlet of a diverter is open.
func ways(p *graph.Part, names *tag.Names) []Setting {
	if p.Valve == nil || len(p.Valve.Ways) == 0 {
		return []Setting{{"all ways", "OPEN"}}
	}
	var out []Setting
	for _, w := range p.Valve.Ways {
		out = append(out, Setting{names.Way(p.ID, w.Port), opening(w.Open)})
	}
	return out
}
