package retrofit

import (
	"strings"
	"testing"
)

// A search that stopped at its bound only says that nothing was found.
func TestNoPairSaysHowSure(t *testing.T) {
	for _, c := range []struct {
		met     []string
		cut     bool
		is, not string
	}{
		{nil, false, `no two pipes at right angles lead from here to "unit": there is no room for their fittings`, "found"},
		{[]string{"shelf"}, false, `lead from here to "unit": in the way is shelf`, "found"},
		{[]string{"shelf"}, true, `were found, though not every way was looked at: in the way is shelf`, "lead"},
		{[]string{"shelf", "bend 2 of drain"}, false, `: in the way are shelf, bend 2 of drain`, "is shelf"},
		{nil, true, `were found, though not every way was looked at`, "room"},
	} {
		if said := noPair("unit", c.met, c.cut).In(0); !strings.Contains(said, c.is) || strings.Contains(said, c.not) {
			t.Errorf("%v, cut %v: %s", c.met, c.cut, said)
		}
	}
}
