package hydraulic

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/network"
)

// report turns the flows of the network into those of parts and runs.
func (m *Model) report(f *network.Flow) *Solution {
	v := m.view(f, nil)
	v.fill()
	v.s.Notes = append([]graph.Diagnostic(nil), m.Notes...)
	v.suction()
	v.notes()
	return v.s
}

// brief is a report of what a sample keeps and nothing else: flows and drops, and what pumps
// make. It is written into one of this model that is no longer wanted, if there is one.
func (m *Model) brief(f *network.Flow, into *Solution) *Solution {
	v := m.view(f, into)
	v.brief = true
	v.fill()
	return v.s
}

func (m *Model) view(f *network.Flow, s *Solution) *view {
	if s == nil {
		s = &Solution{Mode: m.Mode, Stage: m.Stage, Water: m.Water, Parts: make([]PartFlow, len(m.Parts)), Runs: make([]RunFlow, len(m.Runs))}
	}
	s.Residual, s.EnergyError, s.Iterations = f.Residual, f.EnergyError, f.Iterations
	return &view{m: m, f: f, s: s, pa: m.Water.Density * formula.Gravity, into: make([]float64, m.ports)}
}

func (v *view) fill() {
	for i := range v.m.Runs {
		v.run(i)
	}
	for i := range v.m.Parts {
		v.part(i)
	}
}

// view is what the report reads.
type view struct {
	m    *Model
	f    *network.Flow
	s    *Solution
	pa   float64   // Pa of a metre of the water
	into []float64 // flow out of the runs' ends at a port, by ModelRun.ends and ModelPart.meets

	brief bool // flows and drops, and what pumps make
}

func (v *view) run(i int) {
	m := &v.m.Runs[i]
	out := &v.s.Runs[i]
	*out = RunFlow{Run: m.Run, BoreMM: m.BoreM * 1000}
	if m.Edge < 0 {
		return
	}
	q := v.f.Q[m.Edge]
	out.Flow = q
	out.Drop = v.pa * v.f.Loss[m.Edge]
	v.into[m.ends[0]] -= q
	v.into[m.ends[1]] += q
	if v.brief {
		return
	}
	if m.bare {
		out.Bare, out.BoreMM = true, 0
		return
	}
	out.Velocity = math.Abs(q) / formula.Area(m.BoreM)
	pipe, _ := m.Law.PipeLoss(q)
	out.PipeDrop = v.pa * pipe
	if m.LengthM > 0 {
		out.Reynolds = math.Abs(q) * m.Law.Reynolds
		if out.Reynolds > 0 {
			out.Friction, _ = m.Law.Pipe.Friction(out.Reynolds)
		}
	}
	e := v.m.net.Edges[m.Edge]
	if v.f.Known[e.From] {
		head, known := v.highest(i, v.f.Head[e.From], v.f.Head[e.To])
		out.StaticPa, out.LevelKnown = v.pa*(head-out.Velocity*out.Velocity/(2*formula.Gravity)), known
	}
}

// highest returns the greatest head along a run, m from the level of the run to the water's
// surface, from the heads at its ends: its loss is spread evenly over its length, and each
// point has the weight of the water above it. known tells whether its level is; else the head
// is counted from the surface.
func (v *view) highest(i int, from, to float64) (head float64, known bool) {
	below := v.m.Below[i]
	if len(below) < 2 {
		return max(from, to), false
	}
	points := []graph.Vec{{}, {X: 1}}
	if i < len(v.m.Layout.Paths) {
		if p := v.m.Layout.Paths[i].Points; len(p) == len(below) {
			points = p
		}
	}
	total := 0.0
	for k := 1; k < len(points); k++ {
		total += points[k].Sub(points[k-1]).Len()
	}
	head = from + below[0]/1000
	way := 0.0
	for k := 1; k < len(below); k++ {
		way += points[k].Sub(points[k-1]).Len()
		share := 1.0
		if total > 0 {
			share = way / total
		}
		head = max(head, from+(to-from)*share+below[k]/1000)
	}
	return head, true
}

func (v *view) part(i int) {
	m := &v.m.Parts[i]
	p := m.Part
	out := &v.s.Parts[i]
	*out = PartFlow{Part: p, Legs: out.Legs[:0]}
	switch {
	case p.Kind.SeveralWays():
		v.junction(m, out)
	case len(m.Edges) == 1:
		if e := m.Edges[0]; e >= 0 {
			out.Flow, out.Drop = v.f.Q[e], v.pa*v.f.Loss[e]
			if out.Moving = out.Flow; v.f.Two {
				out.Moving = v.f.Other[e]
			}
		} else if a, b := m.nodes[0], m.nodes[1]; v.f.Known[a] && v.f.Known[b] {
			out.Drop = v.pa * (v.f.Head[a] - v.f.Head[b])
		}
	}
	if !v.brief {
		out.State = v.state(m, out)
		v.static(m, out)
	}
	switch p.Kind {
	case graph.JetGroup:
		if out.Fed = out.Flow; m.backward {
			out.Fed = -out.Flow
		}
		out.Fed, out.Apart = max(out.Fed, 0), m.apart
	case graph.Pump:
		v.pump(m, out)
	case graph.CheckValve:
		v.check(m, out)
	case graph.HeatPump:
		switch {
		case math.Abs(out.Flow) < Standing:
			out.State = NoFlow
		case m.pump.astray(v.f.Q, out.Flow):
			out.State = PumpOff
		case v.m.cools: // what it takes from the water no rating of a heater tells
		default:
			out.RiseK = formula.TemperatureRise(v.m.Water, m.Set.MostOutput(), math.Abs(out.Flow)) // judged where it is largest
		}
	}
}

// astray reports whether a pump is off, and what passes a part of its line [m³/s] is Astray.
func (m *ModelPart) astray(q []float64, flow float64) bool {
	if m == nil || !m.Off {
		return false
	}
	through := 0.0
	if len(m.Edges) == 1 && m.Edges[0] >= 0 {
		through = q[m.Edges[0]]
	}
	return Astray(flow, through)
}

// Astray reports whether what passes a part of the line of a pump that is off, m³/s, is no more than other
// pumps send through that one as well [m³/s], or goes backwards. Of pumps side by side one that runs gives
// the line more than passes the other.
func Astray(flow, through float64) bool { return flow < 0 || flow <= math.Abs(through)+Standing }

// junction fills in the legs of a part where flows meet.
func (v *view) junction(m *ModelPart, out *PartFlow) {
	for k, port := range m.ports {
		leg := LegFlow{Port: port, Flow: v.into[m.meets[k]]}
		if k < len(m.Edges) && m.Edges[k] >= 0 {
			leg.Drop = v.pa * v.f.Loss[m.Edges[k]]
		} else if m.middle > 0 && v.f.Known[m.nodes[k]] && v.f.Known[m.middle] { // a way shut
			leg.Drop = v.pa * (v.f.Head[m.nodes[k]] - v.f.Head[m.middle])
		}
		if k < len(m.ways) && m.ways[k] != nil && m.Part.Kind == graph.Manifold { // its one loss, at the port that carries all
			out.Drop = math.Abs(leg.Drop)
		}
		if m.Part.Kind == graph.DiverterValve && leg.Flow != 0 {
			out.Drop = max(out.Drop, math.Abs(leg.Drop))
		}
		out.Flow += max(leg.Flow, 0)
		out.Legs = append(out.Legs, leg)
	}
	if m.Part.Kind != graph.Tee || len(out.Legs) != 3 {
		return
	}
	out.Drop = out.Legs[0].Drop - out.Legs[1].Drop
	if m.Tee == nil {
		return
	}
	most := 0.0
	for _, l := range out.Legs {
		most = max(most, math.Abs(l.Flow))
	}
	for k := range out.Legs {
		if most > 0 {
			head := out.Legs[k].Drop / v.pa / (m.Tee.Run * most * most)
			if out.Legs[k].Flow < 0 || out.Legs[k].Flow == 0 && head < 0 {
				head = -head // of what leaves: from the middle on
			}
			out.Legs[k].K = head
		}
	}
}

// state says how a part stands.
func (v *view) state(m *ModelPart, out *PartFlow) string {
	p := m.Part
	switch {
	case p.Kind == graph.CheckValve && len(m.Edges) == 1:
		switch {
		case v.f.Shut[m.Edges[0]] || out.Flow <= 0:
			return "shut"
		case m.Crack > 0 && !m.Swing:
			return "lifting"
		default:
			return "open"
		}
	case p.Kind.IsHandValve():
		position := float64(v.m.Mode.Opening(p))
		_, said := v.m.Mode.Positions[p.ID]
		switch {
		case p.ByKv() && !said:
			return "throttled"
		case position <= 0:
			return "shut"
		case position >= 1:
			return "open"
		}
		return quantity.Trim(math.Round(position*1000)/10) + " %"
	case p.Kind == graph.Pump && m.Off:
		return "off"
	case p.Kind == graph.Pump:
		return m.Speed
	}
	return ""
}

func (v *view) pump(m *ModelPart, out *PartFlow) {
	out.Apart = m.apart
	if m.Pump == nil {
		return
	}
	q := out.Flow
	lost, _ := m.Pump.Loss(q)
	out.HeadM = -lost
	if v.f.Shut[m.Edges[0]] { // no water passes: it stands at its shut-off head
		out.HeadM = m.Rise.Curve.ShutOff() * m.Pump.Times
	}
	out.ShutOffExtrapolated = m.Rise.Curve.First() > 0
	out.ShutOffPa = v.pa * m.Rise.Curve.ShutOff() * m.Pump.Times
	out.GreatestPa = v.pa * m.Rise.Curve.Greatest() * m.Pump.Times
	hydraulic := formula.HydraulicPower(v.m.Water.Density, q, out.HeadM)
	out.PowerW, out.Efficiency = m.Rise.power, m.Rise.efficiency
	switch {
	case out.PowerW == 0 && out.Efficiency > 0:
		out.PowerW = hydraulic / out.Efficiency
	case out.PowerW > 0 && out.Efficiency == 0:
		out.Efficiency = hydraulic / out.PowerW
	}
	if v.f.Known[m.nodes[0]] {
		submerged := 0.0 // where nothing says it: level with the water
		if m.level {
			submerged, out.NPSHKnown = m.Below/1000, true
		}
		out.NPSHAvailableM = formula.NPSHAvailable(formula.Atmosphere, v.m.Water.VapourPa, v.m.Water.Density, submerged, -v.f.Head[m.nodes[0]])
	}
}

// static fills in the gauge pressure at a part's inlet: the head there less the velocity
// head in its pipe, counted from the tub's surface, with the depth of the part below it
// where that is known.
func (v *view) static(m *ModelPart, out *PartFlow) {
	if len(m.nodes) == 0 || m.Part.Kind == graph.Tub {
		return
	}
	at := 0
	if len(m.nodes) == 2 && out.Flow < 0 {
		at = 1
	}
	if !v.f.Known[m.nodes[at]] {
		return
	}
	head := v.f.Head[m.nodes[at]]
	if bore := m.BoreM; bore > 0 {
		w := out.Flow / formula.Area(bore)
		head -= w * w / (2 * formula.Gravity)
	}
	if m.level {
		head, out.LevelKnown = head+m.Below/1000, true
	}
	out.StaticPa = v.pa * head
}

// notes adds what hangs on the flows.
func (v *view) notes() {
	s := v.s
	add := func(p *graph.Part, severity graph.Severity, hint quantity.Text, format string, args ...any) {
		s.Notes = append(s.Notes, graph.Diagnostic{Pos: p.Pos, Rule: "flow", Severity: severity, Of: []string{p.ID},
			Mode: s.Mode.Name, Message: graph.Say("mode %q: ", s.Mode.Name) + graph.Say(format, args...), Hint: hint})
	}
	running := false
	for i := range v.m.Parts {
		m := &v.m.Parts[i]
		p, q := m.Part, s.Parts[i].Flow
		if t := m.Law; t != nil && t.Table != nil && math.Abs(q) > t.Table.Last()*(1+1e-9) {
			add(p, graph.Warning, "ask for the drop at such a flow, and write it as one more of the points of its loss", "%s passes %q, past the last point of its loss at %s: from there on a square law is assumed",
				flowWords(q), p.ID, flowWords(t.Table.Last()))
		}
		if c := m.Check; c != nil && c.Open.Table != nil && q > c.Open.Table.Last()*(1+1e-9) {
			add(p, graph.Warning, "ask for the drop at such a flow, and write it as one more of the points of its loss", "%s passes %q, past the last point of its loss at %s: from there on a square law is assumed",
				flowWords(q), p.ID, flowWords(c.Open.Table.Last()))
		}
		if m.Off && math.Abs(q) > 1e-6*v.f.FlowScale && m.Source == "assumed" {
			add(p, graph.Note, "say check = true on it if its own check stops the water", "%s passes %q while it stands; K %g is assumed for it", flowWords(q), p.ID, float64(offPumpK))
		}
		if m.Pump != nil {
			running = true
			two := v.f.Two && m.Rise.Curve.Rises() && math.Abs(v.f.Other[m.Edges[0]]-q) > 1e-5*v.f.FlowScale // another pump may be the one that holds twice
			if q == 0 && !two {
				hint := quantity.Text("open a way for its water")
				if held := s.HeldBy(p.ID); held == nil {
					if by := s.pressedBy(v.m.Layout.Stage.Net(), p); by != nil {
						hint = graph.Say("%q makes more head where their water meets and holds its check shut: run them apart, or give it its own way to the tub", by.Part.ID)
					}
				} else {
					hint = graph.Say("a spring in %q that opens below the pump's head at no flow, or another way for its water", held.Part.ID)
				}
				add(p, graph.Warning, hint, "%q runs and no water passes it", p.ID)
			}
			if two {
				more := v.f.Other[m.Edges[0]]
				add(p, graph.Warning, "measure the flow after a start, or take a spring the pump lifts from rest: its curve rises before it falls, so its shut-off head is not its highest",
					"%q has two flows at which it holds, %s and %s: from rest it comes to the smaller, which is given here, and only if its water was moving already does it keep the larger",
					p.ID, flowWords(q), flowWords(more))
			}
		}
	}
	if !running && len(v.m.Parts) > 0 {
		s.Notes = append(s.Notes, graph.Diagnostic{Pos: s.Mode.Pos, Rule: "flow", Severity: graph.Note,
			Mode: s.Mode.Name, Message: graph.Say("mode %q: no pump runs, so no water flows", s.Mode.Name)})
	}
}

func flowWords(q float64) quantity.Amount { return quantity.Flow.Of(math.Abs(q)) }
