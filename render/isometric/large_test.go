package isometric

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/render/scene"
)

// staircase describes a line of n new runs that climbs to the right and to the back, a ball
// valve or a tee with a drain between each two. All of it is invented.
func staircase(n int) string {
	var b strings.Builder
	b.WriteString("[job]\nname = \"staircase\"\n[pipe]\nspec = \"pvc-sch40\"\nsize = \"1 1/2 in\"\n")
	b.WriteString("[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"a\"]\n")
	legs := []string{`"right 400 mm", "up 300 mm"`, `"up 250 mm", "back 350 mm"`, `"back 300 mm", "right 350 mm"`, `"right 500 mm"`}
	from := "tub.a"
	for i := range n {
		id := fmt.Sprintf("p%d", i)
		to := id + ".in"
		if i == n-1 {
			to = "end.in"
			b.WriteString("[[part]]\nid = \"end\"\nkind = \"cap\"\n")
		} else {
			fmt.Fprintf(&b, "[[part]]\nid = %q\nkind = \"ball-valve\"\nlength = \"103 mm\"\n", id)
		}
		fmt.Fprintf(&b, "[[run]]\nid = \"r%d\"\nfrom = %q\nto = %q\nlegs = [%s]\n", i, from, to, legs[i%len(legs)])
		from = id + ".out"
	}
	return b.String()
}

func largeInput(t testing.TB, n int) Input {
	t.Helper()
	c, ds := description.Read("staircase.toml", []byte(staircase(n)))
	if c == nil {
		t.Fatal(ds)
	}
	lay := laying.Of(c.At(graph.After))
	return Input{Layout: lay, Assembly: route.Assemble(lay)}
}

// What one A4 cannot hold goes on several, cut at match lines that each stand on two sheets;
// every piece and every joint is on some sheet, and nothing overlaps.
func TestSplitsOverSheets(t *testing.T) {
	for _, n := range []int{12, 40} {
		checkSplit(t, largeInput(t, n))
	}
}

func checkSplit(t *testing.T, in Input) {
	t.Helper()
	pages := Draw(in)
	if len(pages) < 2 {
		t.Fatalf("%d sheets for %d runs, want several", len(pages), len(in.Layout.Paths))
	}
	matches, seen := map[string]int{}, map[string]bool{}
	for k, s := range pages {
		for _, c := range clashes(s) {
			t.Errorf("sheet %d: %s", k+1, c)
		}
		for _, it := range s.Items {
			text, ok := it.(scene.Text)
			switch {
			case !ok:
			case strings.HasPrefix(text.Name, "label:match:"):
				matches[text.Text]++
			case text.Name == "label:piece":
				seen["piece "+text.Text] = true
			case text.Name == "label:joint":
				for _, w := range strings.Fields(text.Text) {
					seen[w] = true
				}
			}
		}
	}
	if len(matches) < len(pages)-2 { // one of them is the overview
		t.Errorf("%d match lines for %d sheets", len(matches), len(pages))
	}
	for name, n := range matches {
		if n != 2 {
			t.Errorf("%s stands on %d sheets, want 2", name, n)
		}
	}
	for _, p := range in.Layout.Pieces {
		if !seen[fmt.Sprintf("piece %d", p.Number)] {
			t.Errorf("piece %d is on no sheet", p.Number)
		}
	}
	for _, j := range in.Layout.Joints {
		if !seen[fmt.Sprintf("J%d", j.Number)] {
			t.Errorf("joint %d is on no sheet", j.Number)
		}
	}
}

// Aim: 300 ms for 100 runs.
func BenchmarkDraw100Runs(b *testing.B) {
	in := largeInput(b, 100)
	for b.Loop() {
		Draw(in)
	}
}

// Aim: 100 ms for a demo.
func BenchmarkDrawDemo(b *testing.B) {
	in := input(b, "../../testdata/two-speed.toml")
	for b.Loop() {
		Draw(in)
	}
}
