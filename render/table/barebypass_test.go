package table

import (
	"bytes"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

const bareBypass = `
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
[[part]]
id = "t1"
kind = "tee"
[[part]]
id = "unit"
kind = "heat-pump"
flow = { least = "1 m3/h" }
[[part]]
id = "t2"
kind = "tee"
PART
[[run]]
from = "tub.out"
to = "pump.in"
length = "2 m"
[[run]]
from = "pump.out"
to = "t1.run-in"
length = "1 m"
[[run]]
from = "t1.branch"
to = "unit.in"
length = "3 m"
[[run]]
from = "unit.out"
to = "t2.branch"
length = "3 m"
RUN
[[run]]
from = "t2.run-out"
to = "tub.in"
length = "2 m"
[[mode]]
name = "on"
speeds = { pump = "on" }
`

// Programs read of a bypass what flows in it where something throttles or checks it, as tables, plan.json
// and the lists of several units have it: of a bare one nothing, and not that nothing flows there.
func TestBareBypassHasNoFlowForPrograms(t *testing.T) {
	const bare = "[[run]]\nfrom = \"t1.run-out\"\nto = \"t2.run-in\"\nlength = \"0.3 m\"\n"
	const valve = "[[part]]\nid = \"valve\"\nkind = \"ball-valve\"\nposition = \"50 %\"\n"
	const throttled = "[[run]]\nfrom = \"t1.run-out\"\nto = \"valve.in\"\nlength = \"0.1 m\"\n[[run]]\nfrom = \"valve.out\"\nto = \"t2.run-in\"\nlength = \"0.1 m\"\n"
	for said, text := range map[bool]string{
		false: strings.NewReplacer("PART", "", "RUN", bare).Replace(bareBypass),
		true:  strings.NewReplacer("PART", valve, "RUN", throttled).Replace(bareBypass),
	} {
		c, ds := description.Read("bypass.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Flows)
		if err != nil {
			t.Fatal(err)
		}
		data, err := FlowJSON(p, form.Style{})
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(data, []byte(`"unit_flow_m3_h": `)) || bytes.Contains(data, []byte(`"unit_flow_m3_h": 0,`)) || bytes.Contains(data, []byte("bypass_flow_m3_h")) != said {
			t.Errorf("the flow of the bypass is told: %t, wanted %t; the unit has water:\n%s", !said, said, data)
		}
	}
}
