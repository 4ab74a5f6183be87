package pipework

import (
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// sameSpotMM is how near two places are one and the same, mm. Common practice, no source: a
// tape reads no closer.
const sameSpotMM = 1

// contradictions finds what the places of a part's ports and its length say against each
// other, each at its own line.
func contradictions(r *field.Reader, p *graph.Part) {
	if len(p.Ports) == 0 {
		return
	}
	first := &p.Ports[0]
	if first.At != nil && first.At.Len() > sameSpotMM {
		r.Add(first.Pos, "leave out at: it is nothing for that port; count the others from it",
			"the places of %s are counted from its port %s, and that is given one of its own, %s from itself", located.Said(p.ID), located.Said(first.Name), quantity.Closely(first.At.Len()))
	}
	portsApart(r, p)
	lengthAgrees(r, p)
	boxBehindPorts(r, p, graph.Vec{})
}

// portsApart finds two ports of a part in one place.
func portsApart(r *field.Reader, p *graph.Part) {
	if p.Kind == graph.Tee {
		return
	}
	for j := range p.Ports {
		at, ok := p.PortAt(j)
		if !ok || p.Ports[j].At == nil {
			continue
		}
		for i := range j {
			if other, ok := p.PortAt(i); ok && other.Sub(at).Len() < sameSpotMM {
				d := r.Add(p.Ports[j].Pos, "measure from the middle of one to the middle of the other and write it, such as at = [\"right 110 mm\", \"up 150 mm\"]",
					"the ports %s and %s of %s stand in one place", located.Said(p.Ports[i].Name), located.Said(p.Ports[j].Name), located.Said(p.ID))
				located.Related(d, p.Pos, "the part is here")
				return
			}
		}
	}
}

// roomForBothPipes finds a unit whose two ports, side by side on one face, stand nearer to each
// other than the pipe at one of them is wide, or one behind the other the way both look.
func roomForBothPipes(r *field.Reader, p *graph.Part) {
	in, out := p.Port(graph.In), p.Port(graph.Out)
	by, ok := p.Through()
	if p.Unit == nil || !ok || in.Faces != nil && out.Faces != nil && *in.Faces != *out.Faces {
		return
	}
	size := leastAtUnit(r, p)
	wide := size.NominalMM()
	if pipe, ok := r.Catalog.Pipe(catalog.PVCSch40, size); ok { // 1 in pipe is 33.4 mm outside (ASTM D1785)
		wide = pipe.OutsideMM
	}
	if by.Len() >= sameSpotMM && by.Len() < wide {
		d := r.Add(out.Pos, "measure from the middle of its inlet to that of its outlet",
			"the ports of %s stand %s apart, and pipe of %s is %s wide: no two pipes fit there", located.Said(p.ID), quantity.Closely(by.Len()), size, quantity.Closely(wide))
		located.Related(d, p.Pos, "the part is here")
		return
	}
	face := facesOf(r, p)
	if aside := by.Across(face); face.Len() > 0 && by.Len() >= sameSpotMM && aside.Len() < wide {
		d := r.Add(out.Pos, "measure from the middle of its inlet to that of its outlet, in directions of a person who faces the open cabinet; or mend the way the ports look",
			"both ports of %s look %s, and one stands %s behind the other that way: the pipe of the one would run through the other", located.Said(p.ID), graph.WayWords(face), quantity.Closely(math.Abs(by.Dot(face))))
		located.Related(d, p.Pos, "the part is here")
	}
}

// facesOf is the way both ports of a unit look: as it says, else as [retrofit] does; zero where
// nobody says it, or they look different ways.
func facesOf(r *field.Reader, p *graph.Part) graph.Vec {
	var asked graph.Vec
	if t := r.Circuit.Retrofit; t != nil && t.Unit == p.ID && t.Stand != nil {
		asked = t.Stand.PortsFace
	}
	way := func(q *graph.Port) graph.Vec {
		if q.Faces != nil {
			return *q.Faces
		}
		return asked
	}
	in, out := way(p.Port(graph.In)), way(p.Port(graph.Out))
	if in.Len() == 0 || in != out {
		return graph.Vec{}
	}
	return in.Unit()
}

// leastAtUnit is the size of a unit's ports, or where nobody says it the least that the pipes to
// it can be: that of those drawn, that asked for, or what is taken without being asked and no
// more than the pipe that is cut.
func leastAtUnit(r *field.Reader, p *graph.Part) catalog.Size {
	row, _ := r.Catalog.Row(p.Type)
	for _, size := range []catalog.Size{p.Unit.PortsSize, p.Size, row.Size} {
		if !size.IsZero() {
			return size
		}
	}
	var drawn, old catalog.Size
	less := func(a, b catalog.Size) catalog.Size {
		if b.IsZero() || !a.IsZero() && a.NominalMM() <= b.NominalMM() {
			return a
		}
		return b
	}
	for _, run := range r.Circuit.Runs {
		if run.From.Part == p.ID || run.To.Part == p.ID {
			drawn = less(drawn, run.Size)
		} else {
			old = less(old, run.Size)
		}
	}
	family := catalog.Inch
	if old.Metric {
		family = catalog.Metric
	}
	switch asked := r.Circuit.Retrofit; {
	case !drawn.IsZero():
		return drawn
	case asked != nil && !asked.Size.IsZero():
		return asked.Size
	}
	return less(old, catalog.UsualBranch(family))
}

// machinePortsApart finds a machine whose inlet and outlet stand nearer to each other than the
// pipe that is joined to them is wide: a mistyped number, for no case is that short.
func machinePortsApart(r *field.Reader) {
	wide := map[string]catalog.Size{}
	for _, run := range r.Circuit.Runs {
		for _, ref := range []graph.PortRef{run.From, run.To} {
			if was, ok := wide[ref.Part]; !ok || run.Size.NominalMM() < was.NominalMM() {
				wide[ref.Part] = run.Size
			}
		}
	}
	for _, p := range r.Circuit.Parts {
		roomForBothPipes(r, p)
		switch p.Kind {
		case graph.Pump, graph.Filter, graph.ElementHeater, graph.HeatExchanger:
		default:
			continue
		}
		in, out := p.Port(graph.In), p.Port(graph.Out)
		if in == nil || out == nil {
			continue
		}
		apart, pos := p.LengthMM, p.KeyPos["length"]
		if by, ok := p.Through(); ok {
			apart, pos = by.Len(), out.Pos
		}
		if size := wide[p.ID]; apart > 0 && apart < size.NominalMM() && (out.At == nil || apart >= sameSpotMM) {
			d := r.Add(pos, "measure from its inlet to its outlet; leave it out where nobody did",
				"the inlet and the outlet of %s stand %s apart, and its pipe is %s: no %s is that short", located.Said(p.ID), quantity.Closely(apart), size, string(p.Kind))
			located.Related(d, p.Pos, "the part is here")
		}
	}
}

// lengthAgrees finds a part with a length of its own and an outlet somewhere else.
func lengthAgrees(r *field.Reader, p *graph.Part) {
	by, ok := p.Through()
	if !p.OwnLength() || !ok {
		return
	}
	if math.Abs(by.Len()-p.LengthMM) <= sameSpotMM {
		return
	}
	d := r.Add(p.Port(graph.Out).Pos, "keep what was measured and leave the other out", "%s is %s long, and its outlet stands %s from its inlet", located.Said(p.ID), quantity.Closely(p.LengthMM), quantity.Closely(by.Len()))
	located.Related(d, p.KeyPos["length"], "the length is here")
}
