package practice

import "testing"

// A hose has no burrs and is not chamfered, and nor is pipe that nobody cements. Common practice, no source.
func TestCutEnds(t *testing.T) {
	for _, c := range []struct {
		cement, hose bool
		want         string
	}{
		{true, false, ": square, burrs off, chamfered, each with its number on it."},
		{false, false, ": square, burrs off, each with its number on it."},
		{true, true, ": square, burrs off the pipe and its cemented ends chamfered, each with its number on it."},
		{false, true, ": square, burrs off the pipe, each with its number on it."},
	} {
		if got := (&Job{Cement: c.cement, NewHose: c.hose}).CutEnds(); string(got) != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}
