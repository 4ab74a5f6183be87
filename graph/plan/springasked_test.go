package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// A spring asked for by a pressure that no row of the catalogue has is told to be the nearest one, at its key,
// and how one's own is asked for; written so it stands there with what its sheet says. One that a row has, or
// is within a tenth of, is told nothing of.
func TestSpringAskedForByPressure(t *testing.T) {
	const psi = 6894.757 // Pa, NIST SP 811
	text, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	own := "\n[[catalog.check-valve]]\nname = \"mine\"\nstyle = \"spring-check\"\ncracking = \"2.6 psi\"\ncracking-low = \"2.4 psi\"\ncracking-high = \"2.9 psi\"\nk = 5\nrating = \"10 bar\"\nsource = \"its sheet\"\n"
	for _, c := range []struct {
		spring, more, stands string
		psi                  float64
		told                 bool
	}{
		{"2 psi", "", "spring-check 2 psi", 2, false}, {"2.1 psi", "", "spring-check 2 psi", 2, false},
		{"2.6 psi", "", "spring-check 2 psi", 2, true}, {"mine", own, "mine", 2.6, false},
	} {
		d := read(t, "spring.toml", []byte(put(string(text), `bypass = "auto"`, "bypass = \"spring\"\nspring = \""+c.spring+"\"")+c.more))
		p := work(t, d, plan.Findings)
		if p.Proposal == nil || p.Proposal.Choice.Spring != c.stands {
			t.Fatalf("%s: %+v", c.spring, p.Proposal)
		}
		if got := p.After.Layout.Stage.Part(p.Proposal.Element).Cracking.V / psi; !agree.Within(got, c.psi, 1e-3) {
			t.Errorf("%s opens at %g psi, want %g", c.spring, got, c.psi)
		}
		told := false
		for _, f := range p.Findings {
			if f.Rule == "retrofit" && strings.Contains(string(f.Message), "no spring of the catalogue") {
				told = true
				if f.Pos != d.Retrofit.KeyPos["spring"] || !strings.Contains(string(f.Hint), "cracking-high") {
					t.Errorf("%s: %+v", c.spring, f)
				}
			}
		}
		if told != c.told {
			t.Errorf("%s: told %v", c.spring, told)
		}
	}
}
