package description

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
)

// Beside the type of a pump its hours, its efficiency and its watts may stand, of all its speeds, and
// are written back. The curves of a row of the user's stand as they are, whatever the watts: it is the
// sheet of this pump. Those of a row of the catalogue are of its kind, and larger watts make them
// larger. Follows from what the keys mean.
func TestBesideAType(t *testing.T) {
	const around = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[catalog.pump]]
name = "mine"
curve = [["0 m3/h", "6.2 m"], ["4 m3/h", "5.1 m"], ["8 m3/h", "1.7 m"]]
source = "its sheet"
[[catalog.pump]]
name = "mine of two"
speeds = [{ name = "low", power = "210 W", ratio = 0.5 }, { name = "high", power = "1.3 kW", curve = [["0 m3/h", "14 m"], ["20 m3/h", "3 m"]] }]
source = "its sheet"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[run]]
from = "tub.suction"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "tub.return"
existing = true
length = "1 m"
[[part]]
id = "pump"
kind = "pump"
existing = true
`
	one := []string{"hours-a-day = 6", "efficiency = 0.12", `power = "300 W"`, `power = "300 W"` + "\nhours-a-day = 0", "hours-a-day = 6\nefficiency = 0.12"}
	two := []string{`speeds = [{ name = "low", hours-a-day = 6 }, { name = "high" }]`, `speeds = [{ name = "low", efficiency = 0.2 }, { name = "high", power = "2 kW" }]`,
		`speeds = [{ name = "low" }, { name = "high", power = "2 kW", hours-a-day = 0.5 }]`}
	for name, cases := range map[string][]string{"mine": one, "mine of two": two, "circulation-pump-24h": one, "two-speed-pump": two} {
		for _, said := range cases {
			what := fmt.Sprintf("type = %q\n%s\n", name, said)
			c, ds := Read("pump.toml", []byte(around+what))
			if c == nil {
				t.Errorf("%s: %s", what, messagesOf(ds))
				continue
			}
			roundTrip(t, c)
			row, _ := c.Catalog.Row(name)
			grows(t, what, row, c.Part("pump").Pump.Speeds, strings.Contains(said, "power") && !row.Own)
		}
	}
}

// grows holds the curves of speeds against those of a row: larger, or the same.
func grows(t *testing.T, what string, row catalog.Row, speeds []graph.Speed, larger bool) {
	t.Helper()
	for i, of := range graph.SpeedsOf(row) {
		for k, q := range of.Curve {
			switch got := speeds[i].Curve[k]; {
			case larger && got.Head.Value < q.Head.Value, larger && q.Flow > 0 && got.Flow <= q.Flow:
				t.Errorf("%s: at %s %v, its row says %v", what, of.Name, got, q)
			case !larger && !(agree.Within(got.Flow, q.Flow, 1e-12) && agree.Within(got.Head.Value, q.Head.Value, 1e-9)):
				t.Errorf("%s: at %s %v, its row says %v", what, of.Name, got, q)
			}
		}
	}
}
