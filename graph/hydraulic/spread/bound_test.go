package spread

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
	"dryfit/graph/sample"
)

// What the ranges take is bounded by a count: at least the points that a year of heat stands on, and
// never more runs solved than four million or what those few points take, whether the runs are those of
// one large circuit or of many modes. Counted by hand: 2,000 runs in two modes, before and after, are
// 8,000 a point, so 512 points.
func TestPointsOfALargeCircuit(t *testing.T) {
	for _, c := range []struct{ sum, want int }{
		{0, 1021},
		{40, 1021},
		{4000, 1021},  // 1,000 runs in two modes, before and after
		{4004, 1021},  // time for all
		{6000, 1021},  // time for more than half of them
		{8200, 500},   // 100 runs in 41 modes, before and after
		{10_000, 410}, // 5,000 in one mode
		{60_000, 68},
		{200_000, 64},
	} {
		points := sample.Some(worthSolving(c.sum))
		if len(points) != c.want {
			t.Errorf("%d runs in all stages: %d points, want %d", c.sum, len(points), c.want)
		}
		for _, i := range sample.Few() {
			if !slices.Contains(points, i) {
				t.Errorf("%d runs: point %d, on which a year stands, is not among them", c.sum, i)
			}
		}
	}
}

// Where a circuit has too many unknowns for each to be moved by itself, what is left out moves next to
// nothing: of every demo as it stands half of the unknowns are left out, and each of them, moved after
// all, moves the flow that is watched by less than two in a hundred, though others move it by far more.
// What is left out is told as untried.
func TestWhatIsNotMovedMovesLittle(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatal("no demos", err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(file, data)
		if c == nil {
			t.Fatal(ds)
		}
		lay := laying.Of(c.At(graph.Before))
		s := newSpread(lay, lay, "")
		s.over(s.fitting([]int{0}))
		half := s.worthMoving(len(s.all) / 2)
		every := s.influences(s.worthMoving(len(s.all)))
		most, left := 0.0, 0
		for _, f := range every {
			k := slices.IndexFunc(s.all, func(u unknown) bool { return u.what == f.What && u.part == f.Part })
			if most = max(most, f.Effect); slices.Contains(half, k) {
				continue
			}
			if left++; !(f.Effect < 0.02) {
				t.Errorf("%s: %s moves %s by %.2g, and is not tried", file, f.What, f.Moves, f.Effect)
			}
		}
		if left < len(s.all)/4 || !(most > 0.05) {
			t.Errorf("%s: %d of %d left out, the most any moves is %.2g: nothing is tested", file, left, len(s.all), most)
		}
		told := 0
		for _, f := range s.influences(half) {
			if f.Untried {
				told++
			}
		}
		if told != left {
			t.Errorf("%s: %d told as untried, %d are", file, told, left)
		}
	}
}

// How many unknowns are moved by themselves hangs on what that takes: two solutions of each mode's runs.
// Counted by hand of a circuit of 20 runs in two modes: 80 runs solved for each unknown.
func TestHowManyAreMoved(t *testing.T) {
	of := func(runs, modes int) *spreader {
		s := &spreader{}
		for range modes {
			s.modes = append(s.modes, &spreadMode{after: &spreadStage{likely: &hydraulic.Solution{Runs: make([]hydraulic.RunFlow, runs)}}})
		}
		return s
	}
	for _, c := range []struct{ runs, modes, want int }{{20, 2, 25_000}, {2400, 2, 208}, {5000, 12, 60}} {
		if got := of(c.runs, c.modes).mostMoved(); got != c.want {
			t.Errorf("%d runs in %d modes: %d unknowns, want %d", c.runs, c.modes, got, c.want)
		}
	}
}

// What was read is held against so many points as there is time for, too. Counted by hand: 1,021 points
// of 20 runs in two modes are 40,840 runs, twelve times that is next to nothing; of 900 runs 1.8 million.
func TestHowOftenReadingsAreTried(t *testing.T) {
	for _, c := range []struct{ runs, points, want int }{{20, 1021, 12}, {900, 1021, 2}, {5000, 1021, 1}, {5000, 64, 6}} {
		read := make([]*spreadStage, 2)
		for i := range read {
			read[i] = &spreadStage{likely: &hydraulic.Solution{Runs: make([]hydraulic.RunFlow, c.runs)}}
		}
		if got := (&spreader{}).mostRounds(c.points, read); got != c.want {
			t.Errorf("%d points of %d runs: gone through %d times, want %d", c.points, c.runs, got, c.want)
		}
	}
}

// What solving a net takes hangs on how its loops hang together, too: a row of two hundred rungs is
// solved at as many points as its runs allow, the same rungs joined crosswise, each with one far off, at
// fewer. A property; measured, one solution of three hundred rungs
// takes 3.5 ms in a row and 150 ms where they are joined at random.
func TestLoopsCrosswiseTakeMore(t *testing.T) {
	work := func(step int) int {
		c, ds := description.Read("rungs.toml", []byte(rungs(200, step)))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		lay := laying.Of(c.At(graph.Before))
		return newSpread(lay, lay, "").runs()
	}
	row, crosswise := work(1), work(77)
	if runs := 3*200 + 6; row < runs || row > runs*5/4 || crosswise < 3*row {
		t.Errorf("a row of rungs counts as %d runs, crosswise as %d", row, crosswise)
	}
}

// rungs describes two lines of n tees, each joined to one of the other line, step further on.
func rungs(n, step int) string {
	var b strings.Builder
	b.WriteString("[pipe]\nspec = \"pvc-sch40\"\nsize = \"2 in\"\n[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"a\", \"b\"]\n[[part]]\nid = \"pump\"\nkind = \"pump\"\nexisting = true\ncurve = [[\"0 m3/h\", \"18 m\"], [\"34 m3/h\", \"3 m\"]]\n")
	run := func(from, to string) {
		fmt.Fprintf(&b, "[[run]]\nfrom = %q\nto = %q\nexisting = true\nlength = \"400 mm\"\n", from, to)
	}
	run("tub.a", "pump.in")
	from, back := "pump.out", ""
	for i := range n {
		for _, line := range []string{"x", "y"} {
			fmt.Fprintf(&b, "[[part]]\nid = \"%s%d\"\nkind = \"tee\"\nexisting = true\n", line, i)
		}
		run(from, fmt.Sprintf("x%d.run-in", i))
		if from = fmt.Sprintf("x%d.run-out", i); back != "" {
			run(back, fmt.Sprintf("y%d.run-in", i))
		}
		back = fmt.Sprintf("y%d.run-out", i)
		run(fmt.Sprintf("x%d.branch", i), fmt.Sprintf("y%d.branch", i*step%n))
	}
	run(from, "y0.run-in")
	run(back, "tub.b")
	return b.String()
}
