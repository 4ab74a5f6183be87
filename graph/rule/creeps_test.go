package rule_test

import (
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// Chemical creeps back past a valve in the bypass that is open, in use or in one mode of it. Past one that
// stays shut while the unit is in use nothing comes to it, and while it is shut off the isolators keep it:
// no check is asked for there. Follows from the circuit.
func TestNothingCreepsPastAShutValve(t *testing.T) {
	base := string(read(t, "testdata/check-before-feeder/fail-bypass.patch"))
	mode := func(name, positions string) string {
		return "\n[[mode]]\nname = \"" + name + "\"\nspeeds = { pump = \"low\" }\npositions = { " + positions + " }\n"
	}
	for _, c := range []struct {
		position, more string
		creeps         bool
	}{
		{"40 %", "", true}, {"shut", "", false},
		{"shut", mode("in use", `spring = "shut"`) + mode("warm weather", `spring = "10 %"`), true},
		{"shut", mode("in use", `spring = "shut"`) + mode("unit off", `spring = "open", v1 = "shut", v2 = "shut"`), false},
	} {
		read, ds := description.Read("creeps.toml", []byte(swap(t, base, `position = "40 %"`, `position = "`+c.position+`"`)+c.more))
		if read == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(read, plan.Findings|plan.Flows)
		if err != nil {
			t.Fatal(err)
		}
		creeps := false
		for _, d := range p.Findings {
			creeps = creeps || d.Rule == "check-before-feeder" && strings.Contains(string(d.Message), "creep back")
		}
		if creeps != c.creeps {
			t.Errorf("%s, %q: creeps back: %v", c.position, c.more, creeps)
		}
	}
}
