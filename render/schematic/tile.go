package schematic

import (
	"fmt"
	"math"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// tile is what of a drawing stands on one sheet.
type tile struct {
	box   scene.Box // of the drawing
	marks []match
}

// match is where a pipe goes on to another sheet.
type match struct {
	name string
	run  string // the pipe's name among the shapes
	at   scene.Point
	way  scene.Point // out of the tile
}

// tiles cuts a drawing that is too large for its paper into sheets on which its letters can be
// read, across pipes and no letters, where it can be across no signs but the tub's, and names the
// pipes that go on; nil where it cannot be cut so.
func (d *drawing) tiles() ([]*scene.Scene, bool) {
	var best *tiling
	for _, try := range []struct{ edges, least, sign float64 }{ // of the paper's width: with some room, and without but for rounding
		{40, goodScale, never}, {33, goodScale - 0.01, never}, {40, goodScale, 60}, {33, goodScale - 0.01, 60},
	} {
		for _, share := range []float64{0.7, 0.6, 0.5, 0.4} { // of the paper for the drawing, the rest for legend and notes
			for _, o := range []sheet.Orientation{sheet.Landscape, sheet.Portrait} {
				t := d.tile(sheet.Page{Format: d.in.Page.Format, Orientation: o}, share, try.edges, try.sign)
				if t != nil && t.scale >= try.least && (best == nil || len(t.tiles) < len(best.tiles)) {
					best = t
				}
			}
		}
		if best != nil {
			break
		}
	}
	if best == nil {
		return nil, false
	}
	var out []*scene.Scene
	for i, s := range best.sheets {
		c, a := best.tiles[i].box.Centre(), s.Area().Centre()
		for _, it := range d.inTile(&best.tiles[i]) {
			s.Add(fitted(it, c, a, best.scale))
		}
		out = append(out, s.Scene)
	}
	return out, true
}

// tiling is a drawing cut into sheets, all at one scale.
type tiling struct {
	tiles  []tile
	sheets []*sheet.Sheet
	scale  float64
}

// tile cuts the drawing into sheets of which it takes up a share of the height, and the width but
// for the edges, mm, a cut through a sign at a cost; nil where it cannot be cut so.
func (d *drawing) tile(p sheet.Page, share, edges, sign float64) *tiling {
	w, h := p.Format.Size(p.Orientation)
	w, h = (w-edges)/goodScale, h*share/goodScale
	all := d.bounds().Grow(0.5)
	if all.W()*all.H() > mostTiles*w*h {
		return nil
	}
	tiles, ok := d.cut(all, cutting{w, h, sign})
	if !ok || len(tiles) > mostTiles {
		return nil
	}
	n := 0
	for i := range tiles {
		for k := range i {
			n = d.join(&tiles[k], &tiles[i], n)
		}
	}
	tiles = d.busy(tiles)
	t := &tiling{tiles: tiles, scale: 1}
	first := max(1, d.in.Sheet)
	for i := range tiles {
		s := d.numbered(p, first+i, first+len(tiles)-1, &tiles[i].box, goesOn(tiles, i, first))
		area := s.Area().Grow(-sheetInset)
		t.sheets = append(t.sheets, s)
		t.scale = min(t.scale, area.W()/tiles[i].box.W(), area.H()/tiles[i].box.H())
	}
	return t
}

// mostTiles is how many sheets a schematic is cut into at most.
const mostTiles = 24

// cutting is how a drawing is cut: into parts at most so wide and high, mm, and what a cut through a sign costs, where one
// across a pipe costs 1.
type cutting struct{ w, h, sign float64 }

// never is what a cut costs that is not made.
const never = 1000

// cut halves a box until every part is small enough.
func (d *drawing) cut(b scene.Box, c cutting) ([]tile, bool) {
	if b.W() <= c.w && b.H() <= c.h {
		return []tile{{box: b}}, true
	}
	across := b.W()/c.w >= b.H()/c.h // by an upright line
	at, ok := d.cutAt(b, across, c)
	if !ok {
		return nil, false
	}
	one, two := b, b
	if across {
		one.MaxX, two.MinX = at, at
	} else {
		one.MaxY, two.MinY = at, at
	}
	left, okLeft := d.cut(one, c)
	right, okRight := d.cut(two, c)
	return append(left, right...), okLeft && okRight
}

// cutAt is where a box is cut across a way: through no letters, as little as can be of signs and
// pipes, and near what one sheet holds or the middle.
func (d *drawing) cutAt(b scene.Box, across bool, c cutting) (float64, bool) {
	lo, hi, most := b.MinX, b.MaxX, c.w
	if !across {
		lo, hi, most = b.MinY, b.MaxY, c.h
	}
	n := math.Ceil((hi - lo) / most) // sheets this way
	want := lo + (hi-lo)/n
	type body struct {
		it  scene.Item
		box scene.Box
	}
	var near []body
	for _, it := range append(append([]scene.Item{}, d.items...), d.labels...) {
		if box := scene.Bounds(it); b.Overlaps(box) {
			near = append(near, body{it, box})
		}
	}
	best, least := 0.0, math.Inf(1)
	for at := lo + 0.35*most; at <= min(lo+most, hi-5); at += 0.5 {
		cost := math.Abs(at-want) / most
		for _, n := range near {
			from, to := n.box.MinX, n.box.MaxX
			if !across {
				from, to = n.box.MinY, n.box.MaxY
			}
			s, isShape := n.it.(scene.Shape)
			if strings.HasPrefix(s.Name, "cut") && from-9 < at && to+9 > at {
				cost += 30 // room for the letter of the match line
			}
			if from-0.7 >= at || to+0.7 <= at {
				continue
			}
			switch {
			case !isShape, strings.HasPrefix(s.Name, "flow"), strings.HasPrefix(s.Name, "cut"):
				cost += never
			case strings.HasPrefix(s.Name, "run:"):
				cost += float64(len(crossed(s, at, across, b)))
				if along(s, at, across) {
					cost += never
				}
			case d.isTub(s.Name):
				cost += 6
			default:
				cost += c.sign
			}
		}
		if cost < least {
			best, least = at, cost
		}
	}
	return best, least < never
}

// isTub reports whether a shape is the sign of a tub, which is as large as the drawing.
func (d *drawing) isTub(shape string) bool {
	id, is := strings.CutPrefix(shape, "symbol:")
	p := d.c.Part(id)
	return is && p != nil && p.Kind == graph.Tub
}

// pieces calls f for each straight piece of a shape.
func pieces(s scene.Shape, f func(a, b scene.Point)) {
	for _, p := range s.Paths {
		at := p.Start
		for _, g := range p.Segments {
			f(at, g.To)
			at = g.To
		}
	}
}

// crossed are the places where a pipe crosses a line in a box.
func crossed(s scene.Shape, at float64, across bool, b scene.Box) []scene.Point {
	var out []scene.Point
	pieces(s, func(p, q scene.Point) {
		if across && (p.X < at) != (q.X < at) && p.Y > b.MinY && p.Y < b.MaxY {
			out = append(out, scene.Point{X: at, Y: p.Y + (q.Y-p.Y)*(at-p.X)/(q.X-p.X)})
		}
		if !across && (p.Y < at) != (q.Y < at) && p.X > b.MinX && p.X < b.MaxX {
			out = append(out, scene.Point{X: p.X + (q.X-p.X)*(at-p.Y)/(q.Y-p.Y), Y: at})
		}
	})
	return out
}

// along reports whether a pipe runs along a line, close to it.
func along(s scene.Shape, at float64, across bool) bool {
	found := false
	pieces(s, func(p, q scene.Point) {
		if !across {
			p, q = scene.Point{X: p.Y, Y: p.X}, scene.Point{X: q.Y, Y: q.X}
		}
		found = found || math.Abs(p.X-q.X) < 0.5 && math.Abs(p.X-at) < 4 && math.Abs(p.Y-q.Y) > 1
	})
	return found
}

// join names the pipes that pass from one tile to another.
func (d *drawing) join(a, b *tile, n int) int {
	across := math.Abs(a.box.MaxX-b.box.MinX) < 1e-9 && a.box.MinY < b.box.MaxY && b.box.MinY < a.box.MaxY
	down := math.Abs(a.box.MaxY-b.box.MinY) < 1e-9 && a.box.MinX < b.box.MaxX && b.box.MinX < a.box.MaxX
	if !across && !down {
		return n
	}
	at, way := a.box.MaxX, scene.Point{X: 1}
	if !across {
		at, way = a.box.MaxY, scene.Point{Y: 1}
	}
	shared := scene.Box{MinX: max(a.box.MinX, b.box.MinX), MinY: max(a.box.MinY, b.box.MinY), MaxX: min(a.box.MaxX, b.box.MaxX), MaxY: min(a.box.MaxY, b.box.MaxY)}
	for _, it := range d.items {
		s, ok := it.(scene.Shape)
		if !ok || !strings.HasPrefix(s.Name, "run:") {
			continue
		}
		for _, p := range crossed(s, at, across, shared) {
			name := sheet.MatchLetter(n)
			n++
			a.marks = append(a.marks, match{name, s.Name, p, way})
			b.marks = append(b.marks, match{name, s.Name, p, scene.Point{X: -way.X, Y: -way.Y}})
		}
	}
	return n
}

// busy are the tiles on which something stands. One that a pipe only passes is no sheet: the pipe
// goes on from the sheet before it to the one behind it, by one letter.
func (d *drawing) busy(tiles []tile) []tile {
	same := map[string]string{} // letters that have become another
	now := func(name string) string {
		for same[name] != "" {
			name = same[name]
		}
		return name
	}
	other := func(i int, name string) int { // the tile on the other side of a match line
		for k := range tiles {
			for _, m := range tiles[k].marks {
				if k != i && now(m.name) == now(name) {
					return k
				}
			}
		}
		return -1
	}
	var out []tile
	for i := range tiles {
		t := &tiles[i]
		if len(t.marks) != 2 || t.marks[0].run != t.marks[1].run || d.stands(t) || other(i, t.marks[0].name) == other(i, t.marks[1].name) {
			out = append(out, *t)
			continue
		}
		same[now(t.marks[1].name)] = now(t.marks[0].name)
		t.marks = nil
	}
	letters := map[string]string{}
	for i := range out {
		for k := range out[i].marks {
			name := now(out[i].marks[k].name)
			if letters[name] == "" {
				letters[name] = sheet.MatchLetter(len(letters))
			}
			out[i].marks[k].name = letters[name]
		}
	}
	return out
}

// stands reports whether anything but pipe and its arrows is on a tile.
func (d *drawing) stands(t *tile) bool {
	for _, it := range append(append([]scene.Item{}, d.items...), d.labels...) {
		switch it := it.(type) {
		case scene.Shape:
			if !strings.HasPrefix(it.Name, "run:") && !strings.HasPrefix(it.Name, "flow") && len(scene.Clip(it, t.box)) > 0 {
				return true
			}
		case scene.Text:
			if scene.Bounds(it).Overlaps(t.box) {
				return true
			}
		}
	}
	return false
}

// inTile is what stands on a tile, with its match marks.
func (d *drawing) inTile(t *tile) []scene.Item {
	var out []scene.Item
	for _, it := range append(append([]scene.Item{}, d.items...), d.labels...) {
		switch it := it.(type) {
		case scene.Shape:
			for _, s := range scene.Clip(it, t.box) {
				out = append(out, s)
			}
		case scene.Text:
			if c := scene.Bounds(it).Centre(); c.X >= t.box.MinX && c.X < t.box.MaxX && c.Y >= t.box.MinY && c.Y < t.box.MaxY {
				out = append(out, it)
			}
		}
	}
	for _, m := range t.marks {
		const half = 2.0
		v := scene.Point{X: half * m.way.Y, Y: half * m.way.X}
		a, b := scene.Point{X: m.at.X - v.X, Y: m.at.Y - v.Y}, scene.Point{X: m.at.X + v.X, Y: m.at.Y + v.Y}
		out = append(out, scene.Line(a, b, scene.Dashed(0.5, 1.6, 0.5, 0.4, 0.5)).Named("match:"+m.name))
		text := scene.Text{Text: m.name, SizeMM: 3, Bold: true, Anchor: scene.Centre, Middle: true, Halo: true, Name: "label:match"}
		best := math.Inf(1)
		for i, back := range []float64{2.2, 4, 6, 8, 11, 14, 17} {
			for k, off := range []float64{3.2, -3.2, 4.6, -4.6, 7, -7, 10, -10, 13, -13} {
				w := scene.Point{X: -back*m.way.X + off*math.Abs(m.way.Y), Y: -back*m.way.Y + off*math.Abs(m.way.X)}
				try := text
				try.At = scene.Point{X: m.at.X + w.X, Y: m.at.Y + w.Y}
				if cost := 0.1*float64(k) + 0.4*float64(i) + covers(try, out); cost < best {
					best, text.At = cost, try.At
				}
			}
		}
		out = append(out, text)
	}
	return out
}

// covers is how much of what is drawn the letters of a text would cover.
func covers(x scene.Text, items []scene.Item) float64 {
	cost, box := 0.0, scene.Bounds(x).Grow(0.3)
	for _, it := range items {
		switch it := it.(type) {
		case scene.Text:
			if scene.Bounds(it).Overlaps(box) {
				cost += 10
			}
		case scene.Shape:
			if len(scene.Clip(it, box)) > 0 {
				cost += 10
			}
		}
	}
	return cost
}

// goesOn says where the pipes go on that are cut at the edge of a tile.
func goesOn(tiles []tile, i, first int) string {
	var words []string
	for k := range tiles {
		var names []string
		for _, m := range tiles[i].marks {
			for _, o := range tiles[k].marks {
				if k != i && o.name == m.name {
					names = append(names, m.name)
				}
			}
		}
		if len(names) > 0 {
			words = append(words, fmt.Sprintf("%s on sheet %d", strings.Join(names, ", "), first+k))
		}
	}
	if len(words) == 0 {
		return ""
	}
	return "Match lines: " + strings.Join(words, "; ") + "."
}
