package plan_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
	"dryfit/graph/stream"
)

// everything is what a job comes to as it is asked for. What would make a place possible that is ruled out is
// tried where it is looked at, as TestAdviceFollowed does: it takes a third of the time.
const everything = plan.Findings | plan.Flows | plan.Lists | plan.Places | plan.Swift

func job(t *testing.T, name string) *plan.Plan {
	t.Helper()
	return planned(t, "testdata/jobs/"+name+".toml")
}

// Every job but the ones that can't be done: no error, an order of assembly, and the plan
// written out reads back to the same pieces and flows.
func TestJobs(t *testing.T) {
	for _, name := range []string{"plunge-pool", "plug-in", "hose-circulation", "second-unit", "unit-out", "round-on-hose", "past-the-door", "sunk-in-deck", "barb-kept", "swim-spa", "octagonal"} {
		t.Run(name, func(t *testing.T) {
			p := job(t, name)
			if p.Proposal == nil {
				t.Fatalf("nothing proposed: %v", errorsOf(p.Findings))
			}
			for _, d := range errorsOf(p.Findings) {
				t.Error(d)
			}
			if !p.Assembly.OK || len(p.Cuts.Pieces) == 0 {
				t.Errorf("order of assembly %v, %d pieces", p.Assembly.OK, len(p.Cuts.Pieces))
			}
			again := rewritten(t, p)
			sameFlows(t, "before", p.Before, again.Before)
			sameFlows(t, "after", p.After, again.After)
			if a, b := cuts(p.After), cuts(again.After); a != b {
				t.Errorf("pieces to cut\n%s\nread back\n%s", a, b)
			}
		})
	}
}

// Five tubs planned from a template by somebody with the README: the pipes end at the unit's two
// ports where the description says they are (written down from it), nothing stands in anything,
// and the work goes together in its order.
func TestTubsPlannedFromTheReadme(t *testing.T) {
	for name, want := range map[string]struct {
		from        string
		in, outlet  graph.Vec
		low, high   graph.Vec // what is kept clear
		clearanceMM float64   // of an axis from it: half the outside of the pipe
	}{
		"round-on-hose": {from: "element.out", in: graph.Vec{Y: -600, X: 2400, Z: -130}, outlet: graph.Vec{Y: -600, X: 2400, Z: 90}},
		"past-the-door": {from: "element.out", in: graph.Vec{Y: -609.6, X: -3048, Z: -203.2}, outlet: graph.Vec{Y: -609.6, X: -3048, Z: 50.8},
			low: graph.Vec{X: -1524, Y: -762, Z: -508}, high: graph.Vec{X: -762, Y: -50.8, Z: 508}, clearanceMM: 48.26 / 2}, // ASTM D1785
		"swim-spa": {from: "spa.skimmer", in: graph.Vec{X: 4600, Y: -900, Z: -600}, outlet: graph.Vec{X: 4600, Y: -900, Z: -340},
			low: graph.Vec{X: 3500, Y: -2500, Z: -750}, high: graph.Vec{X: 3720, Y: 600, Z: -420}, clearanceMM: 48.26 / 2}, // ASTM D1785
		"octagonal": {from: "tub.skimmer", in: graph.Vec{X: 4200, Y: -600, Z: -500}, outlet: graph.Vec{X: 4200, Y: -600, Z: -260}},
		"sunk-in-deck": {from: "tub.skimmer", in: graph.Vec{X: 3300, Y: -1700, Z: 260}, outlet: graph.Vec{X: 3560, Y: -1700, Z: 260},
			low: graph.Vec{X: 2450, Y: -1150, Z: -900}, high: graph.Vec{X: 2950, Y: -200, Z: 900}, clearanceMM: 25}, // EN ISO 1452-2
	} {
		t.Run(name, func(t *testing.T) {
			p := job(t, name)
			lay := p.After.Layout
			origin := lay.Positions[want.from]
			for port, at := range map[string]graph.Vec{"unit.in": want.in, "unit.out": want.outlet} {
				if d := lay.Positions[port].Sub(origin).Sub(at).Len(); d > 0.05 {
					t.Errorf("%s misses its place by %.2f mm", port, d)
				}
			}
			for _, both := range inside(p.After.Bodies) {
				t.Error(both)
			}
			if blocks := p.After.Bodies.Replay(); len(blocks) > 0 {
				t.Errorf("%d joints can't be made in their turn", len(blocks))
			}
			if want.clearanceMM == 0 {
				return
			}
			for i := range lay.Paths {
				path := &lay.Paths[i]
				for k := 1; path.Run.New() && k < len(path.Points); k++ {
					a, b := path.Points[k-1].Sub(origin), path.Points[k].Sub(origin)
					for n := range 201 {
						v, c := a.Add(b.Sub(a).Scale(float64(n)/200)), want.clearanceMM-0.05
						if v.X > want.low.X-c && v.X < want.high.X+c && v.Y > want.low.Y-c && v.Y < want.high.Y+c && v.Z > want.low.Z-c && v.Z < want.high.Z+c {
							t.Fatalf("%s passes what is to be kept clear at %v", path.Run.ID, v)
						}
					}
				}
			}
		})
	}
}

// In a plunge pool the unit goes in after the pressure filter and the heater and before the
// feeder, with a check between, on the way through the bypass too (heat pump manuals agree).
func TestPlungePool(t *testing.T) {
	p := job(t, "plunge-pool")
	if p.Proposal.Place.Run != "heated" {
		t.Errorf("cut in %s", p.Proposal.Place.Where())
	}
	branch, _ := p.After.Layout.Stage.Branch()
	net := stream.NewNet(p.After.Circuit)
	feeder := net.Downstream(branch.Unit).First(graph.Feeder)
	if feeder == nil {
		t.Fatal("no feeder after the unit")
	}
	isCheck := func(q *graph.Part) bool { return q.Kind == graph.CheckValve }
	if back := net.UpstreamUntil(feeder, isCheck); back.HasPart(branch.Unit.ID) || back.HasPart(branch.TeeIn.ID) {
		t.Error("chemical can creep back to the unit, through its outlet or through the bypass")
	}
	if net.Upstream(branch.Unit).First(graph.Filter) == nil || net.Downstream(branch.Unit).First(graph.Feeder) == nil {
		t.Error("the unit does not stand between filter and feeder")
	}
}

// Hose is cut and pushed over barbs, one at each end of the work, and the marks speak of hose.
func TestPlugIn(t *testing.T) {
	p := job(t, "plug-in")
	barbs := 0
	for _, path := range p.After.Layout.Paths {
		for _, f := range path.Fittings {
			if f.Kind == "barb" && f.New {
				barbs++
			}
		}
	}
	if barbs != 2 {
		t.Errorf("%d barbs, want 2", barbs)
	}
	m := p.Proposal.Marking
	if m.From != "end of the hose at element.out" || !strings.HasSuffix(m.Keeps[1].String(), "mm of hose from the second cut to the middle of bend 1 of return-hose") {
		t.Errorf("marked from %q; keeps %q", m.From, m.Keeps)
	}
}

// A pump that gives the unit too little is said to, with its flow, and three ways out are
// worked out. The most a unit without a bypass gets lies where the pump's curve meets the
// circuit's, so it can't be more than where the curve ends at 3.2 m3/h.
func TestStarvedUnit(t *testing.T) {
	p := job(t, "starved")
	if p.Proposal != nil {
		t.Error("the unit was fitted all the same")
	}
	want := []string{
		`"unit" asks for 2.9 m3/h or more; the line of pump "circ-pump" gives it `,
		`compared, "unit" on the line of pump "jet-pump"`,
		"compared, a larger circulation pump in place of \"circ-pump\", like circulation-pump-1.5in, would do: ",
		"compared, a unit that asks for less water, like heat-pump 5 kW",
	}
	for _, w := range want {
		has := func(d graph.Diagnostic) bool {
			return strings.Contains(d.Message.String(), w) && strings.Contains(d.Message.String(), " m3/h")
		}
		if !slices.ContainsFunc(p.Findings, has) {
			t.Errorf("nobody says %q in %v", w, p.Findings)
		}
	}
	// what the larger pump gives, solved apart: the circuit with that pump written into it
	c := readFile(t, "testdata/jobs/starved.toml")
	pump := c.Part("circ-pump").Pump
	row, ok := c.Catalog.Row("circulation-pump-1.5in")
	if !ok {
		t.Fatal("no such pump")
	}
	pump.Speeds[0].Curve = nil
	for _, q := range row.Speeds[0].Curve {
		pump.Speeds[0].Curve = append(pump.Speeds[0].Curve, graph.CurvePoint{Flow: q[0], Head: graph.Drop{Value: q[1], IsHead: true}})
	}
	larger := work(t, c, everything)
	if larger.Proposal == nil {
		t.Fatalf("the larger pump would not do: %v", errorsOf(larger.Findings))
	}
	for i := range larger.After.Solutions {
		if flow := larger.After.Solutions[i].Part("unit").Flow; flow < 2.9/3600 {
			t.Errorf("%s: %.2f m3/h with the larger pump", larger.After.Solutions[i].Mode.Name, flow*3600)
		}
	}
}

// The second unit hangs on the first one's pipes and gets, with pipes of the same length, the
// same flow within a tenth: the same loss at the same flow, but for a tee and its elbows.
func TestSecondUnitJob(t *testing.T) {
	p := job(t, "second-unit")
	if p.Proposal.Choice.Bypass != "parallel" || p.Proposal.Second == nil || p.Proposal.SecondMarking == nil {
		t.Fatalf("not in parallel: %+v", p.Proposal.Choice)
	}
	for i := range p.After.Solutions {
		s := &p.After.Solutions[i]
		a, b := s.Part("unit-1").Flow, s.Part("unit-2").Flow
		if !agree.Within(a, b, 0.1*a) || b < 2.9/3600 {
			t.Errorf("%s: %.2f and %.2f m3/h", s.Mode.Name, a*3600, b*3600)
		}
	}
}

// Taken out, the unit leaves a line straight on, and no open end.
func TestUnitOutJob(t *testing.T) {
	p := job(t, "unit-out")
	if len(p.After.Circuit.Units()) != 0 {
		t.Error("the unit is still there")
	}
	slips := p.After.Circuit.OfKind(graph.SlipCoupling)
	if len(slips) == 0 {
		t.Error("nothing lets the closing piece in")
	}
	for i := range p.After.Solutions {
		now, was := p.After.Solutions[i].Part("filter").Flow, p.Before.Solutions[i].Part("filter").Flow
		if now <= 0 || !agree.Within(now, was, 0.2*was) {
			t.Errorf("%.2f m3/h after, %.2f before", now*3600, was*3600)
		}
	}
}

// A second unit that takes the first one's water below its least is no good job, though the
// first was there before.
func TestSecondUnitLeavesTheFirstItsFlow(t *testing.T) {
	c := readFile(t, "testdata/jobs/second-unit.toml")
	before := job(t, "second-unit").Before.Solutions[0].Part("unit-1").Flow
	c.Part("unit-1").Unit.Least = 0.98 * before
	p := work(t, c, everything)
	if p.Proposal != nil && p.Proposal.Choice.Bypass == "parallel" {
		t.Fatal("fitted in parallel all the same")
	}
	for _, v := range p.Places {
		short := func(r search.Reason) bool {
			return r.Rule == "unit-least-flow" && strings.Contains(r.Text.String(), `"unit-1" gets`)
		}
		if slices.ContainsFunc(v.Reasons, short) {
			return
		}
	}
	t.Errorf("nobody says that unit-1 goes short: %v", p.Places)
}

// Where the first unit's pipes have no play, a plain union leaves no way in for the string,
// and a true-union valve stands in its place: by the replay of the assembly with bodies.
func TestSecondUnitWithoutPlay(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(data), "play = \"80 mm\"\n", "")
	p := work(t, read(t, "second-unit.toml", []byte(text)), everything)
	if p.Proposal == nil || p.Proposal.Choice.Bypass != "parallel" {
		t.Fatalf("not in parallel: %v", errorsOf(p.Findings))
	}
	valves := 0
	for _, id := range p.Proposal.NewIDs {
		if part := p.Circuit.Part(id); part != nil && strings.HasPrefix(id, "service") {
			if part.Kind != graph.BallValve {
				t.Errorf("%s is a %s", id, part.Kind)
			}
			valves++
		}
	}
	if valves != 2 || len(p.After.Bodies.Replay()) > 0 {
		t.Errorf("%d valves, blocked: %v", valves, p.After.Blocked)
	}
}

// What old pipe is taken out is what lies between the two cuts, as they are marked: the bill and the drawing
// speak of one piece. Held on the demos that saw pipe.
func TestPipeTakenOutIsBetweenTheCuts(t *testing.T) {
	held := 0
	for _, name := range []string{"two-speed", "circulation", "plunge-pool"} {
		p := planned(t, "../../testdata/"+name+".toml")
		m := p.Proposal.Marking
		for _, i := range p.Bill.Items {
			if i.Kind != "pipe" || !i.Removed {
				continue
			}
			held++
			if want := (m.SecondMM - m.FirstMM) / 1000; !agree.Within(i.Quantity, want, 0.0011) {
				t.Errorf("%s: %s, %.4f m; %.4f m lie between the cuts", name, i.Name, i.Quantity, want)
			}
		}
	}
	if held < 2 {
		t.Errorf("only %d pieces taken out", held)
	}
}
