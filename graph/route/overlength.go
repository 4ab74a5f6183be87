package route

import (
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// OverWords says how a piece over length is cut and when it is fitted; "" of every other.
func (p *Piece) OverWords() quantity.Text {
	if p.OverMM == 0 {
		return ""
	}
	return graph.Say("cut piece %d to %s: %s over its %s; fit it at joint %d, last", p.Number,
		quantity.Length.Of(p.SawMM()), quantity.Length.Of(p.OverMM), quantity.Length.Of(p.CutMM), p.FitJoint)
}

// ShortWords says of a piece that meets old pipe in slip couplings by how much it is cut short of its
// gap; "" of every other.
func (p *Piece) ShortWords() quantity.Text {
	short := 0.0
	for _, e := range []End{p.From, p.To} {
		short += e.ShortMM
	}
	if short == 0 {
		return ""
	}
	return graph.Say("cut %s short of the old pipe, so that it drops in; the slip coupling covers that", quantity.Length.Of(short))
}

// overLength chooses, for each loop that may miss itself by more than its last joint gives,
// the piece that is cut over length and fitted when all else stands: one beside the joint that
// closes the loop where there is one, else the longest, along the way that joint goes in, and
// such that with what is left on it comes out of a bar. That can be done where the part that
// closes the loop has a body that comes out: past the tails of a plain union nothing goes in.
func (o *sequence) overLength() {
	for i := range o.closings {
		c := &o.closings[i]
		if c.how != "union" || !o.comesOut(o.bodies.links[c.link].Part) {
			continue
		}
		t := o.lay.loopTolerance(o.loop(*c))
		if !t.unsure() {
			continue
		}
		best, bestBeside := -1, false
		for _, k := range t.Loop.Pieces {
			p := &o.lay.Pieces[k]
			if p.OverMM > 0 || !o.fitsBar(p, quantity.AddsUp(p.CutMM, t.LeaveMM)) || !o.alongClosing(c, p) {
				continue
			}
			beside := o.beside(c, k)
			if best < 0 || beside && !bestBeside || beside == bestBeside && p.CutMM > o.lay.Pieces[best].CutMM {
				best, bestBeside = k, beside
			}
		}
		if best >= 0 {
			c.fit, o.lay.Pieces[best].OverMM = best, quantity.AddsUp(o.lay.Pieces[best].CutMM, t.LeaveMM)
		}
	}
}

// comesOut reports whether the body of a part comes out between two nuts of its own.
func (o *sequence) comesOut(part string) bool {
	nuts := 0
	for k := range o.bodies.links {
		if n := &o.bodies.links[k]; n.Open && n.Part == part {
			nuts++
		}
	}
	return nuts > 1
}

// alongClosing reports whether a piece lies along the way the closing joint goes in, where both
// are known.
func (o *sequence) alongClosing(c *closing, p *Piece) bool {
	axis, way := o.bodies.links[c.link].Into, p.Finish.Sub(p.Start).Unit()
	return !p.Spec.Flexible() && (axis == (graph.Vec{}) || way == (graph.Vec{}) || math.Abs(axis.Dot(way)) > 0.999)
}

// beside reports whether a piece goes into one of the two things that the closing joint joins.
func (o *sequence) beside(c *closing, piece int) bool {
	n := &o.bodies.links[c.link]
	for k := range o.bodies.links {
		m := &o.bodies.links[k]
		if m.Piece == piece && (m.A == n.A || m.A == n.B || m.B == n.A || m.B == n.B) {
			return true
		}
	}
	return false
}

// fitsBar reports whether a piece left so much longer still is shorter than the longest bar.
func (o *sequence) fitsBar(p *Piece, over float64) bool {
	path := o.lay.Path(p.Run.ID)
	if path == nil {
		return false
	}
	longest := LongestBar(o.lay.Circuit, p.Spec, p.Size, path.Pipe)
	return longest == 0 || p.CutMM+over < longest
}

// LongestBar is the longest bar of a pipe: of the description's stock, else of its row; 0 where
// neither says.
func LongestBar(c *graph.Circuit, spec catalog.Spec, size catalog.Size, row catalog.Row) float64 {
	longest, bought := 0.0, false
	for _, s := range c.Stock {
		if s.Spec == spec && s.Size == size {
			longest = max(longest, s.LengthMM)
			bought = bought || !s.Offcut
		}
	}
	if bought {
		return longest
	}
	for _, mm := range row.StockMM {
		longest = max(longest, mm)
	}
	return longest
}

// fitLate puts the joints of the piece that is fitted last to the joint that closes the loop,
// before it; the nuts of the part that opens come after it, so that its body is out of the way.
func (o *sequence) fitLate(c closing, rank int, phase Phase) {
	if c.fit < 0 {
		return
	}
	b := o.bodies
	for k := range b.links {
		n := &b.links[k]
		if n.Piece == c.fit || b.links[c.link].Open && n.Open && n.Part == b.links[c.link].Part {
			o.late[k], o.phase[k] = rank, phase
		}
	}
}

// fitAt tells each piece over length the joint it is fitted at: the later of its own.
func (o *sequence) fitAt() {
	for i := range o.lay.Pieces {
		if p := &o.lay.Pieces[i]; p.OverMM > 0 {
			p.FitJoint = max(p.From.Joint, p.To.Joint)
		}
	}
}
