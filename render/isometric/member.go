package isometric

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/route"
)

// member is one straight line of the drawing: a leg of a run, or the body of a part that
// stands in line.
type member struct {
	a, b       graph.Vec      // real, mm
	run        *graph.Run     // nil: a body
	path       int            // index into Layout.Paths
	leg        int            // from point leg to leg+1 of the path
	part       *graph.Part    // of a body: a is its inlet
	pieces     []*route.Piece // to cut
	isNew      bool
	against    bool   // water flows from b to a
	noFlow     bool   // no water flows, or nobody knows which way
	cutA, cutB string // letter of a match line the end stands at
	stub       bool   // of old work: stands for what goes on
}

func (m *member) way() graph.Vec { return m.b.Sub(m.a) }

// members returns what is drawn: all new work whose place is known, and of the old what it
// joins; where nothing is new, all that is there.
func (d *drawing) members() []member {
	var out []member
	drawn := map[string]bool{} // parts met by drawn pipe
	take := func(i int) {
		p := &d.lay.Paths[i]
		out = append(out, d.legs(i)...)
		drawn[p.Run.From.Part], drawn[p.Run.To.Part] = true, true
	}
	d.oldAll = d.in.Gone != nil || !slices.ContainsFunc(d.lay.Paths, func(p route.Path) bool { return p.Run.New() && located(&p) })
	for _, isNew := range []bool{true, false} {
		for i := range d.lay.Paths {
			if p := &d.lay.Paths[i]; p.Run.New() == isNew && d.draws(p) {
				take(i)
			}
		}
	}
	for _, p := range d.c.Parts {
		if !drawn[p.ID] {
			continue
		}
		if m, ok := d.body(p); ok {
			out = append(out, m)
		}
	}
	return out
}

func located(p *route.Path) bool { return p.Located && len(p.Points) > 1 }

// draws reports whether the pipe of a run is drawn: what is new and what it joins; where
// nothing is new, all; of what is taken out that and what it joins.
func (d *drawing) draws(p *route.Path) bool {
	switch {
	case !located(p):
		return false
	case d.in.Gone != nil:
		return d.besideGone(p.Run)
	}
	return d.oldAll || p.Run.New() || d.besideNew(p.Run)
}

// besideGone reports whether a run is taken out, or ends at a part that is or that a run
// taken out ends at.
func (d *drawing) besideGone(r *graph.Run) bool {
	g := d.in.Gone
	if g.Runs[r.ID] || g.Parts[r.From.Part] || g.Parts[r.To.Part] {
		return true
	}
	for _, o := range d.c.Runs {
		if g.Runs[o.ID] && (o.From.Part == r.From.Part || o.From.Part == r.To.Part || o.To.Part == r.From.Part || o.To.Part == r.To.Part) {
			return true
		}
	}
	return false
}

// besideNew reports whether an old run ends at a new part.
func (d *drawing) besideNew(r *graph.Run) bool {
	for _, e := range []string{r.From.Part, r.To.Part} {
		if p := d.parts[e]; p != nil && p.New() {
			return true
		}
	}
	return false
}

// legs are the members of one path.
func (d *drawing) legs(i int) []member {
	p := &d.lay.Paths[i]
	var out []member
	for k := 0; k+1 < len(p.Points); k++ {
		m := member{a: p.Points[k], b: p.Points[k+1], run: p.Run, path: i, leg: k, isNew: p.Run.New(),
			against: d.net.Against(p.Run), noFlow: !d.net.Flows(p.Run)}
		if m.way().Len() < sameLevel {
			continue
		}
		for _, n := range p.Pieces {
			if d.lay.Pieces[n].Leg == k+1 {
				m.pieces = append(m.pieces, &d.lay.Pieces[n])
			}
		}
		out = append(out, m)
	}
	return out
}

// body is the member a part in line takes up between its two ports.
func (d *drawing) body(p *graph.Part) (member, bool) {
	if !inLine(p.Kind) {
		return member{}, false
	}
	a, okA := d.lay.Places[p.ID+"."+graph.In]
	b, okB := d.lay.Places[p.ID+"."+graph.Out]
	m := member{a: a, b: b, part: p, path: -1, isNew: p.New(), noFlow: true}
	if !okA || !okB || m.way().Len() < sameLevel {
		return member{}, false
	}
	return m, true
}

// inLine reports whether a part stands in its pipe's line and is drawn by its sign there.
func inLine(k graph.Kind) bool {
	switch k {
	case graph.Pump, graph.Filter, graph.HeatPump, graph.Suction, graph.JetGroup:
		return false
	}
	return k.TwoPort()
}

// spaceOf works out the display of the members. scale stretches the pipe; grow widens
// single gaps of single axes.
func (d *drawing) spaceOf(ms []member, scale float64, grow [3]map[int]float64) *space {
	var s space
	for a := axis(0); a < 3; a++ {
		var vals []float64
		for i := range ms {
			vals = append(vals, a.of(ms[i].a), a.of(ms[i].b))
		}
		s[a] = newLevels(vals)
		var spans []span
		for i := range ms {
			m := &ms[i]
			if math.Abs(a.of(m.way())) < sameLevel {
				continue
			}
			spans = append(spans, span{s[a].index(a.of(m.a)), s[a].index(a.of(m.b)), d.want(m, scale)})
		}
		s[a].spread(spans, scale, grow[a])
	}
	return &s
}
