package description

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description/located"
)

// What a hint says to write reads once it is written.
func TestHintsRead(t *testing.T) {
	const circuit = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]
[[part]]
id = "unit"
kind = "heat-pump"
UNIT
[[part]]
id = "m"
kind = "KIND"
PORTS
[[run]]
from = "tub.a"
to = "unit.in"
RUN
[[run]]
from = "unit.out"
to = "m.middle"
length = "1 m"
[[run]]
from = "m.one"
to = "tub.b"
length = "1 m"
[[run]]
from = "m.two"
to = "tub.c"
length = "1 m"
`
	for _, c := range []struct{ kind, unit, ports, run string }{
		{"manifold", "", "", ""},
		{"diverter-valve", "", "", ""},
		{"manifold", "", "ports = 3", ""},
		{"manifold", "", "ports = []", ""},
		{"manifold", `ratings = ["x"]`, `ports = ["middle", "one", "two"]`, ""},
		{"manifold", `ratings = "x"`, `ports = ["middle", "one", "two"]`, ""},
		{"manifold", `flow = "4 m3/h"`, `ports = ["middle", "one", "two"]`, ""},
		{"manifold", `electric = "230 V"`, `ports = ["middle", "one", "two"]`, ""},
		{"manifold", "", `ports = ["middle", "one", "two"]`, "length = 3"},
		{"manifold", "", `ports = ["middle", "one", "two"]`, "legs = [3]"},
		{"manifold", "", `ports = ["middle", "one", "two"]`, "nothing"},
	} {
		run := c.run
		switch run {
		case "":
			run = `length = "1 m"`
		case "nothing":
			run = ""
		}
		text := strings.NewReplacer("KIND", c.kind, "UNIT", c.unit, "PORTS", c.ports, "RUN", run).Replace(circuit)
		circuit, ds := Read("f.toml", []byte(text))
		if circuit != nil || len(ds) != 1 {
			t.Errorf("%+v: %d findings, want one: %v", c, len(ds), ds)
			continue
		}
		hint := ds[0].Hint
		mended := follow(t, text, ds[0].Pos.Line, hint.String())
		if circuit, ds := Read("f.toml", []byte(mended)); circuit == nil {
			t.Errorf("%+v: the hint %q does not read:\n%s", c, hint, located.Render(ds, map[string][]byte{"f.toml": []byte(mended)}, quantity.MetricSystem, false))
		}
	}
}

// follow does what a hint says: it writes the example in it in the place of the line's value,
// or as a new line below the table's head.
func follow(t *testing.T, text string, line int, hint string) string {
	t.Helper()
	lines := strings.Split(text, "\n")
	key, old, said := strings.Cut(lines[line-1], " = ")
	start := strings.IndexAny(hint, `["{`)
	if at := strings.Index(hint, " = "); at >= 0 && (start < 0 || at < start) {
		words := strings.Fields(hint[:at])
		key, start = words[len(words)-1], at+3
	}
	if start < 0 {
		t.Fatalf("the hint %q shows no example", hint)
	}
	example := hint[start:]
	if open := example[0]; open == '"' {
		example = example[:strings.Index(example[1:], `"`)+2]
	} else {
		example = example[:strings.LastIndexByte(example, open+2)+1]
	}
	if strings.HasPrefix(old, "[") && example[0] != '[' { // an item of a list
		example = "[" + example + "]"
	}
	written := key + " = " + example
	if said {
		lines[line-1] = written
	} else {
		lines = append(lines[:line], append([]string{written}, lines[line:]...)...)
	}
	return strings.Join(lines, "\n")
}
