package tag

import (
	"fmt"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/stream"
)

// What a customer reads of a mode is what the pumps do, whatever the file calls it. The duties:
// a pump that always runs or moves the water through filter or heater circulates it, one with
// jets alone feeds jets (common practice, no source).
func TestModesInPlainWords(t *testing.T) {
	const tub = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = [%s]
`
	pump := func(id, from, to, more string) string {
		return fmt.Sprintf("[[part]]\nid = %q\nkind = \"pump\"\nexisting = true\n%s\n[[run]]\nfrom = \"tub.%s\"\nto = \"%s.in\"\nexisting = true\nlength = \"1 m\"\n[[run]]\nfrom = \"%s.out\"\nto = \"tub.%s\"\nexisting = true\nlength = \"1 m\"\n", id, more, from, id, id, to)
	}
	const one = `curve = [["0 m3/h", "3 m"], ["3 m3/h", "1 m"]]`
	const two = `speeds = [{ name = "low", ratio = 0.5 }, { name = "high", curve = [["0 m3/h", "12 m"], ["20 m3/h", "4 m"]] }]`
	small, large := fmt.Sprintf(tub, `"a", "b"`), fmt.Sprintf(tub, `"a", "b", "c", "d"`)
	for _, c := range []struct {
		name, file string
		want       map[string]string
	}{
		{"one pump of one speed", small + pump("p", "a", "b", one), map[string]string{"on": "with the pump running"}},
		{"one pump of two", small + pump("p", "a", "b", two), map[string]string{"low": "at low speed", "high": "at high speed"}},
		{"one that always runs and one beside it", large + pump("filters", "a", "b", "always-on = true\n"+one) + pump("massage", "c", "d", one),
			map[string]string{"filters": "with the circulation pump running", "massage": "with the circulation pump and pump P2 running"}},
		{"modes of the file's own", large + pump("p", "a", "b", two) + pump("q", "c", "d", two) +
			"[[mode]]\nname = \"both low\"\nspeeds = { p = \"low\", q = \"low\" }\n[[mode]]\nname = \"x\"\nspeeds = { q = \"high\" }\nfilter = \"dirty\"\n",
			map[string]string{"both low": "with both pumps at low speed", "x": "with pump P2 at high speed, the filter dirty"}},
		{"two modes alike", small + pump("p", "a", "b", one) + "[[mode]]\nname = \"m\"\nspeeds = { p = \"on\" }\n[[mode]]\nname = \"n\"\nspeeds = { p = \"on\" }\n",
			map[string]string{"m": "with the pump running (m)", "n": "with the pump running (n)"}},
	} {
		circuit, ds := description.Read("x.toml", []byte(c.file))
		if circuit == nil {
			t.Fatalf("%s: %v", c.name, ds)
		}
		names := Of(circuit, stream.NewNet(circuit))
		for mode, want := range c.want {
			if got := names.Mode(mode); got != want {
				t.Errorf("%s: mode %q is called %q, want %q (%v)", c.name, mode, got, want, ds)
			}
		}
	}
}
