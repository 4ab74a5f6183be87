package plan

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/description"
)

// What a unit would get farther off is what it gets once its pipes are written so much longer: held against the
// same job with legs to the unit and back, the same spring in its bypass. They are within two hands of as long as what
// it is looked at with, a hundredth of their drop. Of a unit whose place is said, by where it stands or by its legs,
// nothing is told.
func TestFartherIsWhatLongerLegsGive(t *testing.T) {
	data, err := os.ReadFile("../../testdata/plunge-pool.toml")
	if err != nil {
		t.Fatal(err)
	}
	made := func(text string) *Plan {
		t.Helper()
		c, ds := description.Read("job.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := Make(c, Flows)
		if err != nil || p.Proposal == nil {
			t.Fatal(err, p.Findings)
		}
		return p
	}
	if far := made(string(data)).Farther(); far != nil {
		t.Errorf("its place is said: %+v", far)
	}
	unsaid := regexp.MustCompile(`(?m)^(at = |at-from|ports-face|port\.out = \{ at = \["front 200).*\n`).ReplaceAllString(string(data), "")
	unsaid = strings.Replace(unsaid, "bypass = \"auto\"", "bypass = \"spring\"\nspring = \"1 psi\"", 1)
	near, long := made(unsaid), made(strings.Replace(unsaid, "spring = \"1 psi\"", "spring = \"1 psi\"\nto-unit = [\"front 5560 mm\"]\nfrom-unit = [\"back 5560 mm\"]", 1))
	if long.Farther() != nil {
		t.Error("its legs are written: its place is known")
	}
	far := near.Farther()
	if far == nil || len(far.Modes) != 2 || !(far.ToUnitM > 0.1 && far.ToUnitM < 1 && far.FromUnitM > 0.1 && far.FromUnitM < 1) {
		t.Fatalf("%+v", far)
	}
	for _, m := range far.Modes {
		then, now := near.After.Solution(m.Mode).Part("unit").Flow, long.After.Solution(m.Mode).Part("unit").Flow
		if !agree.Within(m.Flow, now, 0.01*now) || !(m.Flow < 0.97*then) {
			t.Errorf("%s: %.3f m3/h farther off, %.3f with longer legs, %.3f as near as can be", m.Mode, 3600*m.Flow, 3600*now, 3600*then)
		}
	}
}
