package description

import (
	"os"
	"strings"
	"testing"
)

// What draws no power is fed by no supply: it is told so, with what could be meant; what draws some, counted or
// not, is not. By the kinds of parts; no source.
func TestSupplyFeedsWhatDrawsPower(t *testing.T) {
	demo, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	whole, _, _ := strings.Cut(string(demo), "[[supply]]")
	job := whole + "\n[[part]]\nid = \"ozone\"\nkind = \"ozone-injector\"\nexisting = true\n\n[[supply]]\nrating = \"16 A\"\nfeeds = [\"FED\"]\n"
	told := func(id string) (hint string) {
		t.Helper()
		_, ds := Read("job.toml", []byte(strings.Replace(job, "FED", id, 1)))
		for _, d := range ds {
			if strings.Contains(string(d.Message), "draws no power") {
				hint = string(d.Hint)
			}
		}
		return hint
	}
	for _, id := range []string{"filter", "tub"} {
		if hint := told(id); !strings.Contains(hint, `"pump"`) {
			t.Errorf("feeds %s: %q", id, hint)
		}
	}
	for _, id := range []string{"pump", "ozone"} {
		if hint := told(id); hint != "" {
			t.Errorf("feeds %s: %q", id, hint)
		}
	}
}
