package laying

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// Where the two faces of each adaptor of a chain stand, by hand from a port whose stop lies 20 mm
// along the pipe: a transition on a nipple of 60 mm, of which 25 go into it, that adds 40 mm and takes
// the next 30 mm deep begins 20+60-25 and ends 20+60+40+30 from there; the coupling after it, which
// adds 4 mm, reaches back over what stands in it by its depth of 30 and as far forward.
func TestFacesOfAChain(t *testing.T) {
	path := &route.Path{Fittings: make([]route.Fitting, 2)}
	s := &station{partTakeOff: 20, chain: []adaptor{
		{settle.Adaptor{Kind: "transition", NippleMM: 60, NippleFromMM: 30, NippleToMM: 25, AddsMM: 40, DepthMM: 30}, 0},
		{settle.Adaptor{Kind: "coupling", AddsMM: 4, DepthMM: 30}, 1},
	}}
	(&work{}).placeChain(path, s, graph.Vec{Y: 7}, graph.Vec{X: 1000, Y: 7})
	for i, want := range [][2]float64{{55, 150}, {90, 154}} {
		f := &path.Fittings[i]
		if !agree.Within(f.Near.X, want[0], 1e-9) || !agree.Within(f.Far.X, want[1], 1e-9) || f.Near.Y != 7 || f.Far.Z != 0 {
			t.Errorf("adaptor %d stands from %v to %v, want %v along the pipe", i, f.Near, f.Far, want)
		}
	}
}

// A 1-1/2 in valve in a 2 in Schedule 80 line: on each side a reducer, or a bush in a
// coupling, on a nipple; the run's piece shortens by what they add. The nipple is both
// sockets and the bead: at least 34.925 + 5 (ASTM D2467 depth of the valve's end).
func TestPartSmallerThanRun(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(2))
	s.part(graph.Pump, "a")
	v := s.part(graph.BallValve, "v")
	v.Size, v.LengthMM = inch(1.5), 72
	s.part(graph.Filter, "b")
	s.run("a.out", "v.in", right(600))
	s.run("v.out", "b.in", right(600))
	lay := Of(s.c)
	noErrors(t, lay)
	for i := range lay.Paths {
		var kinds []string
		adds := 0.0
		for _, f := range lay.Paths[i].Fittings {
			kinds = append(kinds, f.Kind)
			if f.Kind == "coupling" || f.Kind == "reducer" {
				adds += f.Row.LengthMM
			} else {
				adds += f.Row.TakeOffMM
			}
		}
		if len(kinds) == 0 {
			t.Fatalf("%s: nothing joins 2 in pipe to a 1-1/2 in valve", lay.Paths[i].Run.ID)
		}
		total := adds
		nipples := 0
		for _, k := range lay.Paths[i].Pieces {
			p := lay.Pieces[k]
			total += p.CutMM
			if p.Size == inch(1.5) {
				nipples++
				if p.CutMM < 34.925+5 {
					t.Errorf("nipple of %g mm", p.CutMM)
				}
			}
		}
		if nipples != 1 {
			t.Errorf("%s: %d nipples, want 1 (%v)", lay.Paths[i].Run.ID, nipples, kinds)
		}
		near(t, "pieces and fittings of "+lay.Paths[i].Run.ID, total, 600, 0.02)
	}
}

// Every piece is as long as its two ends are apart, and pieces, take-offs and coupling
// gaps of a run make up its length: random runs of many sizes. Geometry, no source needed.
func TestPiecesMakeUpTheRun(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	sizes := map[catalog.Spec][]catalog.Size{
		catalog.PVCSch40: {inch(1), inch(1.5), inch(2)}, catalog.PVCSch80: {inch(1), inch(1.5), inch(2)},
		catalog.PVCPN10: {dn(50), dn(63)}, catalog.PVCPN16: {dn(40), dn(50), dn(63)},
	}
	axes := []graph.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: -1}, {Y: -1}, {Z: -1}}
	specs := []catalog.Spec{catalog.PVCSch40, catalog.PVCSch80, catalog.PVCPN10, catalog.PVCPN16}
	for trial := range 300 {
		spec := specs[random.IntN(4)]
		pick := func() catalog.Size { return sizes[spec][random.IntN(len(sizes[spec]))] }
		s := newSketch(spec, pick())
		s.part(graph.Tee, "a").Size = pick()
		s.part(graph.BallValve, "b").Size = pick()
		var legs []graph.Vec
		last := 0
		for k := range 1 + random.IntN(4) {
			axis := random.IntN(6)
			if k > 0 && (axis == last || axis == (last+3)%6) {
				axis = (last + 1) % 6
			}
			last = axis
			legs = append(legs, axes[axis].Scale(600+float64(random.IntN(90000))/10))
		}
		s.run("a.branch", "b.in", legs...)
		lay := Of(s.c)
		noErrors(t, lay)
		sum := 0.0
		for _, p := range lay.Pieces {
			near(t, fmt.Sprintf("trial %d piece %d", trial, p.Number), p.Finish.Sub(p.Start).Len(), p.CutMM, 1e-6)
			if p.Size == s.size {
				sum += p.CutMM + p.From.TakeOffMM + p.To.TakeOffMM
			}
		}
		for _, f := range lay.Paths[0].Fittings {
			if f.Kind == "coupling" && f.Point == -1 {
				sum += f.Row.LengthMM
			}
		}
		near(t, fmt.Sprintf("trial %d", trial), sum, lay.Paths[0].LengthMM, 1e-6)
	}
}

// Flexible pipe bends by itself: no elbows, one piece for a run, and room to bend is asked
// for (4 outside diameters, common practice, no source; 2 in: 4 x 60.325 = 241.3 mm).
func TestFlexibleBends(t *testing.T) {
	s := newSketch(catalog.FlexInch, inch(2))
	s.part(graph.Pump, "a")
	s.part(graph.Filter, "b")
	s.run("a.out", "b.in", right(400), up(240))
	lay := Of(s.c)
	noErrors(t, lay)
	if len(lay.Pieces) != 1 || len(lay.Paths[0].Fittings) != 0 {
		t.Fatalf("%d pieces and %d fittings, want 1 and 0", len(lay.Pieces), len(lay.Paths[0].Fittings))
	}
	near(t, "length", lay.Pieces[0].CutMM, 640, 1e-9)
	if w := findings(lay.Findings, graph.Warning); !strings.Contains(w, "needs 241.3 mm on each side of a turn of 90°") {
		t.Errorf("no such warning in:\n%s", w)
	}
}

// A new run known only by its length has its joints but no pieces.
func TestUnmeasuredRun(t *testing.T) {
	s := newSketch(catalog.PVCPN16, dn(50))
	s.part(graph.Pump, "a")
	s.part(graph.Filter, "b")
	r := s.run("a.out", "b.in")
	r.LengthMM, r.HasLength = 1800, true
	r.Fittings = []graph.FittingCount{{Kind: "elbow-90", Count: 2}}
	lay := Of(s.c)
	noErrors(t, lay)
	if len(lay.Pieces) != 0 || len(lay.Joints) != 6 {
		t.Errorf("%d pieces and %d joints, want 0 and 6", len(lay.Pieces), len(lay.Joints))
	}
	r.Fittings = nil
	if lay := Of(s.c); len(lay.Pieces) != 1 || lay.Pieces[0].CutMM != 1800 || lay.Paths[0].Located {
		t.Errorf("straight run by its length: %+v, want one piece of 1800 mm without a place", lay.Pieces)
	}
}

// A catalogue length nobody could read from a standard is said to be measured first; a
// length the description gives is not.
func TestMeasureFirst(t *testing.T) {
	for _, length := range []float64{0, 103} {
		s := newSketch(catalog.PVCPN16, dn(50))
		s.part(graph.Pump, "a")
		s.part(graph.BallValve, "v").LengthMM = length
		s.run("a.out", "v.in", up(300), right(400))
		lay := Of(s.c)
		noErrors(t, lay)
		p := lay.Pieces[1]
		said := strings.Contains(strings.Join(p.MeasureWhat, ";"), "v: ball-valve 50 mm, stop to stop")
		if said != (length == 0) {
			t.Errorf("length %g: measure %v", length, p.MeasureWhat)
		}
	}
}

// A length that hangs on an adaptor as well names both: from a union of 2 in to metric pipe
// the transition's length counts (38.10 + 38.10 + 5 for the nipple, ASTM D2467, and the
// transition's 8 mm, assumed, are the take-off).
func TestMeasureTheAdaptorToo(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(2))
	s.part(graph.Pump, "a")
	s.part(graph.Filter, "b")
	s.part(graph.Union, "u")
	s.run("a.out", "u.in", right(400))
	r := s.run("u.out", "b.in", right(400))
	r.Spec, r.Size = catalog.PVCPN16, dn(63)
	lay := Of(s.c)
	noErrors(t, lay)
	p := lay.Pieces[len(lay.Pieces)-1]
	near(t, "cut", p.CutMM, 400-(38.10+38.10+5)-8, 0.005)
	want := "u: union 2 in, stop to stop;transition 2 in x 63 mm"
	if got := strings.Join(p.MeasureWhat, ";"); got != want {
		t.Errorf("measure %q, want %q", got, want)
	}
}

// Where no transition is made between the two sizes, a bush goes in first. Worked by hand:
// tee 2 in Schedule 80 (take-off 31.75 mm), flush bush to 1-1/2 in (38.10 - 34.925 = 3.175
// mm, ASTM D2467), nipple of 1-1/2 in between the bush and the transition (34.925 + 34.925 +
// 5 mm), transition (8 mm, assumed) to dn 50, elbow (26 mm, ISO 264, from memory): of a leg
// of 400 mm 400 - 117.775 - 26 = 256.225 mm are left.
func TestBushThenTransition(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(2))
	s.part(graph.Pump, "a")
	s.part(graph.Filter, "b")
	s.part(graph.Cap, "c")
	s.part(graph.Tee, "t")
	s.run("a.out", "t.run-in", right(400))
	s.run("t.run-out", "b.in", right(400))
	r := s.run("t.branch", "c.in", front(400), up(300))
	r.Spec, r.Size = catalog.PVCPN16, dn(50)
	lay := Of(s.c)
	noErrors(t, lay)
	var kinds []string
	for _, f := range lay.Paths[2].Fittings {
		kinds = append(kinds, f.Kind)
	}
	if got := strings.Join(kinds, ", "); got != "reducing-bush, transition, elbow-90" {
		t.Fatalf("fittings %s", got)
	}
	l := lengths(lay)
	near(t, "nipple", l[2], 34.925+34.925+5, 0.005)
	near(t, "cut", l[3], 400-(31.75+3.175+74.85+8)-26, 0.005)
}

// A part in the middle of nowhere: no legs, no places, no panic.
func TestNothingKnown(*testing.T) {
	s := newSketch("", catalog.Size{})
	s.part(graph.Pump, "a")
	s.part(graph.Tee, "t")
	s.part(graph.BallValve, "v")
	s.run("a.out", "t.run-in")
	s.run("t.branch", "gone.in", right(0))
	s.run("v.out", "v.in", right(100))
	Of(s.c)
	Of(&graph.Circuit{})
}

// A port whose size differs from the pipe's in width and in series gets both fittings, in an
// order the catalogue has rows for: a bush in the larger port and the transition behind it, or the
// transition at the port and a reducer or a bush behind that. Pieces, transitions and bushes
// make up the leg, and every nipple is of the pipe its two sockets take. Geometry; the sizes
// beside each other are those of the transitions of the catalogue.
func TestWidthAndSeriesAtOnePort(t *testing.T) {
	for _, c := range []struct {
		name       string
		valve      catalog.Size
		valveSpec  catalog.Spec
		pipe       catalog.Size
		pipeSpec   catalog.Spec
		want       string
		wantPieces string
	}{
		{"inch port, pipe two sizes up", inch(1), catalog.PVCSch40, dn(50), catalog.PVCPN10, "transition reducer", "1 in, 32 mm, 50 mm"},
		{"inch port, pipe a size up", inch(1.5), catalog.PVCSch40, dn(63), catalog.PVCPN10, "transition reducer", "1-1/2 in, 50 mm, 63 mm"},
		{"metric port, inch pipe a size up", dn(50), catalog.PVCPN10, inch(2), catalog.PVCSch40, "transition reducer", "50 mm, 1-1/2 in, 2 in"},
		{"inch port, pipe a size down", inch(2), catalog.PVCSch40, dn(50), catalog.PVCPN10, "reducing-bush transition", "1-1/2 in, 50 mm"},
		{"inch port, pipe beside it", inch(1.5), catalog.PVCSch40, dn(50), catalog.PVCPN10, "transition", "1-1/2 in, 50 mm"},
	} {
		s := newSketch(c.pipeSpec, c.pipe)
		s.part(graph.Pump, "a")
		v := s.part(graph.BallValve, "v")
		v.Size, v.Spec, v.LengthMM = c.valve, c.valveSpec, 72
		s.run("a.out", "v.in", right(900))
		lay := Of(s.c)
		noErrors(t, lay)
		path := &lay.Paths[0]
		var kinds, sizes []string
		total := 0.0
		for _, f := range path.Fittings {
			kinds = append([]string{f.Kind}, kinds...) // from the valve
			if f.Row.TakeOffMM > 0 {
				total += f.Row.TakeOffMM
			} else {
				total += f.Row.LengthMM
			}
		}
		for _, k := range path.Pieces {
			p := lay.Pieces[k]
			sizes = append(sizes, p.Size.String())
			total += p.CutMM
			if p.Size.Metric != (p.Spec.Family() == catalog.Metric) {
				t.Errorf("%s: piece of %s is of %s", c.name, p.Size, p.Spec)
			}
		}
		slices.Sort(sizes)
		want := strings.Split(c.wantPieces, ", ")
		slices.Sort(want)
		slices.Sort(kinds)
		fittings := strings.Fields(c.want)
		slices.Sort(fittings)
		if !slices.Equal(kinds, fittings) || !slices.Equal(sizes, want) {
			t.Errorf("%s: %v with pieces of %v, want %v and %v", c.name, kinds, sizes, fittings, want)
		}
		near(t, c.name+": pieces and fittings", total, 900, 0.05)
	}
}

// A port sunk into its case by 58 mm: the transition on it stands before the case, on a nipple as long as
// the 58 mm and the depth of its own socket, 31 mm (ISO 727, 50 mm); in one sunk by 5 mm the nipple is the two
// sockets of 31 mm and the bead of 5, for that reaches out. Old work stands as it was made.
func TestTransitionStandsBeforeTheCase(t *testing.T) {
	for _, c := range []struct {
		sunkMM, nipple float64
		old            bool
	}{{5, 67, false}, {58, 89, false}, {58, 67, true}} {
		s := newSketch(catalog.PVCSch40, inch(1.5))
		s.part(graph.Pump, "a")
		unit := s.part(graph.HeatPump, "unit")
		left := graph.Vec{X: -1}
		unit.Size, unit.Spec, unit.Ports[0].Faces, unit.Existing = dn(50), catalog.PVCPN10, &left, c.old
		unit.Box = &graph.Span{{X: -c.sunkMM, Y: -300, Z: -100}, {X: 500, Y: 300, Z: 600}}
		s.run("a.out", "unit.in", right(900)).Existing = c.old
		chain := settle.Of(s.c).Run("a.out>unit.in").Ends[1].Adaptors
		if len(chain) != 1 || chain[0].Kind != "transition" || !agree.Within(chain[0].NippleMM, c.nipple, 0.05) {
			t.Errorf("sunk by %g mm, old %v: %+v, want a nipple of %g mm", c.sunkMM, c.old, chain, c.nipple)
		}
	}
}
