package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
)

// What hangs on a circuit goes by the id of its part, in quotes, and its speed, whatever stands in the id; and
// what is to be done is what the circuit bears asks for: the same sentence in the finding and in the account.
func TestWhatACircuitFeedsIsCalled(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, year, _ := strings.Cut(string(data), "[climate]") // what a circuit bears is no year's
	_, supply, found := strings.Cut(year, "[[supply]]")
	if !found {
		t.Fatal("no supply behind the climate")
	}
	job += "[[supply]]" + supply
	for _, c := range []struct {
		name          string
		feeds, rating string
		message, hint string
	}{
		// 1.8 kW at 230 V and 0.8 are 9.78 A; 3 kW and more stand on the unit's plate, 14.8 A. The pump at high is
		// not what heats, so an interlock may keep it from the unit.
		{name: "one", feeds: `["pump (old)"]`, rating: "6 A", message: `"pump (old)" (high) draws 9.8 A; the circuit's rating is 6.0 A`, hint: `"pump (old)" (high) draws more than the circuit bears, 6 A`},
		{name: "the unit alone", feeds: `["pump (old)", "unit"]`, rating: "10 A", message: `"pump (old)" (high) and "unit" together draw 24.6 A; the circuit's rating is 10.0 A`, hint: `"unit" draws more than the circuit bears, 10 A, by itself: it wants a circuit of its own`},
		{name: "either", feeds: `["pump (old)", "unit"]`, rating: "20 A", message: `"pump (old)" (high) and "unit" together draw 24.6 A; the circuit's rating is 20.0 A`, hint: `"pump (old)" (high) kept by an interlock`},
	} {
		text := strings.NewReplacer(`"pump"`, `"pump (old)"`, `"pump.`, `"pump (old).`).Replace(job)
		text = strings.ReplaceAll(text, `kind = "pump (old)"`, `kind = "pump"`)
		text = replaced(t, text, []string{`feeds = ["unit"]`, "feeds = " + c.feeds, `rating = "20 A"`, `rating = "` + c.rating + `"`})
		p := work(t, read(t, "job.toml", []byte(text)), plan.Findings|plan.Heat)
		found := false
		for _, d := range p.Findings {
			if d.Rule != "supply-fits" {
				continue
			}
			found = true
			message, hint := d.Message.In(quantity.MetricSystem), d.Hint.In(quantity.MetricSystem)
			if !strings.HasSuffix(message, c.message) || !strings.Contains(hint, c.hint) {
				t.Errorf("%s: %s; hint: %s", c.name, message, hint)
			}
			if says := p.Heat.Supplies[0].Says; len(says) == 0 || !strings.HasSuffix(hint, says[0].In(quantity.MetricSystem)) {
				t.Errorf("%s: the hint is %q, the account says %q", c.name, hint, says)
			}
		}
		if !found {
			t.Errorf("%s: %v", c.name, p.Findings)
		}
	}
}

// A pump of two speeds that is new is no old work: what is too much for its circuit is a warning. One that
// was there is noted.
func TestANewPumpsCircuitIsNewWork(t *testing.T) {
	for existing, want := range map[string]graph.Severity{"": graph.Warning, "existing = true\n": graph.Note} {
		p := work(t, read(t, "job.toml", []byte(`
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["out", "back"]

[[part]]
id = "pump"
kind = "pump"
`+existing+`speeds = [
  { name = "low", power = "260 W", curve = [["0 m3/h", "4 m"], ["14 m3/h", "1 m"]] },
  { name = "high", power = "1.8 kW", curve = [["0 m3/h", "16 m"], ["30 m3/h", "3 m"]] },
]

[[run]]
from = "tub.out"
to = "pump.in"
`+existing+`length = "500 mm"

[[run]]
from = "pump.out"
to = "tub.back"
`+existing+`length = "500 mm"

[[supply]]
feeds = ["pump"]
voltage = "230 V"
rating = "6 A"
cable = { size = "2.5 mm2", length = "90 m", kind = "fixed" }
`)), plan.Findings)
		told := 0
		for _, d := range p.Findings {
			if d.Rule == "supply-fits" || d.Rule == "supply-drop" {
				if told++; d.Severity != want {
					t.Errorf("%q: %s is a %v: %s", existing, d.Rule, d.Severity, d.Message)
				}
			}
		}
		if told != 2 {
			t.Errorf("%q: %d findings of the circuit", existing, told)
		}
	}
}
