package isometric

import (
	"cmp"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// changedPool is the plunge pool with one line changed.
func changedPool(t *testing.T, was, is string) Input {
	t.Helper()
	data, err := os.ReadFile("../../testdata/plunge-pool.toml")
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(data), was) != 1 {
		t.Fatalf("the demo has no %s", was)
	}
	c, ds := description.Read("pool.toml", []byte(strings.Replace(string(data), was, is, 1)))
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, plan.Findings)
	if err != nil {
		t.Fatal(err)
	}
	return Input{Layout: p.After.Layout, Assembly: p.Assembly, Names: tag.Of(p.Circuit, p.Net())}
}

// What stands on one straight pipe is a piece, a coupling, the next piece and so on, each as the list
// has it: the leader of no piece starts on another, and no coupling is left out.
func TestPiecesBetweenCouplings(t *testing.T) {
	// the unit 25 m away: pipe of six bars, the last of which is short
	in := changedPool(t, `at = ["right 3000 mm", "front 700 mm", "up 350 mm"]`, `at = ["right 25 m", "front 1700 mm", "down 3 m"]`)
	pages := Draw(in)
	told := 0
	for i := range in.Layout.Paths {
		path := &in.Layout.Paths[i]
		var want []int // pieces on each side of a coupling
		for _, k := range path.Pieces {
			if p := &in.Layout.Pieces[k]; p.From.Kind == "coupling" || p.To.Kind == "coupling" {
				want = append(want, p.Number)
			}
		}
		if len(want) == 0 {
			continue
		}
		for n, s := range pages {
			told += checkSleeves(t, n+1, s, want)
		}
	}
	if told == 0 {
		t.Error("no sheet shows pipe of several bars")
	}
}

// mark is where something stands along a pipe on the page.
type mark struct {
	along float64
	piece int // 0: a coupling
}

// checkSleeves holds the order along one pipe on a sheet; 0 where that shows none of its pieces.
func checkSleeves(t *testing.T, sheet int, s *scene.Scene, want []int) int {
	t.Helper()
	starts := pieceStarts(s)
	if _, ok := starts[want[0]]; !ok {
		return 0
	}
	// along an axis to the right on an isometric drawing, Y down; across is the same all along it
	along := func(p scene.Point) float64 { return p.X*math.Cos(math.Pi/6) - p.Y*math.Sin(math.Pi/6) }
	across := func(p scene.Point) float64 { return p.X*math.Sin(math.Pi/6) + p.Y*math.Cos(math.Pi/6) }
	var marks []mark
	for _, n := range want {
		at, ok := starts[n]
		if !ok {
			t.Errorf("sheet %d: piece %d has no leader", sheet, n)
			continue
		}
		marks = append(marks, mark{along(at), n})
	}
	line := across(starts[want[0]])
	for _, it := range s.Items {
		if sh, ok := it.(scene.Shape); ok && sh.Name == "fitting:coupling" && len(sh.Paths[0].Segments) > 1 {
			if c := scene.Bounds(sh).Centre(); math.Abs(across(c)-line) < 0.3 {
				marks = append(marks, mark{along(c), 0})
			}
		}
	}
	for _, it := range s.Items { // no arrow lies on a coupling, half of which is 1.6 mm long
		sh, ok := it.(scene.Shape)
		if !ok || !strings.HasPrefix(sh.Name, "flow:") || !agree.Within(across(scene.Bounds(sh).Centre()), line, 0.3) {
			continue
		}
		for _, m := range marks {
			if off := math.Abs(m.along - along(scene.Bounds(sh).Centre())); m.piece == 0 && off < 1.6+1.4 {
				t.Errorf("sheet %d: an arrow lies %.1f mm from the middle of a coupling", sheet, off)
			}
		}
	}
	slices.SortFunc(marks, func(a, b mark) int { return cmp.Compare(a.along, b.along) })
	var got []int
	for _, m := range marks {
		got = append(got, m.piece)
	}
	var order []int
	for i, n := range want {
		if i > 0 {
			order = append(order, 0)
		}
		order = append(order, n)
	}
	if back := slices.Clone(order); !slices.Equal(got, order) {
		if slices.Reverse(back); !slices.Equal(got, back) {
			t.Errorf("sheet %d: along the pipe stand %v (0: a coupling), want %v", sheet, got, order)
		}
	}
	return 1
}

// pieceStarts are the places on the pipe where the leaders of the pieces' rings start.
func pieceStarts(s *scene.Scene) map[int]scene.Point {
	out := map[int]scene.Point{}
	for _, it := range s.Items {
		text, ok := it.(scene.Text)
		if !ok || text.Name != "label:piece" {
			continue
		}
		n, err := strconv.Atoi(text.Text)
		if err != nil {
			continue
		}
		least := math.Inf(1)
		for _, it := range s.Items {
			l, ok := it.(scene.Shape)
			if !ok || l.Name != "leader:piece" && l.Name != "long-leader" {
				continue
			}
			from, to := l.Paths[0].Start, l.Paths[0].Segments[0].To
			if d := math.Hypot(to.X-text.At.X, to.Y-text.At.Y); d < least {
				least, out[n] = d, from
			}
		}
	}
	return out
}
