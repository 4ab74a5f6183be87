package spread

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
	"dryfit/graph/sample"
)

// Between what the shut-off head of a pump is said to lie nine in ten of the samples have it: of one of
// a type, of a small and a large one known by their labels, and of one with its sheet. The ends of nine in
// ten of a thousand values are good to two hundredths of them.
func TestShutOffHeadLiesWhereItIsSaid(t *testing.T) {
	for name, keys := range map[string]string{
		"type":        `type = "circulation-pump-1.5in"`,
		"small label": `power = "85 W"`,
		"large label": `power = "1.3 kW"`,
		"sheet":       "known = \"data-sheet\"\ncurve = [[\"0 m3/h\", \"8 m\"], [\"8 m3/h\", \"3 m\"], [\"12 m3/h\", \"0.2 m\"]]",
	} {
		c, ds := description.Read("head.toml", []byte(strings.Replace(readText, `type = "circulation-pump-1.5in"`, keys, 1)))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		lay := laying.Of(c.At(graph.After))
		s := newSpread(lay, lay, "unit")
		var heads []float64
		for _, i := range sample.All() {
			p := s.solve(s.modes[0].after, s.values(i), 0)
			if p.sol == nil {
				t.Fatalf("%s: point %d has no answer", name, i)
			}
			heads = append(heads, p.sol.Part("pump").ShutOffPa/lay.Stage.Water.Metre())
		}
		slices.Sort(heads)
		for k, v := range lay.Stage.Values() {
			if k.Of != "pump" || !strings.HasPrefix(k.What, "shut-off head") {
				continue
			}
			low, high := heads[len(heads)/20], heads[len(heads)-len(heads)/20]
			if !agree.Within(low, v.V*(1+v.Low), 0.02*v.V) || !agree.Within(high, v.V*(1+v.High), 0.02*v.V) {
				t.Errorf("%s: %.2f to %.2f m in nine in ten, said %.2f to %.2f", name, low, high, v.V*(1+v.Low), v.V*(1+v.High))
			}
		}
	}
}
