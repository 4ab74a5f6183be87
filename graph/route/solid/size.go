package solid

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

// SocketWall is how thick the wall of a socket is, as a share of the pipe's outside, where
// no row gives the outside of the fitting. Common practice, no source: moulded sockets are
// at least as thick as the wall of the heavier pipe of their size, about a tenth of it.
const SocketWall = 0.1

// girth is the outside diameter of a fitting round its sockets or nut, mm, and what of it is
// assumed: "" where a measurement or a row of the user's own gives it.
type girth struct {
	pipe, likely float64
	assumed      bool
}

// builder is one call of Of at work.
type builder struct {
	lay *route.Layout
	out *Bodies
}

// pipeOutside is the outside of pipe of a size; the nominal size where no row gives it.
func (b *builder) pipeOutside(spec catalog.Spec, size catalog.Size) float64 {
	return b.lay.Stage.SizeOutside(spec, size)
}

// girthOf is the girth of a fitting with the row, made for a pipe.
func (b *builder) girthOf(row catalog.Row, spec catalog.Spec, size catalog.Size) girth {
	g := girth{pipe: b.pipeOutside(spec, size), assumed: true}
	g.likely = g.pipe * (1 + 2*SocketWall)
	if row.Kind != "pipe" && row.OutsideMM > 0 {
		g.likely, g.assumed = max(row.OutsideMM, g.pipe), !row.Own || b.borrowed(&row)
	}
	return g
}

// girthOfPart is the girth of a part in line: what the description measured before its row.
func (b *builder) girthOfPart(p *graph.Part) girth {
	fit := b.lay.Stage.Part(p.ID)
	g := b.girthOf(fit.Row.V, fit.Spec.V, fit.Size.V)
	if p.OutsideMM > 0 {
		g.likely, g.assumed = max(p.OutsideMM, g.pipe), false
	}
	return g
}

// socketOf is how deep the sockets of a part are.
func (b *builder) socketOf(p *graph.Part) float64 {
	fit := b.lay.Stage.Part(p.ID)
	if fit.Row.V.SocketMM > 0 {
		return fit.Row.V.SocketMM
	}
	return b.lay.Stage.Depth(fit.Spec.V, fit.Size.V)
}

// borrowed reports whether a row of the user's own has its outside from one of the
// catalogue's that it is laid over, which is as assumed as that.
func (b *builder) borrowed(row *catalog.Row) bool {
	for r := range catalog.Embedded().All() {
		if r.Kind == row.Kind && r.Size == row.Size && r.OutsideMM == row.OutsideMM {
			return true
		}
	}
	return false
}
