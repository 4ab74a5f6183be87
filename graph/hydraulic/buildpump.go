package hydraulic

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// RunningPump is what a running pump tells beside its head.
type RunningPump struct {
	Curve      *laws.PumpCurve
	power      float64 // W, electric; 0: not given
	efficiency float64 // wire to water; 0: not given
	ByRatio    bool    // the curve is another's by the ratio of the speeds
}

// addPump adds a pump: running, by the curve of its speed and with no water going back; or
// standing.
func (b *builder) addPump(m *ModelPart) error {
	p := m.Part
	m.Row = b.settled(p).LossRow.V
	m.BoreM = b.settled(p).Bore.V / 1000
	m.apart = b.set.Net().Apart(p)
	name, on := b.m.Mode.Speeds[p.ID]
	if !on {
		b.addOffPump(m)
		return nil
	}
	rise, err := b.speed(m, name)
	if err != nil {
		return err
	}
	m.Rise, m.Speed, m.Source = rise, name, "described"
	if !p.Pump.Described() {
		m.Source = "catalogue"
	}
	if q := rise.Curve.First(); q > 0 {
		b.note(p.Pos, graph.Note, graph.Say("the curve of %q at %q starts at %s: below that it is taken as a parabola that starts level", p.ID, name, quantity.Flow.Of(q)),
			"give the head at no flow, the shut-off head")
	}
	m.Pump = &laws.PumpLaw{Curve: rise.Curve, Times: 1, Wide: 1}
	e := network.Edge{From: m.nodes[0], To: m.nodes[1], Law: m.Pump, OneWay: true, Start: 0.6 * rise.Curve.Last()}
	if rise.Curve.Rises() {
		rising := &laws.RisingPump{PumpLaw: *m.Pump}
		m.Pump, e.Law = &rising.PumpLaw, rising
	}
	m.Edges = []int{b.edge(e)}
	return nil
}

// addOffPump adds a pump that stands: shut against the flow by a check of its own, else
// passed through either way.
func (b *builder) addOffPump(m *ModelPart) {
	p := m.Part
	m.Off = true
	bore := m.BoreM
	k := m.Row.K
	if k > 0 {
		m.Source = "catalogue"
	} else {
		k, m.Source = offPumpK, "assumed"
	}
	law := &laws.PartLaw{Times: 1}
	if p.Loss != nil {
		if own := b.lossOf(m); own != nil {
			law = own
		}
	} else if bore > 0 {
		law.Square = laws.SquareOf(k, bore)
	}
	if p.Pump != nil && p.Pump.Check != "" {
		m.times = law.Times
		m.Check = &laws.CheckLaw{Open: *law}
		m.Edges = []int{b.edge(network.Edge{From: m.nodes[0], To: m.nodes[1], Law: m.Check, OneWay: true})}
		return
	}
	m.Law, m.times = law, law.Times
	m.Edges = []int{b.edge(network.Edge{From: m.nodes[0], To: m.nodes[1], Law: law})}
}

// speed returns the curve and power of a pump's speed, as they were settled.
func (b *builder) speed(m *ModelPart, name string) (RunningPump, error) {
	p, set := m.Part, b.settled(m.Part)
	speeds := set.Speeds.V
	at := slices.IndexFunc(speeds, func(s graph.Speed) bool { return s.Name == name })
	if at < 0 {
		return RunningPump{}, &InputError{ID: p.ID, Why: fmt.Sprintf("has no speed %q", name)}
	}
	s := speeds[at]
	out := RunningPump{power: s.PowerW, efficiency: s.Efficiency, ByRatio: s.Ratio > 0}
	if base := graph.BaseSpeed(speeds); len(s.Curve) == 0 && base >= 0 && out.power == 0 && out.efficiency == 0 {
		out.efficiency = speeds[base].Efficiency
		if speeds[base].PowerW > 0 {
			out.power = set.PowerAt(name).V
		}
	}
	curve, err := laws.SpeedCurve(speeds, at, b.m.Water.Density)
	switch {
	case err != nil:
		return out, &InputError{ID: p.ID, Why: fmt.Sprintf("at %q: %v", name, err)}
	case curve == nil:
		return out, &InputError{ID: p.ID, Why: fmt.Sprintf("has no curve for %q", name)}
	}
	out.Curve = curve
	return out, nil
}
