package schematic

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
)

// inked is what the check knows of one thing on the sheet, from the finished scene alone.
type inked struct {
	name  string
	boxes []scene.Box
}

// straights returns the upright boxes of a shape's straight pieces (of curves, their ends'
// box), without its line width.
func straights(s scene.Shape) []scene.Box {
	var out []scene.Box
	for _, p := range s.Paths {
		at := p.Start
		add := func(q scene.Point) {
			out = append(out, scene.Empty().Add(at).Add(q).Grow(s.Style.StrokeMM/2))
			at = q
		}
		for _, g := range p.Segments {
			add(g.To)
		}
		if p.Closed {
			add(p.Start)
		}
	}
	return out
}

// letters is the box of a text without the white above and below its letters.
func letters(x scene.Text) scene.Box {
	b := scene.Empty()
	for _, p := range x.Corners() {
		b = b.Add(p)
	}
	return scene.Box{MinX: b.MinX + 0.1, MinY: b.MinY + 0.05*b.H(), MaxX: b.MaxX - 0.1, MaxY: b.MaxY - 0.12*b.H()}
}

// No label may touch another label, a pipe, a sign, an arrow, a cut mark or a leader.
// It is checked on the finished page, not by what the layout believes.
func TestNoLabelTouchesAnything(t *testing.T) {
	for _, d := range everyDrawing(t) {
		pages := d.pages()
		if len(pages) == 0 {
			t.Errorf("%s: no page", d.name)
		}
		for _, page := range pages {
			var labels, things []inked
			for _, it := range page.Items {
				switch it := it.(type) {
				case scene.Text:
					if strings.HasPrefix(it.Name, "label:") {
						labels = append(labels, inked{it.Name, []scene.Box{letters(it)}})
					}
				case scene.Shape:
					for _, p := range []string{"run:", "symbol:", "flow:", "cut:", "leader:"} {
						if strings.HasPrefix(it.Name, p) {
							things = append(things, inked{it.Name, straights(it)})
						}
					}
				}
			}
			if len(pages) == 1 && len(labels) < 5 || len(things) < 10 && len(pages) == 1 {
				t.Errorf("%s: only %d labels and %d shapes found", d.name, len(labels), len(things))
			}
			for i, a := range labels {
				for _, b := range labels[i+1:] {
					if a.boxes[0].Overlaps(b.boxes[0]) {
						t.Errorf("%s: labels %s and %s overlap", d.name, a.name, b.name)
					}
				}
				for _, b := range things {
					if strings.HasPrefix(b.name, "leader:") && "label:"+strings.TrimPrefix(b.name, "leader:") == a.name {
						continue
					}
					for _, box := range b.boxes {
						if a.boxes[0].Overlaps(box) {
							t.Errorf("%s: label %s lies over %s", d.name, a.name, b.name)
							break
						}
					}
				}
			}
		}
	}
}

// No leader crosses a sign, an arrow or a cut mark but its own: whoever follows it would read the
// sign's name for another's. It is checked on the finished page, line by line.
func TestNoLeaderCrossesASign(t *testing.T) {
	leaders := 0
	for _, d := range everyDrawing(t) {
		for _, page := range d.pages() {
			var signs, lines []scene.Shape
			for _, it := range page.Items {
				x, ok := it.(scene.Shape)
				switch {
				case ok && strings.HasPrefix(x.Name, "leader:"):
					lines = append(lines, x)
				case ok && (strings.HasPrefix(x.Name, "symbol:") || strings.HasPrefix(x.Name, "flow:") || strings.HasPrefix(x.Name, "cut:")):
					signs = append(signs, x)
				}
			}
			leaders += len(lines)
			for _, l := range lines {
				for _, s := range signs {
					if strings.TrimPrefix(l.Name, "leader:") != strings.TrimPrefix(s.Name, "symbol:") && cross(l, s) {
						t.Errorf("%s: %s crosses %s", d.name, l.Name, s.Name)
					}
				}
			}
		}
	}
	if leaders == 0 {
		t.Error("no leader on any drawing")
	}
}

// cross reports whether straight pieces of two shapes cross.
func cross(a, b scene.Shape) bool {
	side := func(p, q, r scene.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	for _, s := range piecesOf(a) {
		for _, u := range piecesOf(b) {
			if side(s.from, s.to, u.from)*side(s.from, s.to, u.to) < 0 && side(u.from, u.to, s.from)*side(u.from, u.to, s.to) < 0 {
				return true
			}
		}
	}
	return false
}

// piecesOf are the straight pieces of a shape; of curves those between their ends.
func piecesOf(s scene.Shape) []way {
	var out []way
	for _, p := range s.Paths {
		at := p.Start
		for _, g := range p.Segments {
			out, at = append(out, way{at, g.To}), g.To
		}
		if p.Closed {
			out = append(out, way{at, p.Start})
		}
	}
	return out
}

// No pipe runs along another, and none through a sign that it does not end at.
func TestPipesKeepApart(t *testing.T) {
	for _, d := range everyDrawing(t) {
		dr := newDrawing(d.in)
		dr.arrange()
		checkPipes(t, d.name, dr.diagram)
	}
}

// checkPipes reports pipes that slant, that run along each other or through a sign, and signs
// that stand on each other.
func checkPipes(t *testing.T, name string, diagram *arrange.Diagram) {
	t.Helper()
	type piece struct {
		run  string
		a, b scene.Point
	}
	var pieces []piece
	for _, p := range diagram.Pipes {
		for k := 1; k < len(p.Points); k++ {
			a, b := p.Points[k-1], p.Points[k]
			if !agree.Within(a.X, b.X, 0.01) && !agree.Within(a.Y, b.Y, 0.01) {
				t.Errorf("%s: %s runs slanting from %v to %v", name, p.Run.ID, a, b)
			}
			pieces = append(pieces, piece{p.Run.ID, a, b})
		}
	}
	for i, p := range pieces {
		pb := scene.Empty().Add(p.a).Add(p.b).Grow(0.3)
		for _, q := range pieces[i+1:] {
			qb := scene.Empty().Add(q.a).Add(q.b).Grow(0.3)
			w := math.Min(pb.MaxX, qb.MaxX) - math.Max(pb.MinX, qb.MinX)
			h := math.Min(pb.MaxY, qb.MaxY) - math.Max(pb.MinY, qb.MinY)
			if p.run != q.run && w > 0 && h > 0 && math.Max(w, h) > 2 {
				t.Errorf("%s: %s and %s run along each other at %v", name, p.run, q.run, p.a)
			}
		}
	}
	for _, n := range diagram.Nodes {
		if n == diagram.Tub {
			continue
		}
		box := n.Box().Grow(-0.5)
		for _, p := range diagram.Pipes {
			if p.From == n || p.To == n {
				continue
			}
			for k := 1; k < len(p.Points); k++ {
				if scene.Empty().Add(p.Points[k-1]).Add(p.Points[k]).Grow(0.1).Overlaps(box) {
					t.Errorf("%s: %s runs through %s", name, p.Run.ID, n.Part.ID)
				}
			}
		}
	}
	for i, n := range diagram.Nodes {
		for _, m := range diagram.Nodes[i+1:] {
			if n != diagram.Tub && m != diagram.Tub && n.Box().Grow(-0.2).Overlaps(m.Box().Grow(-0.2)) {
				t.Errorf("%s: %s and %s stand on each other", name, n.Part.ID, m.Part.ID)
			}
		}
	}
}

// Every label is at least 1.8 mm high on the paper it is made for. Source: ISO 3098-1, the
// least of its heights of capitals (from memory).
func TestLabelsAreTallEnough(t *testing.T) {
	const least, capital = 1.8, 0.729 // mm; height of capitals, em: table OS/2 of the font
	for _, d := range everyDrawing(t) {
		if d.name == "every-kind" { // no circuit anybody has: three times as many parts as any demo
			continue
		}
		for _, page := range d.pages() {
			for _, it := range page.Items {
				x, ok := it.(scene.Text)
				if ok && strings.HasPrefix(x.Name, "label:") && x.SizeMM*capital < least-0.005 {
					t.Errorf("%s: %q is %.2f mm high on a page %.0f mm wide", d.name, x.Text, x.SizeMM*capital, page.WidthMM)
				}
			}
		}
	}
}
