package drawing

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// stickerPages draws a sticker for every piece and every valve.
func stickerPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	return sticker.Draw(sticker.Input{Stickers: stickers(p, units), Job: p.Circuit.Titled(), Page: page}), nil
}

func stickersRead(w io.Writer, p *plan.Plan, units quantity.System) error {
	for _, l := range stickers(p, units) {
		fmt.Fprintf(w, "%#v\n", l)
	}
	return nil
}

// stickers are what every piece and every valve gets.
func stickers(p *plan.Plan, units quantity.System) []sticker.Sticker {
	names := tag.Of(p.Circuit, p.Net())
	var out []sticker.Sticker
	if p.Cuts != nil && p.WhyNot() == "" {
		out = sticker.OfPieces(p.Cuts.Pieces, names, units)
	}
	if p.After != nil {
		out = append(out, sticker.OfValves(p.After.Circuit, names, p.After.Solutions, hands(p), aims(p, units), warnings(p, names))...)
	}
	return out
}

// aims is what each throttle in a bypass is set by, by its id.
func aims(p *plan.Plan, units quantity.System) map[string][]sticker.Setting {
	out := map[string][]sticker.Setting{}
	for _, v := range p.After.Circuit.Parts {
		if a, ok := p.AimOf(v.ID); ok {
			who := strings.TrimPrefix(theUnit(p, a), "the ")
			shows := who + " shows"
			if a.Several {
				shows += ", " + tag.Of(p.Circuit, p.Net()).Mode(a.Mode)
			}
			rows := []sticker.Setting{{Mode: shows, Position: quantity.Format(a.Flow, quantity.Flow, units)}}
			if a.DropPa > 0 && gauged(p) {
				rows = append(rows, sticker.Setting{Mode: "gauges round " + who, Position: quantity.Format(a.DropPa, quantity.Pressure, units) + " apart"})
			}
			if len(a.Rises) > 0 {
				airs, rises := risesInARow(a.Rises, units)
				rows = append(rows, sticker.Setting{Mode: "warms at air " + airs, Position: rises})
				if len(a.Rises) > 1 {
					rows = append(rows, sticker.Setting{Mode: "in air between", Position: "in proportion"})
				}
			}
			out[v.ID] = append(rows, sticker.Setting{Mode: "start near", Position: strings.TrimPrefix(strings.TrimPrefix(Near(p, v, a), "HANDLE "), "OPEN ")})
		}
	}
	return out
}

// gauged reports whether pressure gauges stand in the circuit, to read a drop on.
func gauged(p *plan.Plan) bool { return len(p.After.Circuit.OfKind(graph.PressureGauge)) > 0 }

// risesInARow puts the airs and what the water warms by at each in a row, the unit once: "2 / 15 °C",
// "1.7 / 2.5 K".
func risesInARow(rises []plan.Rise, units quantity.System) (airs, by string) {
	row := func(dim quantity.Dimension, value func(plan.Rise) float64) string {
		text, unit := "", ""
		for i, r := range rises {
			if i > 0 {
				text += " / "
			}
			number, its, _ := strings.Cut(quantity.Format(value(r), dim, units), " ")
			text, unit = text+number, its
		}
		return text + " " + unit
	}
	return row(quantity.Temperature, func(r plan.Rise) float64 { return r.AirC }),
		row(quantity.TemperatureDifference, func(r plan.Rise) float64 { return r.K })
}

// Near says where a hand begins to set a throttle: where its handle would stand for what was
// worked out, by its kind's opening curve.
func Near(p *plan.Plan, v *graph.Part, a plan.Aim) string {
	if v.Valve != nil && v.Valve.Kv > 0 {
		return Hand(p, v)
	}
	for i := range p.After.Solutions {
		if s := &p.After.Solutions[i]; s.Mode.Name == a.Mode {
			return tag.Turned(v.Kind, float64(s.Mode.Opening(v)))
		}
	}
	return tag.Turned(v.Kind, 1)
}

// AimWords says what a throttle is set by, in a line: the unit's flow, two gauges where the unit's
// drop is known, the rise.
func AimWords(p *plan.Plan, v *graph.Part, units quantity.System) string {
	a, ok := p.AimOf(v.ID)
	if !ok {
		return ""
	}
	in := ""
	if a.Several {
		in = " " + tag.Of(p.Circuit, p.Net()).Mode(a.Mode)
	}
	var ways []string
	if a.DropPa > 0 {
		fitted := ", if any are fitted"
		if gauged(p) {
			fitted = ""
		}
		ways = append(ways, fmt.Sprintf("on gauges before and after %s%s: %s apart", theUnit(p, a), fitted, quantity.Format(a.DropPa, quantity.Pressure, units)))
	}
	rises := RiseWords(a.Rises, units)
	if rises != "" {
		rises = "at full output the water warms by " + rises
	}
	switch {
	case len(a.Rises) > 1:
		ways = append(ways, rises+", in air between in proportion, in any other go by the flow")
	case rises != "":
		ways = append(ways, rises+", in any other air go by the flow")
	}
	text := fmt.Sprintf("set%s until %s", in, shows(p, a, units))
	if len(ways) > 0 {
		text += " (" + strings.Join(ways, "; ") + ")"
	}
	return text + "; start near " + strings.ToLower(Near(p, v, a))
}

// RiseWords says by how much the water warms in the unit in each air: "1.3 K at 2 °C air, 2 K at 15 °C air"; ""
// of none.
func RiseWords(rises []plan.Rise, units quantity.System) string {
	var out []string
	for _, r := range rises {
		out = append(out, fmt.Sprintf("%s at %s air", quantity.Format(r.K, quantity.TemperatureDifference, units), quantity.Format(r.AirC, quantity.Temperature, units)))
	}
	return strings.Join(out, ", ")
}

// theUnit is the unit a throttle is set by: by its name where there are several.
func theUnit(p *plan.Plan, a plan.Aim) string {
	if len(p.After.Layout.Stage.Branches()) > 1 {
		return tag.Of(p.Circuit, p.Net()).Tag(a.Unit)
	}
	return "the unit"
}

// shows says what the unit shows when the throttle is set, and what the others that the valve leads past
// show then, each by its own name: the flows of the aim itself, which is of the case that is taken.
func shows(p *plan.Plan, a plan.Aim, units quantity.System) string {
	for _, m := range plan.Summarise(p) {
		if m.Mode != a.Mode || len(m.Beside) == 0 {
			continue
		}
		names := tag.Of(p.Circuit, p.Net())
		passed := map[string]bool{} // the units that the valve leads past
		for _, b := range p.After.Layout.Stage.Branches() {
			passed[b.Unit.ID] = slices.ContainsFunc(b.BypassParts, func(v *graph.Part) bool { return v.ID == a.Valve })
		}
		var all []string
		for _, u := range m.Units() {
			if !passed[u.ID] {
				continue
			}
			all = append(all, names.Tag(u.ID)+" shows "+quantity.Format(math.Abs(u.Flow), quantity.Flow, units))
		}
		return strings.Join(all, " and ")
	}
	return "the unit shows " + quantity.Format(a.Flow, quantity.Flow, units)
}

// Hand says what a hand does to set a valve that is set by its Kv: "handle 35° from shut" for a quarter-turn
// valve, "open 40 % of its turns" for a gate. The way is read off the curve the flows are worked out by: it is
// where to begin, and the flow or the unit's display says when to stop, which alone tells where nobody says
// what the valve passes when it is open.
func Hand(p *plan.Plan, v *graph.Part) string {
	if v.Valve == nil {
		return ""
	}
	set := p.After.Layout.Stage
	if part := set.Part(v.ID); part != nil {
		if open, ok := hydraulic.StandsAt(part, v.Valve.Kv, set.Water.Density.V); ok {
			return tag.Turned(v.Kind, open)
		}
	}
	return "PART SHUT, by the flow"
}

// hands says of each hand valve that is set by its Kv what a hand does, by its id.
func hands(p *plan.Plan) map[string]string {
	out := map[string]string{}
	for _, v := range p.After.Circuit.Parts {
		if v.Kind.IsHandValve() && v.Valve != nil && v.Valve.Kv > 0 {
			out[v.ID] = Hand(p, v)
		}
	}
	return out
}
