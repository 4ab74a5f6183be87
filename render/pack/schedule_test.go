package pack

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
	"dryfit/graph/route/laying"
)

// Valves go by the tag of the drawings, the same for the same duty, and stand as their duty asks:
// isolators shut for service while the bypass is open; a check works by itself and is never
// taken apart.
func TestScheduleOfDemos(t *testing.T) {
	for _, c := range []struct {
		demo    string
		valves  []string
		service []string // positions while the unit is serviced
	}{
		{"two-speed", []string{"V1", "V2", "CV1", "D1"}, []string{"SHUT", "SHUT", "works by itself", "shut"}},
		{"large-circulation", []string{"V1", "V2", "V3", "D1"}, []string{"SHUT", "SHUT", "OPEN", "shut"}},
		{"plug-in", []string{"V1", "V2", "V3"}, []string{"SHUT", "SHUT", "OPEN"}},
	} {
		s := scheduleOf(solvedDemo(t, c.demo))
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
	return &plan.Plan{Circuit: c, After: &stage.Stage{Circuit: c, Layout: laying.Of(c)}}
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
	s := scheduleOf(drawn(one, nil, check, nil))
	if want := []string{"V1", "CV1"}; !slices.Equal(s.Valves, want) {
		t.Errorf("valves %q, want %q", s.Valves, want)
	}
	if !strings.Contains(strings.Join(s.Notes, "\n"), "No isolator on the pipe from the unit") {
		t.Errorf("the missing isolator is not said: %q", s.Notes)
	}
	if strings.Contains(strings.Join(s.Notes, "\n"), "No isolator on the pipe to the unit") {
		t.Errorf("the isolator that is there is missed: %q", s.Notes)
	}
	i := slices.IndexFunc(s.Rows, func(r valveRow) bool { return strings.Contains(r.State, "serviced") })
	if i >= 0 {
		t.Error("a unit with one isolator can't be shut off, and is to be serviced so")
	}

	both := []*graph.Part{twoPort("south-cock", graph.BallValve)}
	s = scheduleOf(drawn([]*graph.Part{twoPort("north-cock", graph.BallValve)}, both, []*graph.Part{twoPort("flap", graph.CheckValve)}, twoPort("by-hand", graph.BallValve)))
	if want := []string{"V1", "V2", "CV1", "V3"}; !slices.Equal(sorted(s.Valves), sorted(want)) {
		t.Errorf("valves %q, want %q", s.Valves, want)
	}
	i = slices.IndexFunc(s.Rows, func(r valveRow) bool { return strings.Contains(r.State, "serviced") })
	for k, v := range s.Valves {
		want := map[string]string{"V1": "SHUT", "V2": "SHUT", "CV1": "works by itself", "V3": "OPEN"}[v]
		if got := s.Rows[i].Positions[k]; got != want {
			t.Errorf("%s is %q in service, want %q", v, got, want)
		}
	}
	for _, n := range s.Notes {
		if strings.Contains(n, "No isolator") || strings.Contains(n, "poppet") {
			t.Errorf("said for nothing: %s", n)
		}
	}
	if !strings.Contains(strings.Join(s.Notes, "\n"), "V3: shut in use, or the water passes the unit by; open whenever the unit is shut off") {
		t.Errorf("the valve beside the check is not spoken of: %q", s.Notes)
	}
	if len(s.Never) != 2 {
		t.Errorf("never %q, want two", s.Never)
	}
}

// scheduleOf is the schedule of a plan with its own facts.
func scheduleOf(p *plan.Plan) schedule { return valveSchedule(p, factsOf(p, quantity.MetricSystem)) }

func sorted(list []string) []string {
	out := slices.Clone(list)
	slices.Sort(out)
	return out
}

func TestNoUnitNoSchedule(t *testing.T) {
	c := &graph.Circuit{}
	if s := scheduleOf(&plan.Plan{Circuit: c, After: &stage.Stage{Circuit: c, Layout: laying.Of(c)}}); len(s.Rows) > 0 || len(s.Valves) > 0 {
		t.Errorf("a schedule of nothing: %+v", s)
	}
}

// What a throttle is set by is said once: the modes after the first point to it.
func TestThrottleIsToldOnce(t *testing.T) {
	p := demoPlan(t, "large-circulation")
	s := valveSchedule(p, factsOf(p, quantity.MetricSystem))
	k := slices.Index(s.Valves, "V3")
	if k < 0 || len(s.Rows) < 3 {
		t.Fatalf("valves %v in %d states", s.Valves, len(s.Rows))
	}
	if at := s.Rows[0].Positions[k]; !strings.HasPrefix(at, "set with the circulation pump and the jet pump running") {
		t.Errorf("the first row says %q", at)
	}
	for _, r := range s.Rows[1:3] {
		if r.Positions[k] != "as set" {
			t.Errorf("%s: %q", r.State, r.Positions[k])
		}
	}
}

// A unit with a tenth more than its most flow is told so, one with as much as it may have is not; one with less
// than its least stops itself. The flows are invented.
func TestFlowsBeyondTheLimitsAreNoted(t *testing.T) {
	p := demoPlan(t, "two-speed")
	for _, c := range []struct{ flow, want string }{{"8.8", "the unit has more flow than it may have"}, {"8", ""}, {"3", ""}, {"2.9", "the unit has too little flow and stops itself"}} {
		q, err := strconv.ParseFloat(c.flow, 64)
		if err != nil {
			t.Fatal(err)
		}
		row := modeRow(p, plan.ModeSummary{Mode: "low", HasUnit: true, Unit: q / 3600, Least: 3.0 / 3600, Most: 8.0 / 3600}, nil)
		if row.Note != c.want {
			t.Errorf("%s m³/h: %q, want %q", c.flow, row.Note, c.want)
		}
	}
}
