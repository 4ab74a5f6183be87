package tag

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/stream"
)

// Ids in other scripts, and in quotes those of several words, are named on papers as those of Latin letters are:
// heater and pump below are called so in Persian, the filter in Hindi, with marks.
func TestIdsOfOtherScripts(t *testing.T) {
	text := `[water]
volume = "1000 l"
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["out", "back"]
[[part]]
id = "PUMP"
kind = "pump"
existing = true
[[part]]
id = "FILTER"
kind = "filter"
existing = true
[[part]]
id = "HEATER"
kind = "element-heater"
existing = true
[[run]]
from = "tub.out"
to = "PUMP.in"
existing = true
length = "1 m"
[[run]]
from = "PUMP.out"
to = "FILTER.in"
existing = true
length = "1 m"
[[run]]
from = "FILTER.out"
to = "HEATER.in"
existing = true
length = "1 m"
[[run]]
id = "BACK"
from = "HEATER.out"
to = "tub.back"
existing = true
length = "1 m"
`
	called := strings.NewReplacer("PUMP", "پمپ-آب", "FILTER", "फ़िल्टर-२", "HEATER", "گرمکن-۱", "BACK", "پایپ سوم")
	c, ds := description.Read("scripts.toml", []byte(called.Replace(text)))
	if c == nil {
		t.Fatal(ds)
	}
	n := Of(c, stream.NewNet(c))
	for said, want := range map[string]string{
		`bend 1 of PUMP.out>FILTER.in`:     "bend 1 of the pipe P1 to F1",
		`the drop of "HEATER"`:             "the drop of E1 element heater",
		`leg 2 of run "BACK"`:              "leg 2 of the pipe E1 to tub",
		`leg 2 of FILTER.out>HEATER.in`:    "leg 2 of the pipe F1 to E1",
		`FILTER: cartridge`:                "F1: cartridge",
		`old pipe of FILTER.out>HEATER.in`: "the old pipe F1 to E1",
		`the run "BACK" and "PUMP"`:        "the pipe E1 to tub and P1 pump",
		`PUMP > FILTER > HEATER`:           "P1 > F1 > E1",
	} {
		if got := n.Text(called.Replace(said)); got != want {
			t.Errorf("%s: %q, want %q", said, got, want)
		}
	}
	for said, want := range map[string]string{
		`"HEATER" gets hot`: `"HEATER" (E1) gets hot`,
		`"BACK" is long`:    `"BACK" (E1 to tub) is long`,
	} {
		if got := n.Beside(called.Replace(said)); got != called.Replace(want) {
			t.Errorf("%s: %q, want %q", said, got, called.Replace(want))
		}
	}
}

// A mode that is called as a part is stays one: "filter" of a swim spa was told as the mode F1 filter.
func TestModesCalledAsParts(t *testing.T) {
	c := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{{ID: "filter", Kind: graph.Filter, Existing: true}, {ID: "swim", Kind: graph.Pump, Existing: true}}}
	n := Of(c, stream.NewNet(c))
	for said, want := range map[string][2]string{
		`mode "filter": "filter" is dirty`:          {`mode "filter": F1 filter is dirty`, `mode "filter": "filter" (F1) is dirty`},
		`modes "filter" and "swim": "swim" is slow`: {`modes "filter" and "swim": P1 pump is slow`, `modes "filter" and "swim": "swim" (P1) is slow`},
	} {
		if text, beside := n.Text(said), n.Beside(said); text != want[0] || beside != want[1] {
			t.Errorf("%q and %q, want %q", text, beside, want)
		}
	}
}
