package retrofit

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/graph/stream"
)

// secondUnit is the description of a job where a second unit goes in beside a first, some of its
// lines replaced by others: the old and the new in turn.
func secondUnit(t *testing.T, put ...string) string {
	t.Helper()
	data, err := os.ReadFile("../plan/testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(put); i += 2 {
		if !strings.Contains(text, put[i]) {
			t.Fatalf("no line %q", put[i])
		}
		text = strings.Replace(text, put[i], put[i+1], 1)
	}
	return text
}

// laidOut reads a description and lays it out as it is before the work.
func laidOut(t *testing.T, text string) (*graph.Circuit, *route.Layout) {
	t.Helper()
	c, ds := description.Read("second-unit.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	return c, laying.Of(c.At(graph.Before))
}

// besideFirst is the first unit on whose pipes another could be teed in.
func besideFirst(t *testing.T, c *graph.Circuit, lay *route.Layout) *stream.UnitBranch {
	t.Helper()
	all := BesideUnits(c, lay)
	if len(all) == 0 {
		t.Fatal("no unit that a second could stand beside")
	}
	return all[0]
}

// Of the legs of the first unit's pipe that have room for a tee, that one is taken from which the
// pipe on to the first unit comes nearest to what the second has. By hand: the pipe to the first
// unit has legs of 1 m, 1.5 m and 1.5 m and 100 mm behind its union, so that a tee in the middle
// half of its first, second or last leg has 3.1 m to 3.85 m, 1.85 m to 2.975 m or 0.35 m to
// 1.475 m before it, the lengths of the parts left out of the count on both sides.
func TestTeeWhereThePipesBecomeAlike(t *testing.T) {
	c, lay := laidOut(t, secondUnit(t, `legs = ["front 300 mm", "left 1500 mm"]`, `legs = ["front 1 m", "up 1500 mm", "left 1500 mm"]`))
	beside := besideFirst(t, c, lay)
	for _, x := range []struct {
		want      float64
		leg       int
		low, high float64
	}{{3500, 1, 3100, 3850}, {2300, 2, 1850, 2975}, {900, 3, 350, 1475}} {
		tee, ok := NewSite(c, lay).bestTee(beside.ToUnitRuns, true, x.want)
		if !ok || tee.play() < 0 || tee.path.Run.ID != "to-first" || tee.leg != x.leg || !agree.Between(tee.beyond, x.low, x.high) {
			t.Errorf("for %g mm of pipe a tee in leg %d of %s, %.0f mm before the unit; want leg %d", x.want, tee.leg, tee.path.Run.ID, tee.beyond, x.leg)
		}
	}
}

// The second tee moves along its leg, as little as it goes in steps of 50 mm, until its branch is 200
// mm from the first one's, and stays where the leg has no room for that: half its play is on either
// side. Pipes laid side by side are nearer to each other than the nuts of two valves are wide: there it
// moves until neither string has the other beside it. By hand, the tees' centres so far apart along
// the pipes and the pipes so far aside from each other, both strings the same way: each takes 235 mm of
// its pipe (the place's own terms), so that strings side by side stand 20 mm apart from 255 mm on.
func TestBranchesAreKeptApart(t *testing.T) {
	for _, x := range []struct{ aside, apart, play, moved float64 }{
		{300, 250, 700, 0}, {300, 200, 700, 0}, {300, 160, 700, 50}, {300, -160, 700, -50}, {300, 60, 700, 150}, {300, 60, 290, 0}, {300, 10, 700, 200},
		{80, 60, 700, 200}, {80, 60, 390, 150}, {80, -250, 700, -50}, {80, 260, 700, 0}, {130, 60, 700, 150},
	} {
		c, lay := laidOut(t, secondUnit(t))
		beside := besideFirst(t, c, lay)
		to, ok := NewSite(c, lay).bestTee(beside.ToUnitRuns, true, 0)
		if !ok {
			t.Fatal("no tee")
		}
		from, run, path := to, *to.path.Run, *to.path
		lay.Positions["aside.out"] = lay.Positions[run.From.String()].Add(graph.Vec{Y: x.aside})
		run.From = graph.PortRef{Part: "aside", Port: "out"}
		path.Run, from.path = &run, &path
		from.place.FromMM += x.apart
		from.place.ToMM += x.apart
		from.place.RoomMM = from.place.NeededMM + x.play
		was := from.place
		keepApart(lay, to, &from)
		if from.place.FromMM-was.FromMM != x.moved || from.place.ToMM-was.ToMM != x.moved {
			t.Errorf("%g mm aside, %g mm apart, %g mm to spare: moved by %g mm, want %g", x.aside, x.apart, x.play, from.place.FromMM-was.FromMM, x.moved)
		}
	}
}

// However the pipes of the first unit are written, what is let in beside each tee stands between the tee and that
// unit, so that it shuts that unit alone, and the tee stands in the same place: both pipes as they are, and each
// written from its other end.
func TestOpeningStandsTowardsTheFirstUnit(t *testing.T) {
	to := []string{"from = \"v1.out\"\nto = \"union-1.in\"", "from = \"union-1.in\"\nto = \"v1.out\"", `legs = ["front 300 mm", "left 1500 mm"]`, `legs = ["right 1500 mm", "back 300 mm"]`}
	from := []string{"from = \"union-2.out\"\nto = \"v2.in\"", "from = \"v2.in\"\nto = \"union-2.out\"", `legs = ["right 1900 mm", "back 400 mm"]`, `legs = ["front 400 mm", "left 1900 mm"]`}
	var tees [][2]graph.Vec
	for _, put := range [][]string{nil, to, from, append(slices.Clone(to), from...)} {
		c, lay := laidOut(t, secondUnit(t, put...))
		p, ds := NewSite(c, lay).Parallel(besideFirst(t, c, lay))
		if p == nil {
			t.Fatal(ds)
		}
		after := laying.Of(p.Circuit.At(graph.After))
		branch, _ := after.Stage.Net().UnitBranch(after.Circuit.Part("unit-1"))
		var at [2]graph.Vec
		for i, way := range [][]*graph.Part{branch.ToUnitParts, branch.FromUnitParts} {
			tee := slices.IndexFunc(way, func(p *graph.Part) bool { return p.New() && p.Kind == graph.Tee })
			opens := slices.IndexFunc(way, func(p *graph.Part) bool { return p.New() && (p.Kind == graph.Union || p.Kind == graph.BallValve) })
			if tee < 0 || opens < 0 || (tee < opens) != (i == 0) {
				t.Fatalf("%q: on the way of the water the tee is part %d and what opens part %d of that pipe", put, tee, opens)
			}
			unit := after.Positions["unit-1."+[]string{graph.In, graph.Out}[i]]
			at[i] = after.Positions[way[tee].ID+"."+graph.RunIn].Sub(unit)
		}
		tees = append(tees, at)
	}
	for k, at := range tees {
		for i := range at {
			if !agree.Within(at[i].Sub(tees[0][i]).Len(), 0, 0.01) {
				t.Errorf("written the other way (%d) tee %d stands %v from the first unit, else %v", k, i+1, at[i], tees[0][i])
			}
		}
	}
}
