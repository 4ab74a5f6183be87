package picture

import (
	"math"

	"dryfit/graph"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

// hatchMM is the distance of the lines of a hatching, mm.
const hatchMM = 1.8

// paintSlants draws, for each leg off the axes, the edges of its projection box and the
// hatched auxiliary planes, and asks for places for the lengths along the edges. Source: ISO
// 6412-2, pipes not parallel to the axes (from memory).
func (p *Picture) paintSlants() {
	for i := range p.Ms {
		m := &p.Ms[i]
		axes := space.AxesOf(m.Way())
		if m.Run == nil || len(axes) < 2 || m.Stub {
			continue
		}
		a, b := p.A[i], p.B[i]
		corners := []graph.Vec{a}
		at := a
		for _, ax := range axes {
			at = at.Add(ax.Unit().Scale(ax.Of(b) - ax.Of(a)))
			corners = append(corners, at)
		}
		for k, ax := range axes {
			from, to := corners[k], corners[k+1]
			p.block(0.3, scene.Line(space.Project(from), space.Project(to), scene.Stroke(sheet.Hair)).Named("box:"+m.Run.ID))
			if m.IsNew || p.D.OldAll {
				p.wantRow([]dimension{{a: p.corner(from), b: p.corner(to), text: p.D.LengthText(math.Abs(ax.Of(m.Way()))), of: " of the slant, " + m.Run.Spec.Word() + " " + p.D.Names.Run(m.Run.ID)}}, false)
			}
		}
		if len(axes) == 3 { // the way over ground, and the upright plane on it
			p.block(0.3, scene.Line(space.Project(corners[0]), space.Project(corners[2]), scene.Stroke(sheet.Hair)).Named("box:"+m.Run.ID))
			p.hatch(corners[0], corners[1], corners[2])
			p.hatch(corners[0], corners[2], corners[3])
		} else {
			p.hatch(corners[0], corners[1], corners[2])
		}
		p.used(slantSign(), "slant, its plane hatched")
	}
}

// corner is the mark at a display point.
func (p *Picture) corner(at graph.Vec) mark { return mark{at: at, clear: dimClear} }

// hatch fills a triangle with its right angle at c: upright lines in an upright plane, lines
// parallel to X in a level one.
func (p *Picture) hatch(a, c, b graph.Vec) {
	lines := space.Project(graph.Vec{Z: 1})
	if math.Abs(a.Z-b.Z) < 1e-6 && math.Abs(a.Z-c.Z) < 1e-6 {
		lines = space.Project(graph.Vec{X: 1})
	}
	tri := []scene.Point{space.Project(a), space.Project(c), space.Project(b)}
	normal := scene.Point{X: -lines.Y, Y: lines.X}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range tri {
		lo, hi = math.Min(lo, space.Dot(q, normal)), math.Max(hi, space.Dot(q, normal))
	}
	for s := lo + hatchMM/2; s < hi; s += hatchMM {
		var ends []scene.Point
		for k := range tri {
			q, r := tri[k], tri[(k+1)%3]
			d0, d1 := space.Dot(q, normal)-s, space.Dot(r, normal)-s
			if (d0 < 0) != (d1 < 0) {
				ends = append(ends, space.Along(q, r, d0/(d0-d1)))
			}
		}
		if len(ends) == 2 && space.Length(space.Sub(ends[1], ends[0])) > 0.4 {
			p.block(0.1, scene.Line(ends[0], ends[1], scene.Stroke(sheet.Hair)).Named("hatch"))
		}
	}
}

// slantSign is the sign of a slanting pipe for the legend.
func slantSign() symbol.Symbol {
	pt := func(x, y float64) scene.Point { return scene.Point{X: x, Y: y} }
	hair := scene.Stroke(sheet.Hair)
	items := []scene.Item{scene.Line(pt(-4, 0), pt(4, 0), hair), scene.Line(pt(4, 0), pt(4, -4), hair),
		scene.Line(pt(-4, 0), pt(4, -4), scene.Stroke(PenNew))}
	for x := -2.5; x < 4; x += hatchMM {
		items = append(items, scene.Line(pt(x, 0), pt(x, -(x+4)/2), hair))
	}
	return signOf(items...)
}
