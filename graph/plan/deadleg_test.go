package plan_test

import (
	"os"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// A capped pipe at the tub in which no water goes adds numbers that nobody knows, and changes nothing: not the
// flows as described, not the range of today's year, which hangs on no flow, and that of the planned year by no
// more than what the flows' own sample is moved by. Conservation of mass; no outside source is needed.
func TestADeadLegMovesNoYear(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	with := replaced(t, string(data), []string{`"footwell", "jets"]`, `"footwell", "jets", "spare"]`}) + `
[[part]]
id = "plug"
kind = "cap"
existing = true

[[run]]
id = "spare-line"
from = "tub.spare"
to = "plug.in"
existing = true
length = "3 m"
`
	made := func(text string) *plan.Plan {
		p := work(t, read(t, "job.toml", []byte(text)), plan.Flows|plan.Heat)
		if p.Heat == nil || p.Heat.Year == nil || len(p.After.Solutions) < 2 {
			t.Fatal("nothing is solved, or no year worked out")
		}
		return p
	}
	was, is := made(string(data)), made(with)
	for i, s := range was.After.Solutions {
		if a, b := s.Part("unit").Flow, is.After.Solutions[i].Part("unit").Flow; !agree.Within(b, a, 1e-6*a) {
			t.Errorf("%s: the unit gets %g m3/s, %g without the dead leg", s.Mode.Name, b, a)
		}
	}
	a, b := was.Heat.Year, is.Heat.Year
	if a.TodayKWh != b.TodayKWh {
		t.Errorf("today %+v, %+v without the dead leg", b.TodayKWh, a.TodayKWh)
	}
	if !agree.Within(b.PlannedKWh.Low, a.PlannedKWh.Low, a.PlannedKWh.Low/300) || !agree.Within(b.PlannedKWh.High, a.PlannedKWh.High, a.PlannedKWh.High/300) {
		t.Errorf("planned %+v, %+v without the dead leg", b.PlannedKWh, a.PlannedKWh)
	}
}
