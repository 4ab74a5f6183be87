package hydraulic

import "dryfit/graph/hydraulic/formula"

// SetKv sets a hand valve of the model to another Kv, m³/h: a setting, as a hand makes it;
// the circuit the model was built of stays as it is. It reports whether there is such a
// valve, open and known by its Kv.
func (m *Model) SetKv(valve string, kv float64) bool {
	for i := range m.Parts {
		p := &m.Parts[i]
		if p.Part.ID != valve || !p.Part.Kind.IsHandValve() || p.Law == nil || p.Part.Valve == nil || p.Part.Valve.Kv <= 0 || kv <= 0 {
			continue
		}
		p.Law.Square, p.times = formula.KvHead(kv), 1
		return true
	}
	return false
}
