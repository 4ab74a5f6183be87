package spread

import "math"

// sameJets is the share of today's flow up to which the jets get what they get today: papers say of less
// that they lose nothing to speak of, and where two pumps draw through one filter each meets a little of
// the other's. Judgement.
const sameJets = 0.005

// jetsApart reports whether the jets of a mode get what they get today in every sample, for the work
// hardly meets their water: what moves their flow then, such as the pump of their own circuit,
// decides nothing that the work could be measured for.
func (m *spreadMode) jetsApart() bool {
	if m.unit < 0 || m.before == nil || len(m.jetsChange) == 0 {
		return false
	}
	for _, s := range m.jetsChange {
		if math.Abs(s.value) > sameJets {
			return false
		}
	}
	return true
}
