package members

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/isometric/space"
	"dryfit/render/tag"
)

// Member is one straight line of the drawing: a leg of a run, or several that go straight on, for the pipe
// knows nothing of how its length was written; or the body of a part that stands in line.
type Member struct {
	A, B       graph.Vec      // real, mm
	Run        *graph.Run     // nil: a body
	Path       int            // index into Layout.Paths
	Leg, Last  int            // from point Leg to Last+1 of the path
	Part       *graph.Part    // of a body: a is its inlet
	Pieces     []*route.Piece // to cut
	IsNew      bool
	Against    bool   // water flows from b to a
	NoFlow     bool   // no water flows, or nobody knows which way
	CutA, CutB string // letter of a match line the end stands at
	Stub       bool   // of old work: stands for what goes on
}

// Way is the way the member runs.
func (m *Member) Way() graph.Vec { return m.B.Sub(m.A) }

// Members returns what is drawn: all new work whose place is known, and of the old what it
// joins; where nothing is new, all that is there.
func (d *Drawing) Members() []Member {
	var out []Member
	drawn := map[string]bool{} // parts met by drawn pipe
	take := func(i int) {
		p := &d.Lay.Paths[i]
		for _, m := range d.Legs(i) {
			if !d.Shows(p, m.Leg) && !d.Shows(p, m.Last) {
				continue
			}
			out = append(out, m)
			drawn[p.Run.From.Part] = drawn[p.Run.From.Part] || m.Leg == 0
			drawn[p.Run.To.Part] = drawn[p.Run.To.Part] || m.Last == len(p.Points)-2
		}
	}
	d.OldAll = d.In.Gone != nil || !slices.ContainsFunc(d.Lay.Paths, func(p route.Path) bool { return p.Run.New() && Located(&p) })
	for _, isNew := range []bool{true, false} {
		for i := range d.Lay.Paths {
			if p := &d.Lay.Paths[i]; p.Run.New() == isNew && d.Draws(p) {
				take(i)
			}
		}
	}
	for _, p := range d.C.Parts {
		if !drawn[p.ID] {
			continue
		}
		if m, ok := d.Body(p); ok {
			out = append(out, m)
		}
	}
	return out
}

// Located reports whether a path has its place in space.
func Located(p *route.Path) bool { return p.Located && len(p.Points) > 1 }

// Draws reports whether the pipe of a run is drawn: what is new and what it joins; where
// nothing is new, all; of what is taken out that and what it joins.
func (d *Drawing) Draws(p *route.Path) bool {
	switch {
	case !Located(p):
		return false
	case d.In.Gone != nil:
		return d.besideGone(p.Run)
	}
	return d.OldAll || p.Run.New() || d.besideNew(p.Run)
}

// Of old pipe that new work joins only so many legs from there are drawn, where it has more than mostOldLegs:
// what lies farther off nobody touches.
const (
	oldLegs     = 3
	mostOldLegs = 5
)

// Shows reports whether a leg of a path that is drawn is drawn itself.
func (d *Drawing) Shows(p *route.Path, leg int) bool {
	last := len(p.Points) - 2
	if d.OldAll || d.In.Gone != nil || p.Run.New() || last < mostOldLegs {
		return true
	}
	isNew := func(id string) bool { return d.Parts[id] != nil && d.Parts[id].New() }
	return leg < oldLegs && isNew(p.Run.From.Part) || last-leg < oldLegs && isNew(p.Run.To.Part)
}

// besideGone reports whether a run is taken out, or ends at a part that is or that a run
// taken out ends at.
func (d *Drawing) besideGone(r *graph.Run) bool {
	g := d.In.Gone
	if g.Runs[r.ID] || g.Parts[r.From.Part] || g.Parts[r.To.Part] {
		return true
	}
	for _, o := range d.C.Runs {
		if g.Runs[o.ID] && (o.From.Part == r.From.Part || o.From.Part == r.To.Part || o.To.Part == r.From.Part || o.To.Part == r.To.Part) {
			return true
		}
	}
	return false
}

// besideNew reports whether an old run ends at a new part.
func (d *Drawing) besideNew(r *graph.Run) bool {
	for _, e := range []string{r.From.Part, r.To.Part} {
		if p := d.Parts[e]; p != nil && p.New() {
			return true
		}
	}
	return false
}

// Legs are the members of one path.
func (d *Drawing) Legs(i int) []Member {
	p := &d.Lay.Paths[i]
	var out []Member
	for k := 0; k+1 < len(p.Points); k++ {
		m := Member{A: p.Points[k], B: p.Points[k+1], Run: p.Run, Path: i, Leg: k, Last: k, IsNew: p.Run.New(),
			Against: d.Net.Against(p.Run), NoFlow: !d.Net.Flows(p.Run)}
		if m.Way().Len() < space.SameLevel {
			continue
		}
		for _, n := range p.Pieces {
			if d.Lay.Pieces[n].OnLeg(k + 1) {
				m.Pieces = append(m.Pieces, &d.Lay.Pieces[n])
			}
		}
		if n := len(out) - 1; n >= 0 && out[n].goesOnAs(&m, p) {
			out[n].B, out[n].Last = m.B, m.Last
			for _, piece := range m.Pieces {
				if !slices.Contains(out[n].Pieces, piece) { // hose lies on all its legs
					out[n].Pieces = append(out[n].Pieces, piece)
				}
			}
			continue
		}
		out = append(out, m)
	}
	return out
}

// goesOnAs reports whether the leg behind a member goes straight on from it, with nothing between them.
func (m *Member) goesOnAs(next *Member, p *route.Path) bool {
	const same = 1e-9 // of the cosine between them
	return m.Last+1 == next.Leg && m.Way().Unit().Dot(next.Way().Unit()) > 1-same &&
		!slices.ContainsFunc(p.Fittings, func(f route.Fitting) bool { return f.Point == next.Leg })
}

// Body is the member a part in line takes up between its two ports.
func (d *Drawing) Body(p *graph.Part) (Member, bool) {
	if !InLine(p.Kind) {
		return Member{}, false
	}
	a, okA := d.Lay.Positions[p.ID+"."+graph.In]
	b, okB := d.Lay.Positions[p.ID+"."+graph.Out]
	m := Member{A: a, B: b, Part: p, Path: -1, IsNew: p.New(), NoFlow: true}
	if !okA || !okB || m.Way().Len() < space.SameLevel {
		return Member{}, false
	}
	return m, true
}

// Halves parts a member in two at a match line.
func (m *Member) Halves(at graph.Vec, name string) (a, b Member) {
	a, b = *m, *m
	a.B, a.CutB = at, name
	b.A, b.CutA = at, name
	a.Pieces, b.Pieces = a.along(), b.along()
	return a, b
}

// along are the pieces of a member that lie on it: not those at an end that is cut off.
func (m *Member) along() []*route.Piece {
	var out []*route.Piece
	length := m.Way().Len()
	for _, p := range m.Pieces {
		from, to := p.Start.Sub(m.A).Dot(m.Way().Unit()), p.Finish.Sub(m.A).Dot(m.Way().Unit())
		if p.Spec.Flexible() || max(from, to) > 0 && min(from, to) < length {
			out = append(out, p)
		}
	}
	return out
}

// InLine reports whether a part stands in its pipe's line and is drawn by its sign there.
func InLine(k graph.Kind) bool {
	switch k {
	case graph.Pump, graph.Filter, graph.HeatPump, graph.Suction, graph.JetGroup:
		return false
	}
	return k.TwoPort()
}

// SpaceOf works out the display of the members. scale stretches the pipe; grow widens
// single gaps of single axes.
func (d *Drawing) SpaceOf(ms []Member, scale float64, grow [3]map[int]float64) *space.Space {
	return d.displayOf(ms, scale).grown(grow)
}

// display is how far apart the levels of some members are drawn at a scale, no gap widened.
type display struct {
	levels space.Space
	gaps   [3][]float64
	slants []slant
}

// displayOf works out how far apart the members ask to be drawn.
func (d *Drawing) displayOf(ms []Member, scale float64) *display {
	want := make([]float64, len(ms))
	for i := range ms {
		want[i] = d.want(&ms[i], scale)
	}
	var out display
	for a := space.Axis(0); a < 3; a++ {
		vals := make([]float64, 0, 2*len(ms))
		for i := range ms {
			vals = append(vals, a.Of(ms[i].A), a.Of(ms[i].B))
		}
		l := space.NewLevels(vals)
		var spans []space.Span
		for i := range ms {
			m := &ms[i]
			if math.Abs(a.Of(m.Way())) < space.SameLevel {
				continue
			}
			spans = append(spans, space.Span{From: l.Index(a.Of(m.A)), To: l.Index(a.Of(m.B)), Want: want[i]})
		}
		out.levels[a], out.gaps[a] = l, l.Gaps(spans, scale)
	}
	out.slants = slantsOf(ms, &out.levels)
	return &out
}

// grown is the display with single gaps of single axes widened.
func (o *display) grown(grow [3]map[int]float64) *space.Space {
	var s space.Space
	gaps := o.gaps
	if len(o.slants) > 0 {
		for a := range gaps {
			gaps[a] = space.Grown(gaps[a], grow[a])
			grow[a] = nil
		}
		straighten(gaps, &o.levels, o.slants)
	}
	for a := range s {
		s[a] = o.levels[a].Spread(gaps[a], grow[a])
	}
	return &s
}

// ReachesNew reports whether an old leg ends at a new part.
func (d *Drawing) ReachesNew(m *Member) bool {
	n := len(d.Lay.Paths[m.Path].Points)
	from, to := d.Parts[m.Run.From.Part], d.Parts[m.Run.To.Part]
	return (m.Leg == 0 && from != nil && from.New()) || (m.Last == n-2 && to != nil && to.New())
}

// Turned reports whether the water goes through a two-port part from out to in.
func (d *Drawing) Turned(p *graph.Part) bool {
	port, r := d.Net.Inlet(p)
	return r != nil && port == graph.Out
}

// UnitPort is the port of a unit at the end of a leg, in words: "inlet"; "" where none is there.
func (d *Drawing) UnitPort(m *Member, far bool) string {
	ref, there := m.Run.From, m.Leg == 0
	if far {
		ref, there = m.Run.To, m.Last == len(d.Lay.Paths[m.Path].Points)-2
	}
	if part := d.Parts[ref.Part]; there && part != nil && part.Kind == graph.HeatPump {
		return tag.PortWord(ref.Port)
	}
	return ""
}
