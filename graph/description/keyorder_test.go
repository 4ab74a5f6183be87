package description

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/graph"
)

// In what order the keys of a table stand changes nothing: of every demo and of the description that
// uses every key, written out so that each key has a line, and each table turned upside down. Checked
// against nothing but itself: a property.
func TestKeysInAnyOrder(t *testing.T) {
	files := demos(t)
	files["everything.toml"] = []byte(everything)
	for name, data := range files {
		c, ds := Read(name, data)
		if c == nil {
			t.Fatal(ds)
		}
		var out []string
		start := 0
		lines := strings.Split(string(Write(c)), "\n")
		for i, l := range append(lines, "[") {
			if strings.HasPrefix(l, "[") && i > start {
				keys := slices.Clone(lines[start:i])
				if strings.HasPrefix(keys[0], "[") {
					out, keys = append(out, keys[0]), keys[1:]
				}
				slices.Reverse(keys)
				out, start = append(out, keys...), i
			}
		}
		turned, ds := Read(name, []byte(strings.Join(out, "\n")))
		if turned == nil {
			t.Errorf("%s, its keys turned round: %s\n%s", name, messagesOf(ds), strings.Join(out, "\n"))
			continue
		}
		for _, c := range []*graph.Circuit{c, turned} { // a list of names as the file has them
			slices.SortFunc(c.Prices, func(a, b graph.Price) int { return strings.Compare(a.Item, b.Item) })
		}
		if d := cmp.Diff(c, turned, sameCircuit); d != "" {
			t.Errorf("%s, its keys turned round, is another (-read +turned):\n%s", name, d)
		}
	}
}
