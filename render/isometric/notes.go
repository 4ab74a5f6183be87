package isometric

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

// notesOf are what the drawing needs said.
func notesOf(d *drawing) []string {
	var out []string
	if !d.common.size.IsZero() && d.in.Gone == nil {
		out = append(out, "Pipe "+pipeText(d.common)+" unless marked.")
	}
	unit := "mm"
	if d.in.Units == quantity.InchSystem {
		unit = "feet and inches"
	}
	if d.in.Gone == nil {
		out = append(out, "Lengths in "+unit+", centre to centre; to the socket stop of parts in line.")
	}
	switch {
	case len(d.lay.Pieces) > 0:
		out = append(out, "Circles: pieces of the cut list, which has the lengths to cut.",
			"J1, J2, …: joints, numbered in the order they are made.")
	case d.in.Gone != nil:
		out = append(out, "Dashed and crossed: taken out by the work. Besides it only what it joins is drawn. Not to scale.")
	case d.oldAll:
		out = append(out, "Nothing new is laid out: this is the pipework as it stands.")
	}
	if t := datumOf(d); t != "" {
		out = append(out, t)
	}
	if left := notDrawn(d); len(left) > 0 {
		out = append(out, "Not drawn, no legs given: "+strings.Join(left, ", ")+".")
	}
	return append(out, d.in.Notes...)
}

// datumOf names the port all places are counted from.
func datumOf(d *drawing) string {
	for _, p := range d.c.Parts {
		for _, q := range p.Ports {
			if at, ok := d.lay.Places[p.ID+"."+q.Name]; ok && at == (graph.Vec{}) {
				return "Levels are from " + d.portName(graph.PortRef{Part: p.ID, Port: q.Name}) + "."
			}
		}
	}
	return ""
}

// notDrawn names the new pipe without a place, by where it runs, with its pieces.
func notDrawn(d *drawing) []string {
	var out []string
	for i := range d.lay.Paths {
		p := &d.lay.Paths[i]
		if (p.Located && len(p.Points) > 1) || (!p.Run.New() && !d.oldAll) || (d.in.Gone != nil && !d.in.Gone.Runs[p.Run.ID]) || (p.Run.HasLength && p.Run.LengthMM == 0) {
			continue
		}
		text := d.names.Tag(p.Run.From.Part) + " to " + d.names.Tag(p.Run.To.Part)
		var pieces []string
		for _, n := range p.Pieces {
			pieces = append(pieces, number(d.lay.Pieces[n].Number))
		}
		if len(pieces) > 0 {
			text += " (pieces " + strings.Join(pieces, ", ") + ")"
		}
		out = append(out, text)
	}
	return out
}

// entriesOf is the legend: just the signs and lines used.
func entriesOf(p *picture) []sheet.Entry {
	var out []sheet.Entry
	kinds := slices.Clone(p.legend)
	slices.SortStableFunc(kinds, func(a, b legendEntry) int { return strings.Compare(a.text, b.text) })
	for _, e := range kinds {
		out = append(out, entry(e.sign, e.text))
	}
	pipe := func(pen float64, text string) sheet.Entry {
		return sheet.Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -6}, scene.Point{X: 6}, scene.Stroke(pen))}, W: 12, H: 2, Text: text}
	}
	var isNew, isOld bool
	for i := range p.ms {
		isNew = isNew || p.ms[i].isNew
		isOld = isOld || !p.ms[i].isNew
	}
	if isNew {
		out = append(out, pipe(penNew, "new pipe"))
	}
	if isOld {
		out = append(out, pipe(penOld, "existing pipe"))
	}
	if p.d.in.Gone != nil {
		out = append(out, sheet.GoneEntry())
	}
	return out
}

// entry centres a sign on its own middle.
func entry(s symbol.Symbol, text string) sheet.Entry {
	b := scene.Bounds(s.Items...)
	c := b.Centre()
	return sheet.Entry{Symbol: s.At(scene.Point{X: -c.X, Y: -c.Y}, symbol.Right), W: b.W(), H: b.H(), Text: text}
}
