package isometric

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

// notesOf are what a sheet of the drawing needs said: of what only new work has nothing, where it shows none.
func notesOf(d *members.Drawing, p *picture.Picture) []string {
	var out []string
	worked := !oldOnly(p.Ms)
	if !d.Common.Size.IsZero() && d.In.Gone == nil {
		out = append(out, "Pipe "+members.PipeText(d.Common)+" unless marked.")
	}
	unit := "mm"
	if d.In.Units == quantity.InchSystem {
		unit = "feet and inches"
	}
	if d.In.Gone == nil {
		out = append(out, "Lengths in "+unit+", centre to centre; to the socket stop of parts in line.")
	}
	switch {
	case !worked && !d.OldAll && d.In.Gone == nil:
	case len(d.Lay.Pieces) > 0:
		out = append(out, "Circles: pieces of the cut list, which has the lengths to cut.",
			"J1, J2, …: joints, numbered in the order they are made.")
	case d.In.Gone != nil:
		out = append(out, "Dashed and crossed: taken out by the work. Besides it only what it joins is drawn. Not to scale.")
	case d.OldAll:
		out = append(out, "Nothing new is laid out: this is the pipework as it stands.")
	}
	if t := datumOf(d); t != "" && (worked || d.OldAll || d.In.Gone != nil) {
		out = append(out, t)
	}
	if left := notDrawn(d); len(left) > 0 {
		out = append(out, "Not drawn, no legs given: "+strings.Join(left, ", ")+".")
	}
	return append(out, d.In.Notes...)
}

// datumOf names the port all places are counted from.
func datumOf(d *members.Drawing) string {
	for _, p := range d.C.Parts {
		for _, q := range p.Ports {
			if at, ok := d.Lay.Positions[p.ID+"."+q.Name]; ok && at == (graph.Vec{}) {
				return "Levels are from " + d.PortName(graph.PortRef{Part: p.ID, Port: q.Name}) + "."
			}
		}
	}
	return ""
}

// notDrawn names the new pipe without a place, by where it runs, with its pieces.
func notDrawn(d *members.Drawing) []string {
	var out []string
	for i := range d.Lay.Paths {
		p := &d.Lay.Paths[i]
		if (p.Located && len(p.Points) > 1) || (!p.Run.New() && !d.OldAll) || (d.In.Gone != nil && !d.In.Gone.Runs[p.Run.ID]) || (p.Run.HasLength && p.Run.LengthMM == 0) {
			continue
		}
		text := d.Names.Tag(p.Run.From.Part) + " to " + d.Names.Tag(p.Run.To.Part)
		var pieces []string
		for _, n := range p.Pieces {
			pieces = append(pieces, picture.Number(d.Lay.Pieces[n].Number))
		}
		if len(pieces) == 1 {
			text += " (piece " + pieces[0] + ")"
		}
		if len(pieces) > 1 {
			text += " (pieces " + strings.Join(pieces, ", ") + ")"
		}
		out = append(out, text)
	}
	return out
}

// entriesOf is the legend: just the signs and lines used.
func entriesOf(p *picture.Picture) []sheet.Entry {
	var out []sheet.Entry
	kinds := slices.Clone(p.Legend)
	slices.SortStableFunc(kinds, func(a, b picture.LegendEntry) int { return strings.Compare(a.Text, b.Text) })
	for _, e := range kinds {
		out = append(out, entry(e.Sign, e.Text))
	}
	pipe := func(pen float64, text string) sheet.Entry {
		return sheet.Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -6}, scene.Point{X: 6}, scene.Stroke(pen))}, W: 12, H: 2, Text: text}
	}
	var isNew, isOld bool
	for i := range p.Ms {
		isNew = isNew || p.Ms[i].IsNew
		isOld = isOld || !p.Ms[i].IsNew
	}
	if isNew {
		out = append(out, pipe(picture.PenNew, "new pipe"))
	}
	if isOld {
		out = append(out, pipe(picture.PenOld, "existing pipe"))
	}
	if p.D.In.Gone != nil {
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
