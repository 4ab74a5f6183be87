package cutplan

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/render/scene"
)

// Hose comes in coils, or as what is left of one: nothing of it is called a bar, and where both are cut the notes speak of both.
// Common practice, no source.
func TestHoseIsNoBar(t *testing.T) {
	said := func(specs ...catalog.Spec) string {
		l := list()
		for i, s := range specs {
			l.Plans[i].Spec = s
		}
		var b strings.Builder
		for _, s := range Draw(Input{List: l, Job: job()}) {
			for _, it := range s.Items {
				if txt, ok := it.(scene.Text); ok {
					b.WriteString(txt.Text + "\n")
				}
			}
		}
		return b.String()
	}
	hose := said(catalog.HosePipe, catalog.FlexMetric)
	if strings.Contains(hose, "bar") {
		t.Errorf("hose in bars:\n%s", hose)
	}
	for _, want := range []string{"coil 2\n", "length 1\n", "not cut from a coil", "under a coil", "coils 1:"} {
		if !strings.Contains(hose, want) {
			t.Errorf("no %q in\n%s", want, hose)
		}
	}
	for _, want := range []string{"coil 2\n", "bar 1\n", "under a bar or coil", "bars and coils 1:"} {
		if both := said(catalog.HosePipe); !strings.Contains(both, want) {
			t.Errorf("no %q in\n%s", want, both)
		}
	}
}
