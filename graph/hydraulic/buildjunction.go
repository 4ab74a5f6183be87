package hydraulic

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// addTee adds a tee: three legs that meet in a middle. Its loss goes by the split of its
// flow unless the description gives one: none, or one that its branch then has.
func (b *builder) addTee(m *ModelPart) {
	p := m.Part
	m.Row = b.settled(p).LossRow.V
	middle := b.node(p.ID + ".")
	for _, n := range m.nodes {
		m.Edges = append(m.Edges, b.edge(network.Edge{From: n, To: middle}))
	}
	run, branch := b.settled(p).Bore.V/1000, b.settled(p).BranchBore.V/1000
	m.BoreM = run
	if l := p.Loss; l != nil {
		m.Source = "described"
		if l.None {
			return
		}
		m.BoreM = branch
		if law := b.lossOf(m); law != nil {
			m.Law = law
			b.m.net.Edges[m.Edges[2]].Law = law
			b.note(l.Pos, graph.Note, graph.Say("the loss given for the tee %q counts for its branch; its run has none", p.ID), "")
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
	middle := b.node(p.ID + ".")
	m.ways, m.way0 = make([]*laws.PartLaw, len(m.ports)), make([]float64, len(m.ports))
	for i, n := range m.nodes {
		e := network.Edge{From: n, To: middle}
		share := 1.0
		if p.Kind == graph.DiverterValve {
			share = b.wayOpen(m, m.ports[i], i == common)
		}
		if share <= 0 {
			m.Edges = append(m.Edges, -1)
			continue
		}
		if law != nil && (i == common) == (p.Kind == graph.Manifold) {
			own := *law
			m.way0[i] = own.Times / (share * share)
			m.ways[i], e.Law = &own, &own
		}
		m.Edges = append(m.Edges, b.edge(e))
	}
}

// wayOpen returns the share of its Kv a diverter's way keeps.
func (b *builder) wayOpen(m *ModelPart, port string, common bool) float64 {
	open := 1.0
	if v := m.Part.Valve; v != nil && !common {
		for _, w := range v.Ways {
			if w.Port == port {
				open = float64(w.Open)
			}
		}
	}
	if said, ok := b.m.Mode.Positions[m.Part.ID]; ok && !common {
		open *= float64(said)
	}
	return openShare(m.Row.Opening, open)
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
