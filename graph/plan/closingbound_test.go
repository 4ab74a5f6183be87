package plan

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan/stage"
)

// However many valves are drawn, so many are tried as true-union ones and no more: each try lays all
// of the work out, so that a job of a thousand valves would be laid out a thousand times.
func TestClosingIsBounded(t *testing.T) {
	for valves, want := range map[int]int{3: 3, 40: mostClosingValves} {
		text := "[pipe]\nspec = \"pvc-sch40\"\nsize = \"1-1/2 in\"\n[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"a\", \"b\"]\n"
		from := "tub.a"
		for k := range valves {
			text += fmt.Sprintf("[[part]]\nid = \"v%d\"\nkind = \"ball-valve\"\n[[run]]\nfrom = %q\nto = \"v%d.in\"\nlegs = [\"right 300 mm\"]\n", k, from, k)
			from = fmt.Sprintf("v%d.out", k)
		}
		text += fmt.Sprintf("[[run]]\nfrom = %q\nto = \"tub.b\"\nlegs = [\"right 300 mm\"]\n", from)
		c, ds := description.Read("valves.toml", []byte(text))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		s := &stage.Stage{Circuit: c.At(graph.After)}
		s.Lay()
		tried := trueUnions(s)
		if len(tried) != want {
			t.Errorf("of %d valves %d are tried, want %d", valves, len(tried), want)
		}
		for _, ch := range tried {
			if !strings.Contains(ch.words.String(), "true-union") {
				t.Errorf("%q", ch.words)
			}
		}
	}
}
