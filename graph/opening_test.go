package graph

import "testing"

// An opening is the same words wherever it stands: to a tenth of a per cent, and what is neither
// shut nor open is called neither.
func TestOpeningWords(t *testing.T) {
	for at, want := range map[Opening]string{
		0: "shut", 1: "open", 0.15: "15 % open", 0.125: "12.5 % open", 1.0 / 3: "33.3 % open",
		0.0001: "under 0.1 % open", 0.9999: "over 99.9 % open",
	} {
		if got := at.Words(); got != want {
			t.Errorf("%g is %q, want %q", float64(at), got, want)
		}
	}
}
