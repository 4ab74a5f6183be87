package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// A line is teed for a unit with far smaller ports: two bushes, one in the other, stand in the
// tee, or lead up from the port in a coupling, and they are no more in each other's way than one
// is. What each pair takes is read off the sizes of which bushes are made (ISO 727 and ASTM
// D2466, see the catalogue); a transition joins 1 in to 32 mm (common practice, no source).
func TestLineFarLargerThanThePorts(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/hose-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `["3.4 m3/h", "1 m"]`, `["3.4 m3/h", "1 m"], ["4.6 m3/h", "0.1 m"]`, 1)
	for _, one := range []struct{ spec, size, ports, unit string }{
		{"pvc-pn10", "75 mm", "1 in", "32 mm"},
		{"pvc-pn10", "90 mm", "1 in", "32 mm"},
		{"pvc-sch40", "1 1/4 in", "1/2 in", "1-1/4 in"},
	} {
		job := strings.Replace(text, "spec = \"hose\"\nsize = \"1 in\"", "spec = \""+one.spec+"\"\nsize = \""+one.size+"\"", 1)
		job = strings.Replace(job, `ports-size = "1 in"`, `ports-size = "`+one.ports+`"`, 1)
		p := work(t, read(t, "bushes.toml", []byte(job)), plan.Findings)
		if p.Proposal == nil {
			t.Errorf("%v: no place for the cut: %v", one, errorsOf(p.Findings))
			continue
		}
		for _, d := range errorsOf(p.Findings) {
			if strings.Contains(d, "clash") || strings.Contains(d, "runs through") || strings.Contains(d, "the catalogue") {
				t.Errorf("%v: %v", one, d)
			}
		}
		if got := p.Circuit.Part("v1").Size.String(); got != one.unit {
			t.Errorf("%v: the unit's pipes are %s", one, got)
		}
	}
}
