package retrofit

import (
	"math"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/retrofit/draft"
)

// sch80 is 1-1/2 in Schedule 80 pipe: ASTM D2467 socket 34.925 mm, tee 25.40 mm.
func sch80(asked graph.Retrofit) work {
	c := &graph.Circuit{Catalog: catalog.Embedded(), Retrofit: &asked}
	return newWork(c, &graph.Run{ID: "line", Spec: "pvc-sch80", Size: catalog.Size{Nominal: 1.5}}, stops{})
}

// The worked example of a cut-in: tee, true-union ball valve (103.10, a maker's table), tee,
// two nipples of twice the socket and 5 mm.
//
//	nipple      2·34.925 + 5                                  =  74.85
//	gap         50.80 + 74.85 + 103.10 + 74.85 + 50.80        = 354.40
//	face - face 354.40 + 2·34.925                             = 424.25
//
// Source: computed from ASTM D2467 socket depths and laying lengths.
func TestCutInWorkedExample(t *testing.T) {
	a := sch80(graph.Retrofit{}).newAssembly(Choice{Bypass: "valve"})
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"nipple", a.first, 74.85},
		{"nipple", a.second, 74.85},
		{"gap to open", a.gap(), 354.40},
		{"face to face", a.needed(), 424.25},
	} {
		if !agree.Within(c.got, c.want, 0.005) {
			t.Errorf("%s = %.3f mm, want %.2f", c.what, c.got, c.want)
		}
	}
	sum := 0.0
	for _, term := range a.terms {
		sum += term.MM
	}
	if !agree.Within(sum, a.needed(), 1e-9) {
		t.Errorf("the terms add up to %.3f mm, the whole is %.3f", sum, a.needed())
	}
}

// More assemblies by hand. Sockets and tees: ASTM D2466 and D2467 (handbook copies) and
// ISO 727 / ISO 264 (from memory); valves: the catalogue's, marked "measure".
func TestAssemblyByHand(t *testing.T) {
	in := func(n float64) catalog.Size { return catalog.Size{Nominal: n} }
	mm := func(n float64) catalog.Size { return catalog.Size{Metric: true, Nominal: n} }
	no := false
	slip := catalog.Embedded().With([]catalog.Row{{Name: "slip mine", Kind: "slip-coupling", Spec: "pvc-sch80", Size: in(2), SocketMM: 45, LengthMM: 110, Source: "invented"}})
	for _, c := range []struct {
		name   string
		spec   catalog.Spec
		size   catalog.Size
		asked  graph.Retrofit
		bypass string
		want   float64 // face to face
	}{
		// depth 38.10, half 31.75, check 95: 4·31.75 + 2·(2·38.10+5) + 95 + 2·38.10
		{"2 in Schedule 80, spring", "pvc-sch80", in(2), graph.Retrofit{}, "spring", 127 + 162.4 + 95 + 76.2},
		// with true-union valve 128.5
		{"2 in Schedule 80, valve", "pvc-sch80", in(2), graph.Retrofit{}, "valve", 127 + 162.4 + 128.5 + 76.2},
		// plain valve, 90
		{"2 in Schedule 80, plain valve", "pvc-sch80", in(2), graph.Retrofit{TrueUnion: &no}, "valve", 127 + 162.4 + 90 + 76.2},
		// no element: 4·31.75 + one piece of 2·38.10+5 + 2·38.10
		{"2 in Schedule 80, nothing in the line", "pvc-sch80", in(2), graph.Retrofit{}, "none", 127 + 81.2 + 76.2},
		// 100 mm more before the check
		{"2 in Schedule 80, spring and 100 mm", "pvc-sch80", in(2), graph.Retrofit{ExtraMM: 100}, "spring", 127 + 162.4 + 95 + 76.2 + 100},
		// Schedule 40, 2 in: socket of the tee 1-5/32 in = 29.369, of the valve 38.10, half 31.75
		{"2 in Schedule 40, valve", "pvc-sch40", in(2), graph.Retrofit{}, "valve", 127 + 2*(29.36875+38.1+5) + 128.5 + 2*29.36875},
		// 50 mm: socket 31, half 26, check 90
		{"50 mm PN16, spring", "pvc-pn16", mm(50), graph.Retrofit{}, "spring", 4*26 + 2*(31+31+5) + 90 + 2*31},
		// 63 mm: socket 37.5, half 32.5, true-union valve 123
		{"63 mm PN10, valve", "pvc-pn10", mm(63), graph.Retrofit{}, "valve", 4*32.5 + 2*(75+5) + 123 + 2*37.5},
		// 50 mm pipe, 63 mm bypass: bush 63 x 50 adds 6.5 at each end, the old pipe goes 31 deep
		{"50 mm with a 63 mm bypass, valve", "pvc-pn16", mm(50), graph.Retrofit{BypassSize: mm(63)}, "valve", 4*32.5 + 2*6.5 + 2*(75+5) + 123 + 2*31},
		// 1-1/2 in Schedule 80 with a 2 in bypass: bush adds 38.10 - 34.925 = 3.175
		{"1-1/2 in with a 2 in bypass, spring", "pvc-sch80", in(1.5), graph.Retrofit{BypassSize: in(2)}, "spring", 127 + 2*3.175 + 162.4 + 95 + 2*34.925},
		// with a slip coupling 45 deep at the far end: the piece to it 38.10 + 45 + 5 and the 1 mm it is cut short, and the
		// old pipe 38.10 deep at one end and 45 at the other
		{"2 in Schedule 80, valve, a slip coupling", "pvc-sch80", in(2), graph.Retrofit{SlipCoupling: true}, "valve", 127 + 162.4 + 128.5 + 89.1 + 38.1 + 45},
		// a valve round the check: two tees more, 4·31.75, each on a nipple of 2·38.10+5. Between their centres lie
		// 2·31.75 + 2·81.2 + 95 = 320.9; the loop wants two elbows of 31.75, two nipples and the valve of 128.5, 354.4
		{"2 in Schedule 80, spring, a service valve", "pvc-sch80", in(2), graph.Retrofit{ServiceValve: true}, "spring", 127 + 162.4 + 95 + 76.2 + 127 + 162.4 + 33.5},
		// a plain valve, which opens nowhere, between ends that give nothing: one at each cut, and
		// bare old pipe as long as each is over all, 110 + 2·45
		{"2 in Schedule 80, plain valve, two slip couplings", "pvc-sch80", in(2), graph.Retrofit{SlipCoupling: true, TrueUnion: &no}, "valve", 127 + 162.4 + 90 + 2*89.1 + 2*200},
	} {
		circuit := &graph.Circuit{Catalog: slip, Retrofit: &c.asked}
		w := newWork(circuit, &graph.Run{ID: "line", Spec: c.spec, Size: c.size}, stops{})
		a, sum := w.newAssembly(Choice{Bypass: c.bypass}), 0.0
		for _, term := range a.terms {
			sum += term.MM
		}
		if got := a.needed(); !agree.Within(got, c.want, 0.01) || !agree.Within(sum, got, 1e-9) {
			t.Errorf("%s: %.3f mm from face to face, want %.3f; the terms add up to %.3f", c.name, got, c.want, sum)
		}
	}
}

// The bends of the unit's branch. Take-offs of 1-1/2 in Schedule 80: 1 in for 90°, 7/16 in for
// 45° (ASTM D2467, handbook copy); straight on there is none, nor one that turns by 30°.
func TestBendsOfTheBranch(t *testing.T) {
	w := sch80(graph.Retrofit{})
	w.branchSpec, w.branchSize = "pvc-sch80", catalog.Size{Nominal: 1.5}
	for _, c := range []struct {
		next graph.Vec
		want float64
	}{
		{graph.Vec{X: 300}, 0},
		{graph.Vec{X: 300, Z: 300}, 7.0 / 16 * 25.4},
		{graph.Vec{X: 300, Z: 300 * math.Tan(30*math.Pi/180)}, 0},
		{graph.Vec{Z: 300}, 25.4},
	} {
		if got := w.elbow(graph.Vec{X: 500}, c.next).TakeOff; !agree.Within(got, c.want, 1e-6) {
			t.Errorf("right, then %v: a take-off of %.4f mm, want %.4f", c.next, got, c.want)
		}
	}
}

// The check before a feeder is a swing check where the water runs level or up, a spring check
// where there are only legs in which it runs down, level or not: a flap hangs shut against water
// that comes down on it. Common practice, no source.
func TestFeederCheckByTheWayOfTheWater(t *testing.T) {
	for _, c := range []struct {
		name, style string
		legs        []graph.Vec
	}{
		{"level", "swing", []graph.Vec{{X: -1500}}},
		{"up", "swing", []graph.Vec{{Z: 1500}}},
		{"rising at 45°", "swing", []graph.Vec{{X: -1000, Z: 1000}}},
		{"down", "spring", []graph.Vec{{Z: -1500}}},
		{"falling at 45°", "spring", []graph.Vec{{X: -1000, Z: -1000}}},
		{"down, then level", "swing", []graph.Vec{{Z: -1500}, {X: -1500}}},
	} {
		d := draft.Of(&graph.Circuit{Catalog: catalog.Embedded(), Retrofit: &graph.Retrofit{}})
		l := newLimb(sch80(graph.Retrofit{}), d)
		var legs []graph.Leg
		for _, v := range c.legs {
			legs = append(legs, draft.Leg(v))
		}
		s := draft.NewStrand("from-unit", draft.At("unit", graph.Out), draft.At("tee", graph.Branch), legs, l.port, l.bush, l.w.elbow)
		l.feederCheck(s)
		p := d.Part("feeder-check")
		if p == nil || p.Check == nil || p.Check.Style != c.style || len(l.findings) > 0 {
			t.Errorf("%s: %+v, want a %s check; %v", c.name, p, c.style, l.findings)
			continue
		}
		if last := s.Items[len(s.Items)-1]; c.style == "swing" && c.legs[last.Leg].Z < 0 {
			t.Errorf("%s: the swing check stands where the water runs down", c.name)
		}
	}
}

// Where the case reaches past the stop of a port, the union stands before the case: its own socket,
// the depth of the pipe in it, and the bead of 5 mm between. By hand on a Schedule 80 socket of 34.9 mm
// (ASTM D2467, 1 1/2 in): a case 20 mm before the stop changes nothing, one 60 mm before it asks for 60
// mm where the depth of the port was.
func TestUnionStandsBeforeTheCase(t *testing.T) {
	for _, c := range []struct{ sunkMM, depth float64 }{{0, 0}, {20, 0}, {60, 60}} {
		w := sch80(graph.Retrofit{Stand: &graph.Stand{PortsFace: graph.Vec{X: -1}}})
		d := draft.Of(&graph.Circuit{Catalog: catalog.Embedded(), Retrofit: w.asked})
		unit := &graph.Part{ID: "unit", Kind: graph.HeatPump, Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}, Surroundings: graph.NothingSaid()}
		w.unit = unit
		plain := newLimb(w, d).port.Depth
		unit.Box = &graph.Span{{X: -c.sunkMM, Y: -300, Z: -100}, {X: 500, Y: 300, Z: 600}}
		if got, want := newLimb(w, d).port.Depth, max(plain, c.depth); !agree.Within(got, want, 0.05) {
			t.Errorf("case %g mm before the port: the union keeps %.1f mm from its stop, want %.1f", c.sunkMM, got, want)
		}
	}
}
