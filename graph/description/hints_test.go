package description

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
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

// What a hint shows as an example is in the units the file asks for, and about as much: within a sixth (6 kPa is 0.87 psi).
func TestExamplesAreInTheFilesUnits(t *testing.T) {
	const circuit = `
[job]
units = "inch"
[water]
volume = 300
temperature = 100
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
below-water = 12
[[part]]
id = "pump"
kind = "pump"
npsh = [["30 gpm"]]
[[part]]
id = "filter"
kind = "filter"
loss = { flow = 26, drop = 1 }
[[part]]
id = "strainer"
kind = "strainer"
loss = "x"
[[part]]
id = "other-pump"
kind = "pump"
type = "pool-pump"
speeds = [{ name = "low" }, { name = "high" }]
[[run]]
from = "tub.a"
to = "pump.in"
legs = ["right"]
`
	_, metric := Read("m.toml", []byte(strings.Replace(circuit, `units = "inch"`, "", 1)))
	_, inch := Read("i.toml", []byte(circuit))
	var was, is strings.Builder
	for i := range inch {
		was.WriteString(string(metric[i].Hint) + "\n")
		is.WriteString(string(inch[i].Hint) + "\n")
	}
	for _, c := range []struct {
		metric, inch string
		dim          quantity.Dimension
	}{
		{"1150 l", "300 gal", quantity.Volume}, {"38 °C", "100 °F", quantity.Temperature}, {"450 mm", "18 in", quantity.Length},
		{"5.8 m3/h", "26 gpm", quantity.Flow}, {"2.4 m", "8 ft", quantity.Head}, {"6 kPa", "1 psi", quantity.Pressure},
	} {
		a, err := quantity.Parse(c.metric, c.dim)
		b, err2 := quantity.Parse(c.inch, c.dim)
		if err != nil || err2 != nil || !agree.Within(b.Value, a.Value, 0.16*a.Value) {
			t.Errorf("%s and %s are not alike (%v, %v)", c.metric, c.inch, err, err2)
		}
		if !strings.Contains(was.String(), c.metric+`"`) || strings.Contains(is.String(), c.metric+`"`) || !strings.Contains(is.String(), c.inch+`"`) {
			t.Errorf("%s: the hints are\n%s\nand in inch units\n%s", c.inch, was.String(), is.String())
		}
	}
	for _, want := range []string{`"right 18 in"`, `[["26 gpm", "8 ft"], …]`, `{ flow = "44 gpm", drop = "1 psi" }`, `curve = [["0 gpm", "23 ft"], ["35 gpm", "7 ft"]]`} {
		if !strings.Contains(is.String(), want) {
			t.Errorf("no %s in inch units: %s", want, is.String())
		}
	}
}

// What is out of its bounds in a file of inches is told with the bounds in inches: as much as the
// table has in metres. By hand: 10 m are 32.8 ft, 45 °C are 113 °F, 100 m are 328.1 ft, 500 mm
// 1 ft 7-11/16 in.
func TestBoundsInTheFilesUnits(t *testing.T) {
	const text = `
[job]
units = "inch"
[water]
temperature = "150 °F"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
below-water = "60 ft"
[[run]]
from = "tub.a"
to = "tub.b"
spec = "pvc-sch40"
size = "2 in"
legs = ["right 500 ft"]
bore = "40 in"
`
	_, ds := Read("bounds.toml", []byte(text))
	var all strings.Builder
	for _, d := range ds {
		all.WriteString(d.Message.String() + " " + d.Hint.String() + "\n")
	}
	for _, want := range []string{"more than 113 °F", "from 32 °F to 113 °F", "from -16 ft to 33 ft", "more than 328 ft", "to 1 ft 7-11/16 in is"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("no %q in:\n%s", want, all.String())
		}
	}
	for _, no := range []string{" m ", " mm", "°C"} {
		if strings.Contains(all.String(), no) {
			t.Errorf("metric in an inch file: %s", all.String())
		}
	}
}

// A diverter has no position: the hint says the key that it has, and how it is written.
func TestPositionOfADiverterIsToldAsWays(t *testing.T) {
	_, ds := Read("f.toml", []byte("[[part]]\nid = \"div\"\nkind = \"diverter-valve\"\nexisting = true\nports = [\"in\", \"a\", \"b\"]\nposition = \"30 %\"\n"))
	for _, d := range ds {
		if d.Pos.Line == 6 && strings.Contains(d.Hint.String(), `ways = { NAME = "100 %"`) {
			return
		}
	}
	t.Errorf("not told: %v", ds)
}
