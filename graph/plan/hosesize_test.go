package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// The tees on hose are of the smallest size with a barb for it that does not narrow the line,
// whichever series they are asked for in, and that a smaller barb was passed over is said. What
// is wanted is read off the sizes: hose is sold by its bore (common practice, no source), and 50 mm
// of it is more than 1-1/2 in.
func TestTeesOnHoseDoNotNarrowTheLine(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/hose-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `["3.4 m3/h", "1 m"]`, `["3.4 m3/h", "1 m"], ["4.6 m3/h", "0.1 m"]`, 1)
	for _, one := range []struct{ spec, size, asked, tees, passedOver string }{
		{"hose", "50 mm", "", "2 in", "1-1/2 in"},
		{"hose-corrugated", "50 mm", "", "2 in", "1-1/2 in"},
		{"hose", "38 mm", "", "1-1/2 in", ""},
		{"hose", "1-1/4 in", "", "1-1/4 in", ""},
		{"hose", "50 mm", "pvc-pn16", "63 mm", "50 mm"},
		{"hose", "1 in", "pvc-pn16", "32 mm", ""},
		{"flex-metric", "50 mm", "", "50 mm", ""}, // the unit's ports are 1 in, and no transition is made of 50 mm to that
		{"flex-metric", "63 mm", "", "63 mm", ""},
		{"flex-inch", "2 in", "", "2 in", ""},
	} {
		job := strings.Replace(text, "spec = \"hose\"\nsize = \"1 in\"", "spec = \""+one.spec+"\"\nsize = \""+one.size+"\"", 1)
		if one.asked != "" {
			job = strings.Replace(job, "[retrofit]\n", "[retrofit]\nspec = \""+one.asked+"\"\n", 1)
		}
		p := work(t, read(t, "hose.toml", []byte(job)), plan.Findings)
		if p.Proposal == nil {
			t.Errorf("%s %s: no place for the cut: %v", one.spec, one.size, errorsOf(p.Findings))
			continue
		}
		for _, d := range errorsOf(p.Findings) {
			t.Errorf("%s %s: %v", one.spec, one.size, d)
		}
		if got := p.Circuit.Part("tee-a").Size.String(); got != one.tees {
			t.Errorf("%s %s in %q: tees of %s, want %s", one.spec, one.size, one.asked, got, one.tees)
		}
		said := ""
		for _, d := range p.Findings {
			if text := d.Message.String(); strings.HasSuffix(text, " would narrow the line") {
				said = text
			}
		}
		if (said != "") != (one.passedOver != "") || !strings.Contains(said, ": "+one.passedOver+" would") && said != "" {
			t.Errorf("%s %s in %q: said %q, want it of %q", one.spec, one.size, one.asked, said, one.passedOver)
		}
	}
}
