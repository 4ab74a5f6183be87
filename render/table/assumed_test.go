package table

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// loop is a tub with one line: pump, filter, jets; %s are further keys of the pump.
func loop(t *testing.T, pump string) *plan.Plan {
	t.Helper()
	c, ds := description.Read("loop.toml", []byte(`
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
existing = true
`+pump+`
[[part]]
id = "filter"
kind = "filter"
existing = true
[[part]]
id = "jets"
kind = "jet-group"
count = 6
existing = true
[[run]]
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "filter.in"
existing = true
length = "1 m"
[[run]]
from = "filter.out"
to = "jets.in"
existing = true
length = "2 m"
[[run]]
from = "jets.out"
to = "tub.b"
existing = true
length = "0 mm"
`))
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Ranges)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What nobody gave stands once each in the list, the depth that a promise of a pressure takes among
// them; the curve of a pump known by its label is told with its shut-off head, so that this is not
// told again. Follows from the description: no part says below-water.
func TestAssumedOnceEach(t *testing.T) {
	p := loop(t, `power = "180 W"`)
	seen, depth := map[string]bool{}, 0
	for _, v := range assumedOf(p, form.Style{}) {
		if seen[v.what] || strings.Contains(v.what, "shut-off head") {
			t.Errorf("%q: told twice", v.what)
		}
		if v.from == "" || v.value == "" {
			t.Errorf("%q: %q from %q", v.what, v.value, v.from)
		}
		seen[v.what] = true
		if strings.HasPrefix(v.what, "how deep below the water") {
			depth++
			if v.words() == "" || v.bounds != "0 m to 3.00 m" {
				t.Errorf("%q: moves %q, may be %q", v.what, v.words(), v.bounds)
			}
		}
	}
	if depth != 1 || !seen[`how much of its watts "pump" turns into flow`] {
		t.Errorf("%d depths taken, of %v", depth, seen)
	}
}

// Past parts whose ports no measure ties together what decides a promise of a pressure lies as it is
// drawn, and the list says past which, and how far off that may be: a filter 400 mm high by its box.
func TestAssumedHeights(t *testing.T) {
	text := `
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
existing = true
power = "180 W"
below-water = "500 mm"
port.out = { at = ["right 200 mm"], faces = "right" }
[[part]]
id = "filter"
kind = "filter"
existing = true
box = { from = ["down 100 mm", "front 100 mm"], to = ["right 300 mm", "up 300 mm", "back 100 mm"] }
[[run]]
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "filter.in"
existing = true
legs = ["right 400 mm"]
[[run]]
from = "filter.out"
to = "tub.b"
existing = true
legs = ["down 900 mm"]
`
	c, ds := description.Read("heights.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Ranges)
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	for _, v := range assumedOf(p, form.Style{}) {
		if strings.HasPrefix(v.what, "how deep ") {
			told++
			if v.what != `how deep "filter.out>tub.b" lies past "filter"` || v.bounds != "±400 mm" || v.words() == "" {
				t.Errorf("%q: %q, %q", v.what, v.bounds, v.words())
			}
		}
	}
	if told != 1 {
		t.Errorf("%d heights told", told)
	}
}

// A mode without an answer stays in text, CSV and JSON beside one with, and says why: two points of
// a curve that differ by the last bit of their flow (8.004 m3/h) fall together at 0.22 of the speed.
func TestModeWithoutAnswer(t *testing.T) {
	p := loop(t, `speeds = [{ name = "low", ratio = 0.22 }, { name = "high", curve = [["0 m3/h", "11 m"], ["8.004 m3/h", "8 m"], ["8.004000000000001 m3/h", "7.99 m"], ["16 m3/h", "2 m"]] }]`)
	const why = "the flows of a pump curve must rise"
	shown, err := FlowText(p, form.Style{})
	if text := string(shown); err != nil || !strings.Contains(text, "low: no answer: ") || !strings.Contains(text, "  no answer: ") || strings.Count(text, why) < 2 || !strings.Contains(text, "Mode high") {
		t.Errorf("%s, %v", text, err)
	}
	text, err := FlowCSV(p, form.Style{})
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	without, with := 0, 0
	for _, r := range rows {
		line := strings.Join(r, ",")
		if r[0] == "low" && strings.Contains(line, "no answer") && strings.Contains(line, why) {
			without++
		}
		if r[0] == "high" {
			with++
		}
	}
	if without == 0 || with == 0 {
		t.Errorf("%d rows without an answer, %d with: %s", without, with, text)
	}
	if text, err = FlowJSON(p, form.Style{}); err != nil || !bytes.Contains(text, []byte(`"no_answer": `)) || !bytes.Contains(text, []byte(why)) {
		t.Errorf("%s, %v", text, err)
	}
}
