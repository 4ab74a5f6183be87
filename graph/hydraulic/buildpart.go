package hydraulic

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
	"dryfit/graph/settle"
)

// offPumpK is the loss coefficient of a pump that stands and lets water pass, on the bore of
// its pipe. Common practice, no source: an impeller and a volute passed through.
const offPumpK = 5

// addPart adds what a part does to the water.
func (b *builder) addPart(i int) error {
	p := b.c.Parts[i]
	m := &b.m.Parts[i]
	*m = ModelPart{Part: p, Source: "none", times: 1, Set: b.settled(p), Density: b.m.Water.Density}
	m.Below, m.level = b.levels.Part(p)
	at, names := b.m.PartAt[p.ID], settle.PortsOf(p)
	m.ports = names
	if b.air[i] {
		m.ports = slices.DeleteFunc(slices.Clone(names), p.IsAir)
	}
	both := make([]int, 0, 2*len(m.ports)) // one piece of memory for the two lists
	for _, port := range m.ports {
		both = append(both, b.port(at, port))
	}
	m.meets = both[:len(m.ports):len(m.ports)]
	for _, n := range m.meets {
		both = append(both, b.endOf(p, n))
	}
	m.nodes = both[len(m.ports):]
	switch {
	case p.Kind.Lossless():
		return nil
	case p.Kind == graph.Tee:
		b.addTee(m)
	case p.Kind == graph.Manifold || p.Kind == graph.DiverterValve:
		b.addHub(m)
	case len(m.nodes) < 2:
		return nil
	case p.Kind == graph.Pump:
		return b.addPump(m)
	default:
		b.addInLine(m)
	}
	return nil
}

// settled returns what was settled of a part of the circuit.
func (b *builder) settled(p *graph.Part) *settle.Part { return b.set.Part(p.ID) }

// boreAt returns the bore of the pipe at a port in m, 0 where there is none.
func (b *builder) boreAt(p *graph.Part, port string) float64 {
	if r := b.runAt(p, port); r != nil && r.Edge >= 0 {
		return r.BoreM
	}
	return 0
}

// lossOf fills in a part's loss: described, else the catalogue's; nil where there is none.
func (b *builder) lossOf(m *ModelPart) *laws.PartLaw {
	m.Row = b.settled(m.Part).Loss.Row
	if l := m.Part.Loss; l != nil {
		m.Source = "described"
		if l.HasK && l.BoreMM <= 0 && m.BoreM <= 0 {
			b.note(l.Pos, graph.Warning, graph.Say("the k of %q has no bore to stand on: it counts as no loss", m.Part.ID), "give the loss a bore")
		}
		m.Given = GivenLoss
		law, falls := laws.DescribedLaw(l, m.BoreM, b.m.Water.Density, laws.ExponentOf(m.Row).Likely)
		if law != nil && law.Ref > 0 && l.Exponent == 0 {
			m.Power, m.exponent = true, law.Exponent
		}
		if falls {
			b.note(l.Pos, graph.Warning, graph.Say("the drop of %q falls as its flow rises: it is held level there", m.Part.ID), "look at the points of its loss again")
		}
		return law
	}
	law := laws.RowLaw(m.Row, m.BoreM, b.m.Water.Density)
	if law == nil {
		return nil
	}
	m.Source, m.Given = "catalogue", GivenRow
	if law.Ref > 0 {
		m.Power, m.exponent = true, law.Exponent
		b.sizeToLine(m, law)
	}
	return law
}

// addInLine adds a two-port part other than a pump.
func (b *builder) addInLine(m *ModelPart) {
	p := m.Part
	m.BoreM = b.settled(p).Bore.V / 1000
	var law *laws.PartLaw
	switch p.Kind {
	case graph.JetGroup:
		law = b.addJets(m)
	case graph.CheckValve:
		b.addCheck(m)
		return
	case graph.Reducer, graph.Transition:
		if p.Loss == nil {
			b.addReducer(m)
			return
		}
		law = b.lossOf(m)
	default:
		law = b.lossOf(m)
	}
	if p.Kind == graph.Filter && b.m.Mode.Dirty {
		m.times *= b.settled(p).Dirty.V
	}
	if p.Kind.IsHandValve() {
		law = b.setPosition(m, law)
	}
	if m.Shut {
		m.Edges = []int{-1}
		return
	}
	e := network.Edge{From: m.nodes[0], To: m.nodes[1]}
	if law != nil {
		m.Law, e.Law = law, law
	}
	m.Edges = []int{b.edge(e)}
}

// addJets sets up a group of jets, as many of them open as the mode says.
func (b *builder) addJets(m *ModelPart) *laws.PartLaw {
	p := m.Part
	m.apart = b.set.Net().Apart(p)
	if port, _ := b.set.Net().Inlet(p); port == graph.Out {
		m.backward = true
	}
	open := min(b.m.Mode.JetsOpen, 1)
	if open <= 0 {
		m.Shut = true
	} else {
		m.times = 1 / (open * open)
	}
	if p.Loss != nil {
		return b.lossOf(m)
	}
	m.Row = b.settled(p).Loss.Row
	data := p.Jets
	if data == nil {
		data = &graph.JetData{Count: 1}
	}
	return b.jetsOf(m, data)
}

// addCheck adds a check valve: it opens at its cracking pressure and passes water one way.
func (b *builder) addCheck(m *ModelPart) {
	p := m.Part
	open := b.lossOf(m)
	if open == nil {
		open = &laws.PartLaw{Times: 1}
	}
	crack := b.settled(p).Cracking
	if crack.How == settle.Assumed && !b.settled(p).IsSwing() {
		b.note(p.Pos, graph.Note, graph.Say("nothing says at what pressure %q opens: that of %s is assumed", p.ID, crack.Row),
			`give it cracking = "…", or the type of a spring`)
	}
	m.Crack = max(crack.V, 0) / (b.m.Water.Density * formula.Gravity)
	m.times, m.Swing = open.Times, b.settled(p).IsSwing()
	if m.Swing && m.BoreM > 0 {
		m.Hold = laws.HoldOpenVelocity * formula.Area(m.BoreM)
	}
	m.Check = &laws.CheckLaw{Open: *open}
	m.Edges = []int{b.edge(network.Edge{From: m.nodes[0], To: m.nodes[1], Law: m.Check, OneWay: true})}
}

// addReducer adds a change of section between the pipes at the part's two ports.
func (b *builder) addReducer(m *ModelPart) {
	m.Row = b.settled(m.Part).LossRow.V
	in, out := b.boreAt(m.Part, m.ports[0]), b.boreAt(m.Part, m.ports[1])
	ahead, back, bore := sectionK(in, out)
	m.BoreM = bore
	e := network.Edge{From: m.nodes[0], To: m.nodes[1]}
	if bore > 0 {
		m.Source = "catalogue"
		m.bend0 = [2]float64{laws.SquareOf(ahead+m.Row.K, bore), laws.SquareOf(back+m.Row.K, bore)}
		m.bend = &laws.RunLaw{}
		e.Law = m.bend
	}
	m.Edges = []int{b.edge(e)}
}
