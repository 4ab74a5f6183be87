package hydraulic

import "dryfit/graph/hydraulic/laws"

// PumpCurve returns the curve a running pump of the model works on, or nil.
func (m *Model) PumpCurve(pump string) *laws.PumpCurve {
	for i := range m.Parts {
		if p := &m.Parts[i]; p.Part.ID == pump && p.Pump != nil {
			return p.Pump.Own()
		}
	}
	return nil
}

// SystemPoint is one point of a system curve: the head the circuit asks of a pump for a flow.
type SystemPoint struct{ Flow, Head float64 } // m³/s, m

// SystemCurve returns the head the circuit asks of one running pump for its flow, by solving
// the circuit with the pump's head times factors that rise from nearly nothing to most: the
// pump's duty points with a head of f·H(q) all lie on the curve of the circuit. What stands
// beside it stays as it is: other pumps run, checks open where they would. The points rise in
// flow; factors without an answer, and those past the end of the pump's curve, have none.
func (m *Model) SystemCurve(pump string, most float64, points int) []SystemPoint {
	at := -1
	for i := range m.Parts {
		if m.Parts[i].Part.ID == pump && m.Parts[i].Pump != nil {
			at = i
		}
	}
	if at < 0 || points < 1 || !(most > 0) {
		return nil
	}
	p := &Perturb{}
	if m.base != nil {
		*p = *m.base
	}
	p.Head = make([]float64, len(m.Parts))
	for i := range p.Head {
		p.Head[i] = 1
	}
	var out []SystemPoint
	for i := 1; i <= points; i++ {
		share := float64(i) / float64(points)
		p.Head[at] = most * share * share // even in flow, where the head goes by its square
		m.Perturb(p)
		s, past, err := m.Sampled(nil)
		if err != nil || past {
			continue
		}
		q, h := s.Parts[at].Flow, s.Parts[at].HeadM
		if q <= 0 || len(out) > 0 && q <= out[len(out)-1].Flow*(1+1e-6) {
			continue
		}
		out = append(out, SystemPoint{Flow: q, Head: h})
	}
	m.Perturb(nil)
	return out
}
