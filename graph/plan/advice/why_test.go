package advice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// A spring that chatters is not refused as if the one that is taken did not: every speed at which
// either does is named. The flows are invented, in m³/s.
func TestChatterOfBothIsTold(t *testing.T) {
	spring := func(name string, at ...string) BypassChoice {
		c := BypassChoice{Spring: name, Keeps: true, Rated: true}
		for _, mode := range []string{"low", "middle", "high"} {
			m := ChoiceMode{Mode: mode, UnitFlow: 1e-3, PumpFlow: 2e-3}
			for _, a := range at {
				m.Chatters = m.Chatters || a == mode
			}
			c.Modes = append(c.Modes, m)
		}
		return c
	}
	of := func(best ...string) string {
		a := &adviser{Unit: Promise{Least: 0.5e-3, Rated: 1e-3, Most: 2e-3}}
		all := &Comparison{Asked: true, Choices: []BypassChoice{spring("A", best...), spring("B", "middle", "high")}}
		all.Choices[0].Name, all.Choices[1].Name = "spring A", "spring B"
		return a.why(all, 1).String() + "\n" + a.conclusion(all).String()
	}
	both := of("middle")
	for _, want := range []string{"at middle and at high it stands less than a tenth", "spring A does so at middle only", "; at middle it will chatter"} {
		if !strings.Contains(both, want) {
			t.Errorf("%q is not in %q", want, both)
		}
	}
	if still := of(); strings.Contains(still, "does so at") || strings.Contains(still, "it will chatter") {
		t.Errorf("a spring that does not chatter is said to: %q", still)
	}
}

// A throttle that stays shut says in which mode the unit gets no more than it is set for: in another it may get
// more than its most, as a line above says.
func TestThrottleThatStaysShut(t *testing.T) {
	modes := []ChoiceMode{{Mode: "off", Error: "no answer"}, {Mode: "low", UnitFlow: 1.8e-3}, {Mode: "high", UnitFlow: 3.7e-3}}
	for _, c := range []struct {
		unit  Promise
		modes []ChoiceMode
		want  string
	}{
		{Promise{Rated: 1.9e-3, Least: 1e-3}, modes, "throttle valve: stays shut, the unit gets no more than its rated flow even so in mode low"},
		{Promise{Rated: 1.9e-3}, modes[:2], "throttle valve: stays shut, the unit gets no more than its rated flow even so"},
		{Promise{Least: 1.9e-3}, modes[:2], "throttle valve: stays shut, the unit gets no more than its least flow even so"},
		{Promise{Usual: 1e-3}, modes, "throttle valve: stays shut until the unit's rated flow is known"},
	} {
		if got := (&adviser{Unit: c.unit}).staysShut(BypassChoice{Modes: c.modes}).In(quantity.MetricSystem); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
