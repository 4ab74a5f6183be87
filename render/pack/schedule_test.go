package pack

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// Valves go by the tag of the drawings with the id beside it, and stand as their duty asks:
// isolators shut for service while the bypass is open, and the poppet out where the spring
// check is the only way past the unit.
func TestScheduleOfDemos(t *testing.T) {
	for _, c := range []struct {
		demo    string
		valves  []string
		service []string // positions while the unit is serviced
	}{
		{"two-speed", []string{"V1", "V2", "CV1 bypass", "D1 drain-1"}, []string{"SHUT", "SHUT", "poppet out", "shut"}},
		{"large-circulation", []string{"V1", "V2", "V3 bypass", "D1 drain-1"}, []string{"SHUT", "SHUT", "OPEN", "shut"}},
		{"plug-in", []string{"V2 isolator-to", "V3 isolator-from", "V1 bypass"}, []string{"SHUT", "SHUT", "OPEN"}},
	} {
		s := valveSchedule(solvedDemo(t, c.demo))
		if !slices.Equal(s.Valves, c.valves) {
			t.Errorf("%s: valves %q, want %q", c.demo, s.Valves, c.valves)
		}
		i := slices.IndexFunc(s.Rows, func(r valveRow) bool { return strings.Contains(r.State, "serviced") })
		if i < 0 || !slices.Equal(s.Rows[i].Positions, c.service) || s.Rows[i].Unit != "off" {
			t.Errorf("%s: serviced with %+v, want %q", c.demo, s.Rows, c.service)
		}
		for _, r := range s.Rows {
			if len(r.Positions) != len(s.Valves) {
				t.Errorf("%s: %q has %d positions for %d valves", c.demo, r.State, len(r.Positions), len(s.Valves))
			}
		}
	}
}

// drawn is a loop with a unit past a bypass, made of just these parts between its tees.
func drawn(to, from, past []*graph.Part, beside *graph.Part) *plan.Plan {
	part := func(id string, kind graph.Kind, ports ...string) *graph.Part {
		p := &graph.Part{ID: id, Kind: kind}
		for _, n := range ports {
			p.Ports = append(p.Ports, graph.Port{Name: n})
		}
		return p
	}
	c := &graph.Circuit{File: "drawn.toml"}
	join := func(a, b string) {
		pa, na, _ := strings.Cut(a, ".")
		pb, nb, _ := strings.Cut(b, ".")
		c.Runs = append(c.Runs, &graph.Run{ID: a + ">" + b, From: graph.PortRef{Part: pa, Port: na}, To: graph.PortRef{Part: pb, Port: nb}})
	}
	chain := func(start string, parts []*graph.Part, end string) {
		at := start
		for _, p := range parts {
			c.Parts = append(c.Parts, p)
			join(at, p.ID+".in")
			at = p.ID + ".out"
		}
		join(at, end)
	}
	tub, pump := part("tub", graph.Tub, "s", "r"), part("pump", graph.Pump, "in", "out")
	a, b := part("a", graph.Tee, "run-in", "run-out", "branch"), part("b", graph.Tee, "run-in", "run-out", "branch")
	unit := part("unit", graph.HeatPump, "in", "out")
	c.Parts = append(c.Parts, tub, pump, a, b, unit)
	join("tub.s", "pump.in")
	join("pump.out", "a.run-in")
	if beside != nil {
		x, y := part("x", graph.Tee, "run-in", "run-out", "branch"), part("y", graph.Tee, "run-in", "run-out", "branch")
		c.Parts = append(c.Parts, x, y)
		join("a.run-out", "x.run-in")
		chain("x.run-out", past, "y.run-in")
		chain("x.branch", []*graph.Part{beside}, "y.branch")
		join("y.run-out", "b.run-in")
	} else {
		chain("a.run-out", past, "b.run-in")
	}
	chain("a.branch", to, "unit.in")
	chain("unit.out", from, "b.branch")
	join("b.run-out", "tub.r")
	return &plan.Plan{Circuit: c, After: &plan.Stage{Circuit: c}}
}

func twoPort(id string, kind graph.Kind) *graph.Part {
	p := &graph.Part{ID: id, Kind: kind, Ports: []graph.Port{{Name: "in"}, {Name: "out"}}}
	if kind == graph.CheckValve {
		p.Check = &graph.CheckData{Style: "spring"}
	}
	return p
}

// A circuit of the user's own, with his own names: a missing isolator is said, and with a
// valve beside the check its poppet may stay in.
func TestScheduleOfDrawnCircuit(t *testing.T) {
	one := []*graph.Part{twoPort("north-cock", graph.BallValve)}
	check := []*graph.Part{twoPort("flap", graph.CheckValve)}
	s := valveSchedule(drawn(one, nil, check, nil))
	if want := []string{"V1 north-cock", "CV1 flap"}; !slices.Equal(s.Valves, want) {
		t.Errorf("valves %q, want %q", s.Valves, want)
	}
	if !strings.Contains(strings.Join(s.Notes, "\n"), "No isolator on the pipe from unit") {
		t.Errorf("the missing isolator is not said: %q", s.Notes)
	}
	if strings.Contains(strings.Join(s.Notes, "\n"), "No isolator on the pipe to unit") {
		t.Errorf("the isolator that is there is missed: %q", s.Notes)
	}
	service := func(s schedule) []string {
		i := slices.IndexFunc(s.Rows, func(r valveRow) bool { return strings.Contains(r.State, "serviced") })
		return s.Rows[i].Positions
	}
	if got, want := service(s), []string{"SHUT", "poppet out"}; !slices.Equal(got, want) {
		t.Errorf("serviced: %q, want %q", got, want)
	}

	both := []*graph.Part{twoPort("south-cock", graph.BallValve)}
	s = valveSchedule(drawn([]*graph.Part{twoPort("north-cock", graph.BallValve)}, both, []*graph.Part{twoPort("flap", graph.CheckValve)}, twoPort("by-hand", graph.BallValve)))
	got := service(s)
	for i, v := range s.Valves {
		want := map[bool]string{true: "SHUT"}[strings.Contains(v, "cock")]
		switch {
		case strings.Contains(v, "flap"):
			want = "by the water"
		case strings.Contains(v, "by-hand"):
			want = "OPEN"
		}
		if got[i] != want {
			t.Errorf("%s is %q in service, want %q", v, got[i], want)
		}
	}
	for _, n := range s.Notes {
		if strings.Contains(n, "No isolator") || strings.Contains(n, "Poppet") {
			t.Errorf("said for nothing: %s", n)
		}
	}
	if len(s.Never) != 2 {
		t.Errorf("never %q, want two", s.Never)
	}
}

func TestNoUnitNoSchedule(t *testing.T) {
	c := &graph.Circuit{}
	if s := valveSchedule(&plan.Plan{Circuit: c, After: &plan.Stage{Circuit: c}}); len(s.Rows) > 0 || len(s.Valves) > 0 {
		t.Errorf("a schedule of nothing: %+v", s)
	}
}
