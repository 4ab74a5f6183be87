package pack

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/render/pack/planfile"
	"dryfit/render/table/form"
)

// Papers call modes and parts by words and tags, never by the names of the file: here the demo's
// unit, which has a circuit of its own, its speeds, and a mode that the earlier pack called
// otherwise.
func TestPapersCallModesAndPartsByWords(t *testing.T) {
	p := demoPlan(t, "two-speed")
	style := form.Style{Units: quantity.MetricSystem}
	if said := wordsOf(electrician(p, factsOf(p, style.Units))); !strings.Contains(said, "Circuit of HP1 heat pump:") {
		t.Errorf("the electrician's circuit has no tag:\n%s", said)
	}
	titles := ""
	for _, it := range numbers(p, style).Items {
		titles += it.Block.Title + "\n"
	}
	for _, want := range []string{"At low speed, after the work\n", "P1 pump at high speed: "} {
		if !strings.Contains(titles, want) {
			t.Errorf("no title says %q:\n%s", want, titles)
		}
	}
	data, err := planfile.JSON(p, style)
	if err != nil {
		t.Fatal(err)
	}
	was, err := planfile.Read([]byte(strings.ReplaceAll(string(data), `"mode": "low"`, `"mode": "idle"`)))
	if err != nil {
		t.Fatal(err)
	}
	changed := wordsOf(planfile.Changed(p, was, style))
	for _, want := range []string{"Running at low speed is new.", "Mode idle is no more."} {
		if !strings.Contains(changed, want) {
			t.Errorf("nothing is said of %q:\n%s", want, changed)
		}
	}
}
