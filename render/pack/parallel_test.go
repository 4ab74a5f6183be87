package pack

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// Two units that come together are set down, piped, bled and told of together: no step speaks of one
// alone, the valves both hang on are called by both, and the one whose refrigerant burns is named.
// What has to be said of each is common practice, no source.
func TestTwoNewUnits(t *testing.T) {
	file := filepath.Join("testdata", "two-new-units.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists|plan.Ranges)
	j, style := factsOf(p, quantity.MetricSystem), form.Style{}
	steps := wordsOf(work(p, j, style))
	for _, want := range []string{
		"HP1 stands on a level slab, HP2 stands on wall brackets, on a wall that carries it, 100 to 150 mm above the ground",
		"Set HP1 and HP2 down one by one", "HP1 and HP2 stand level on their bases", "no strain on the ports of HP1 and HP2",
		"carry the air out of HP1 and HP2", "the units stay shut off", "Pipes to the units", "At the units, last",
	} {
		if !strings.Contains(steps, want) {
			t.Errorf("the order of work does not say %q:\n%s", want, steps)
		}
	}
	said := wordsOf(owner(p, j, style))
	for _, want := range []string{"two new pipes join heat pumps HP1 and HP2 to", "lets past what they do not need",
		"V1 (on the pipe to HP1 and HP2) open, V2 (on the pipe from HP1 and HP2) open, V4 (on the pipe to HP1) open, V5 (on the pipe to HP2) open"} {
		if !strings.Contains(said, want) {
			t.Errorf("the owner does not read %q:\n%s", want, said)
		}
	}
	if i, k := strings.Index(said, "heat pump HP1 gets"), strings.Index(said, "Heat pump HP2 gets"); i < 0 || k < i {
		t.Errorf("HP1 stands at %d and HP2 at %d of what they get", i, k)
	}
	for name, words := range map[string]string{"cautions": wordsOf(cautions(j)), "the electrician's": wordsOf(electrician(p, j))} {
		if !strings.Contains(words, "HP2 holds ") || strings.Contains(words, "HP1 holds ") {
			t.Errorf("%s: R290 is in HP2 alone:\n%s", name, words)
		}
	}
	names := tag.Of(p.Circuit, p.Net())
	for id, want := range map[string]string{"v-to": "on the pipe to HP1 and HP2", "iso-2": "on the pipe to HP2", "bypass": "past HP1 and HP2"} {
		if got := names.Role(id); got != want {
			t.Errorf("%s stands %q, not %q", id, got, want)
		}
	}
	for _, d := range p.Findings { // of which of them is said where there are two
		if text := d.Message.In(quantity.MetricSystem); strings.Contains(text, "the unit's flow") || strings.Contains(text, "the unit gets") {
			t.Errorf("which unit is it: %s", text)
		}
	}
}
