package practice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

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

// Where no pipe that stays is cut, hose comes off its barbs; pipe that goes does not come out of the
// sockets it is cemented into. Common practice, no source.
func TestWhatGoesIsUndone(t *testing.T) {
	for _, rigid := range []bool{false, true} {
		said := strings.Join(Texts(Pick(&Job{Unit: &Unit{ID: "HP1"}, Gone: []string{"the pipe"}, GoneRigid: rigid}, Ready()), quantity.MetricSystem), "\n")
		if strings.Contains(said, "undo it at its joints") == rigid || strings.Contains(said, "does not come out of its socket") != rigid {
			t.Errorf("rigid %v: %s", rigid, said)
		}
	}
}
