package pack

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
)

// A plunge kept at 8 °C is spoken of on every paper as one that is cooled, the same kept warm as one that is
// heated: no chapter of the one says what only holds of the other.
func TestPapersOfColdWater(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "plunge-pool.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	only := map[bool][]string{
		true:  {"Cooling and set points", "fall (one thermometer", "gets too cold", "Water too cold", "cooling may start", "takes heat out of your water", "Cold pipe sweats", "nobody bathes alone"},
		false: {"Heating and set points", "rise (one thermometer", "gets too hot", "Water too hot", "heating may start", "most of the heat for your water"},
	}
	for _, cold := range []bool{true, false} {
		text := source
		if cold {
			text = regexp.MustCompile(`(?m)^temperature = "[^"]*"`).ReplaceAll(source, []byte(`temperature = "8 °C"`))
		}
		p := wanted(t, file, text, plan.Findings|plan.Flows|plan.Lists|plan.Ranges)
		all := ""
		for _, c := range Chapters(p, quantity.MetricSystem) {
			all += c.Title + "\n" + wordsOf(c)
		}
		for of, list := range only {
			for _, said := range list {
				if strings.Contains(all, said) != (of == cold) {
					t.Errorf("cold %v: %q said: %v", cold, said, of != cold)
				}
			}
		}
	}
}

// A mode in which a unit's pump is off says nothing of its rise: of two pumps on one filter the first gives the
// unit 2.2 and 1.8 K, and while only the second runs there is none to read.
func TestRiseOfAModeThatIsOff(t *testing.T) {
	if smallRise(jobPlan(t, "shared-filter")) {
		t.Error("the rise is said to be too small to tell a flow by")
	}
}
