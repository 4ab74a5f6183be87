package plan

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
)

// An old unit on a line with a bypass, behind which pipe is changed for some as long as LONG.
const oldOnItsLine = `
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["out", "in"]
[[part]]
id = "pump"
kind = "pump"
type = "circulation-pump-1.5in"
existing = true
[[part]]
id = "t1"
kind = "tee"
existing = true
[[part]]
id = "t2"
kind = "tee"
existing = true
[[part]]
id = "by"
kind = "ball-valve"
position = "30 %"
existing = true
[[part]]
id = "unit"
kind = "heat-pump"
existing = true
flow = { least = "3.2 m3/h", rated = "3.5 m3/h", most = "4 m3/h" }
loss = { flow = "2 m3/h", drop = "10 kPa" }
[[run]]
from = "tub.out"
to = "pump.in"
existing = true
length = "2 m"
[[run]]
from = "pump.out"
to = "t1.run-in"
existing = true
length = "1 m"
[[run]]
from = "t1.branch"
to = "unit.in"
existing = true
length = "2 m"
[[run]]
from = "unit.out"
to = "t2.branch"
existing = true
length = "2 m"
[[run]]
from = "t1.run-out"
to = "by.in"
existing = true
length = "0.2 m"
[[run]]
from = "by.out"
to = "t2.run-in"
existing = true
length = "0.2 m"
[[run]]
from = "t2.run-out"
to = "tub.in"
existing = true
removed = true
length = "3 m"
[[run]]
id = "new"
from = "t2.run-out"
to = "tub.in"
length = "LONG"
[[mode]]
name = "on"
speeds = { pump = "on" }
[[reading]]
at = "unit"
mode = "on"
flow = "READ"
plus-minus = "2 %"
`

// What was read breaks the least flow of an old unit: that is no error where by the same reading the unit
// has too little today and the work takes nothing of it, as the rules have it of any case; and is one where
// it has enough today.
func TestReadBrokenBeforeTheWorkToo(t *testing.T) {
	for _, c := range []struct {
		read, long string
		severity   graph.Severity
	}{
		{"2.5 m3/h", "3 m", graph.Note},
		{"2.5 m3/h", "120 m", graph.Error}, // it takes more than a tenth of that
		{"3.3 m3/h", "30 m", graph.Error},
	} {
		text := strings.NewReplacer("READ", c.read, "LONG", c.long).Replace(oldOnItsLine)
		circuit, ds := description.Read("old.toml", []byte(text))
		if circuit == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		p, err := Make(circuit, Findings|Flows)
		if err != nil {
			t.Fatal(err)
		}
		if told := found(p, "unit-least-flow"); len(told) != 1 || told[0].Severity != c.severity || !p.Asked.Fit.Changes() {
			t.Errorf("%s read, %s of new pipe: %v", c.read, c.long, told)
		}
	}
}
