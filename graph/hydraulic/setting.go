package hydraulic

import (
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
)

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

// FullyOpen returns the loss of a hand valve known by its Kv fully open, as a share of the loss at
// that Kv; false for any other part, and where nothing says what it has fully open. It is never above 1.
func (p *ModelPart) FullyOpen() (share float64, ok bool) {
	if p.Given != GivenKv || p.Law == nil || p.Law.Square <= 0 || p.BoreM <= 0 {
		return 0, false
	}
	full := laws.RowLaw(p.Row, p.BoreM, p.Density)
	if full == nil || full.Square <= 0 {
		return 0, false
	}
	return min(full.Square/p.Law.Square, 1), true
}
