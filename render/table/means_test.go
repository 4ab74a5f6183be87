package table

import (
	"testing"

	"dryfit/graph/settle"
)

// Every value that is shown of any demo says what it means.
func TestEveryValueShownHasAMeaning(t *testing.T) {
	for _, name := range []string{"two-speed", "circulation", "large-circulation", "plunge-pool", "plug-in"} {
		p := demo(t, name)
		values := ShownOf([]*settle.Stage{p.After.Layout.Stage}, "")
		if len(values) < 100 {
			t.Errorf("%s: %d values", name, len(values))
		}
		for _, v := range values {
			if Means(v.What) == "" {
				t.Errorf("%s: nobody says what %q of %s means", name, v.What, v.Of)
			}
		}
	}
}
