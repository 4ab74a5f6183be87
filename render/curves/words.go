package curves

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

func (d *drawing) notes() []string {
	var modes []string
	for _, u := range d.set.Duties {
		if !slices.Contains(modes, u.Mode) {
			modes = append(modes, u.Mode)
		}
	}
	out := []string{fmt.Sprintf("%s, %s: it works where its curve meets the circuit's.", d.name(), strings.Join(d.modes(modes), "; "))}
	for _, s := range d.set.Systems {
		if s.Low != nil {
			out = append(out, "Grey: nine in ten of what the circuit may be, as far as its parts are known; it is the curve "+d.set.AsSaid+", scaled to the range of the flow.")
			break
		}
	}
	if t := d.table(); t != "" {
		out = append(out, t)
	}
	return out
}

// modes are the words for modes.
func (d *drawing) modes(ids []string) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = d.in.Modes(id)
	}
	return out
}

// table says the ranges of the duty points in words.
func (d *drawing) table() string {
	var parts []string
	for _, u := range d.set.Duties {
		if u.Range.High <= u.Range.Low {
			continue
		}
		mode := d.in.Modes(u.Mode)
		if d.two() {
			mode += ", " + string(u.Stage)
		}
		parts = append(parts, mode+": "+u.Range.Words(d.flow))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Range of the flow: " + strings.Join(parts, "; ") + "."
}

func (d *drawing) flow(v float64) string { return quantity.Format(v, quantity.Flow, d.in.Units) }
func (d *drawing) head(v float64) string { return quantity.Format(v, quantity.Head, d.in.Units) }

// Styles of the curves.
var (
	pumpStyle   = scene.Stroke(sheet.Thick)
	afterStyle  = scene.Stroke(0.5)
	beforeStyle = scene.Dashed(0.5, 3, 1.4)
	bandGrey    = 0.87
)

// style of a circuit's curve: the first of a stage as in the legend, further ones dotted in
// longer and longer dashes.
func style(stage graph.Stage, n int) scene.Style {
	switch {
	case stage == graph.Before && n == 0:
		return beforeStyle
	case n == 0:
		return afterStyle
	case stage == graph.Before:
		return scene.Dashed(0.35, 1+float64(n), 1)
	}
	return scene.Dashed(0.5, 6+3*float64(n), 1, 0.7, 1)
}

func (d *drawing) two() bool {
	for _, s := range d.set.Systems {
		if s.Stage == graph.Before {
			return true
		}
	}
	return false
}

func (d *drawing) legend() []sheet.Entry {
	line := func(st scene.Style, text string) sheet.Entry {
		return sheet.Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -5}, scene.Point{X: 5}, st)}, W: 10, H: 1, Text: text}
	}
	out := []sheet.Entry{line(pumpStyle, "pump, by speed")}
	after := "circuit"
	if d.two() {
		out = append(out, line(beforeStyle, "circuit before"))
		after = "circuit after"
	}
	out = append(out, line(afterStyle, after))
	for _, s := range d.set.Systems {
		if s.Low != nil && s.Stage == graph.After {
			out = append(out, sheet.Entry{Symbol: []scene.Item{scene.Rect(-5, -2, 10, 4, scene.Filled(bandGrey))}, W: 10, H: 4, Text: "its range"})
			break
		}
	}
	if d.two() {
		out = append(out, sheet.Entry{Symbol: []scene.Item{scene.Circle(scene.Point{}, 1.5, scene.Outline(sheet.Thin))}, W: 3, H: 3, Text: "duty before"})
	}
	return append(out, sheet.Entry{Symbol: []scene.Item{scene.Circle(scene.Point{}, 1.5, scene.Solid(sheet.Thin))}, W: 3, H: 3, Text: strings.Replace(after, "circuit", "duty", 1)})
}
