package spread

import "math"

// sameJets is the share of today's flow up to which the jets get what they get today.
const sameJets = 0.0005

// jetsApart reports whether the jets of a mode get what they get today in every sample, for the work
// does not meet their water: what moves their flow then, such as the pump of their own circuit,
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
