package description_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
)

// A place on a run of one leg is on that leg, whether it is numbered or not; of two it has to be said
// (testdata/wrong/cut-at-no-leg.toml): it was left out of account in silence.
func TestCutOnTheOnlyLeg(t *testing.T) {
	data, err := os.ReadFile("testdata/wrong/cut-at-no-leg.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `legs = ["up 200 mm", "right 900 mm"]`, `legs = ["right 900 mm"]`, 1)
	c, ds := description.Read("job.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	if cut := c.Retrofit.Cut; cut.Leg != 1 || cut.AtMM != 350 {
		t.Errorf("%+v", cut)
	}
}
