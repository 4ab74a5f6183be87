package isometric

import (
	"fmt"
	"path/filepath"
	"testing"

	"dryfit/graph/lots"
	"dryfit/render/isometric/members"
)

// The places of labels are searched with a bounded number of comparisons, the same each time: a
// million take some 10 ms. No drawing of less than a hundred runs takes a second, so none may take
// more than a tenth of it for this; the benchmarks say what the whole takes.
func TestWorkIsBounded(t *testing.T) {
	const most = 10_000_000
	cases := map[string]Input{}
	for _, file := range demos(t) {
		if !lots.Named(filepath.Base(file), "hose.toml", "rolling.toml") {
			continue // of the small ones that which takes most and that which takes least; the ninety-nine runs take more than any
		}
		cases[filepath.Base(file)] = input(t, file)
	}
	sizes := []int{12, 25, 50, 99}
	for _, i := range lots.Of(len(sizes), 0, 3) {
		n := sizes[i]
		cases[fmt.Sprintf("%d runs", n)] = largeInput(t, n)
	}
	for name, in := range cases {
		d := members.NewDrawing(in)
		given := d.Work.Left
		sheetsOf(d, d.Members())
		used := given - d.Work.Left
		t.Logf("%s: %d", name, used)
		if used > most || used <= 0 {
			t.Errorf("%s: %d comparisons, want 1 to %d", name, used, most)
		}
	}
}
