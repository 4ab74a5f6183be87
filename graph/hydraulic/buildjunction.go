package hydraulic

import (
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// addTee adds a tee: three legs that meet in a middle. Its loss goes by the split of its
// flow unless the description gives one: none, or one that its branch then has. A tee one of
// whose legs carries air, which is an error that stands beside the numbers, costs nothing.
func (b *builder) addTee(m *ModelPart) {
	p := m.Part
	m.Row = b.settled(p).LossRow.V
	m.middle = b.middleOf(p)
	for _, n := range m.nodes {
		m.Edges = append(m.Edges, b.edge(network.Edge{From: n, To: m.middle}))
	}
	run, branch := b.settled(p).Bore.V/1000, b.settled(p).BranchBore.V/1000
	m.BoreM = run
	if len(m.nodes) < 3 {
		return
	}
	if l := p.Loss; l != nil {
		m.Source = "described"
		if l.None {
			return
		}
		m.BoreM = branch
		if law := b.lossOf(m); law != nil {
			m.Law = law
			b.m.net.Edges[m.Edges[2]].Law = law
			b.note(l.Pos, graph.Note, graph.Say("the loss given for the tee %q counts for its branch; its run has none", p.ID), "leave it out to have both by the catalogue")
		}
		return
	}
	if run <= 0 {
		return
	}
	m.Source = "catalogue"
	m.Tee = laws.NewTeeLaw(run, branch)
	b.m.net.Joints = append(b.m.net.Joints, network.Joint{Edges: [3]int{m.Edges[0], m.Edges[1], m.Edges[2]}, Law: m.Tee})
}

// addHub adds a manifold or a diverter: ports that meet in a middle. A manifold's loss is
// that of its common port, which carries what the others share; a diverter's is that of each
// way, by how far it is open.
func (b *builder) addHub(m *ModelPart) {
	p := m.Part
	if len(m.ports) == 0 {
		return
	}
	common := b.commonPort(m)
	m.BoreM = b.boreAt(p, m.ports[common])
	for i := 0; m.BoreM <= 0 && i < len(m.ports); i++ {
		m.BoreM = b.boreAt(p, m.ports[i])
	}
	law := b.lossOf(m)
	m.middle = b.middleOf(p)
	m.ways, m.way0, m.turned = make([]*laws.PartLaw, len(m.ports)), make([]float64, len(m.ports)), make([]float64, len(m.ports))
	for i, n := range m.nodes {
		e := network.Edge{From: n, To: m.middle}
		m.turned[i] = 1
		if p.Kind == graph.DiverterValve {
			m.turned[i] = b.wayTurned(p, m.ports[i], i == common)
		}
		share := tables.OpenShare(m.Row.Opening, m.turned[i])
		if share <= 0 {
			m.Edges = append(m.Edges, -1)
			continue
		}
		if law != nil && (i == common) == (p.Kind == graph.Manifold) {
			own := *law
			m.way0[i] = own.Times
			m.ways[i], e.Law = &own, &own
		}
		m.Edges = append(m.Edges, b.edge(e))
	}
}

// wayTurned returns how far a diverter's way is open, of its turn.
func (b *builder) wayTurned(p *graph.Part, port string, common bool) float64 {
	open := 1.0
	if v := p.Valve; v != nil && !common {
		for _, w := range v.Ways {
			if w.Port == port {
				open = float64(w.Open)
			}
		}
	}
	if said, ok := b.m.Mode.Positions[p.ID]; ok && !common {
		open *= float64(said)
	}
	return open
}

// leastTurned is how far a way that is part open is taken to be open at least: a twentieth of
// its turn. Choice of this program, so that a way that lets water through never counts as shut.
const leastTurned = 0.05

// wayAt returns how far a way is open where its handle stands off by so much of its turn. What
// is fully open or shut stands at a stop, and is that.
func (m *ModelPart) wayAt(way int, off float64) float64 {
	at := m.turned[way]
	if at <= 0 || at >= 1 {
		return at
	}
	return min(max(at+off, min(at, leastTurned)), 1)
}

// PartTurned reports whether a diverter stands between two of its ways.
func (m *ModelPart) PartTurned() bool {
	for i, at := range m.turned {
		if m.ways[i] != nil && at > 0 && at < 1 {
			return true
		}
	}
	return false
}

// commonPort returns the place of the port that carries the whole flow: the only one the
// water comes by, or leaves by; where there is no such, the first named.
func (b *builder) commonPort(m *ModelPart) int {
	net := b.set.Net()
	coming, leaving := net.Coming(m.Part), net.Leaving(m.Part)
	var name string
	switch {
	case len(coming) == 1 && len(leaving) > 1:
		_, to := net.Ends(coming[0])
		name = to.Port
	case len(leaving) == 1 && len(coming) > 1:
		from, _ := net.Ends(leaving[0])
		name = from.Port
	}
	for i, port := range m.ports {
		if port == name {
			return i
		}
	}
	return 0
}
