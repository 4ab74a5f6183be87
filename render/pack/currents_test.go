package pack

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
	"dryfit/render/tag"
)

// What a unit draws is one number, at the voltage of its supply, whoever says it and wherever it is
// told: settled, among the loads of the supply, on the electrician's page and in the record. A row says
// it at 230 V (beside its column), and the same watts at another voltage draw as much less or more.
func TestOneCurrentOfAUnit(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, year, _ := strings.Cut(string(data), "[climate]") // no current is a year's
	_, supply, found := strings.Cut(year, "[[supply]]")
	if !found {
		t.Fatal("no supply behind the climate")
	}
	job += "[[supply]]" + supply
	const plate = `electric = { voltage = "230 V", full-load = "14.8 A" }`
	const own = `
[[catalog.heat-pump]]
name = "mine"
size = "1 1/2 in"
least = "2.8 m3/h"
rated = "4.2 m3/h"
most = "8.4 m3/h"
loss = { flow = "4.2 m3/h", drop = "6 kPa" }
rating = "3.5 bar"
full-load = "14.8 A"
starting = "40 A"
fuse = "20 A"
source = "invented"
`
	for what, c := range map[string]struct {
		unit, supply string
		amps         float64
	}{
		"its plate":                 {plate, `voltage = "230 V"`, 14.8},
		"its plate, at 240 V":       {strings.Replace(plate, "230 V", "240 V", 1), `voltage = "240 V"`, 14.8},
		"a row of the user's":       {`type = "mine"`, `voltage = "230 V"`, 14.8},
		"the same at 120 V":         {`type = "mine"`, `voltage = "120 V"`, 14.8 * 230 / 120},
		"the same, by the plate":    {"type = \"mine\"\nelectric = { voltage = \"120 V\" }", `impedance = "0.3 ohm"`, 14.8 * 230 / 120},
		"a catalogue row at 240 V":  {`type = "heat-pump 12 kW"`, `voltage = "240 V"`, 0},
		"nobody says a voltage":     {`type = "mine"`, `impedance = "0.3 ohm"`, 14.8},
		"a plate beside the user's": {"type = \"mine\"\nelectric = { full-load = \"13 A\" }", `voltage = "240 V"`, 13},
	} {
		text := strings.Replace(job, plate, c.unit, 1)
		text = strings.Replace(text, `voltage = "230 V"`+"\nrating", c.supply+"\nrating", 1) + own
		p := wanted(t, "x.toml", []byte(text), plan.Findings|plan.Flows|plan.Lists|plan.Heat)
		j := factsOf(p, quantity.MetricSystem)
		set := p.After.Layout.Stage.Part("unit")
		if c.amps > 0 && !agree.Within(set.FullLoad.V, c.amps, 1e-9) {
			t.Errorf("%s: settled are %.2f A, want %.2f", what, set.FullLoad.V, c.amps)
		}
		loads := 0
		for _, s := range p.Heat.Supplies {
			for _, l := range s.Loads {
				if l.ID != "unit" {
					continue
				}
				loads++
				if !agree.Within(l.RunningA, set.FullLoad.V, 1e-9) || set.Starting.Known && !agree.Within(l.StartA, set.Starting.V, 1e-9) {
					t.Errorf("%s: on the supply %.2f and %.2f A, settled %.2f and %.2f", what, l.RunningA, l.StartA, set.FullLoad.V, set.Starting.V)
				}
				if !agree.Within(s.VoltageV, set.Voltage.V, 1e-9) {
					t.Errorf("%s: the supply has %.0f V, settled are %.0f", what, s.VoltageV, set.Voltage.V)
				}
			}
		}
		if loads != 1 {
			t.Errorf("%s: %d loads", what, loads)
		}
		amps := quantity.Current.Of(set.FullLoad.V).String()
		if got := wordsOf(electrician(p, j)); !strings.Contains(got, amps+" (") {
			t.Errorf("%s: the electrician does not read %s:\n%s", what, amps, got)
		}
		if got := unitReadings(p, tag.Of(p.Circuit, p.Net())); got[0].Expected != "at most "+amps {
			t.Errorf("%s: the record expects %q, settled are %s", what, got[0].Expected, amps)
		}
	}
}
