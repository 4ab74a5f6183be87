package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
)

// A unit that is to be fitted and is said to exist is asked about; a part to which old pipe leads, a piece of
// which is missing, is not: there the pipe that is taken out is wanted.
func TestNewUnitThatIsSaidToExist(t *testing.T) {
	demo := text(t, "../../testdata/two-speed.toml")
	for _, c := range []struct {
		old, new string
		asked    bool
	}{
		{"kind = \"heat-pump\"", "kind = \"heat-pump\"\nexisting = true", true},
		{"to = \"element.in\"\nexisting = true", `to = "element.in"`, false},
	} {
		found := work(t, read(t, "a.toml", []byte(replaced(t, demo, []string{c.old, c.new}))), 0).Findings
		i := slices.IndexFunc(found, func(d graph.Diagnostic) bool { return d.Rule == "stages" })
		if i < 0 {
			t.Fatalf("%q: nothing said of what stood before", c.new)
		}
		if got := strings.Contains(found[i].Hint.String(), `no run that was there leads to "unit": where it is new, take existing = true out of it`); got != c.asked {
			t.Errorf("%q: %s", c.new, found[i].Hint)
		}
	}
}
