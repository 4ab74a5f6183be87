package pack

import (
	"strings"
	"testing"
)

// A pool whose plant stands in a shed has no cabinet that could be opened, aired or looked under, and no
// panel; a tub whose file says nothing of its cabinet has one all the same.
func TestPoolHasNoCabinet(t *testing.T) {
	for job, want := range map[string]bool{"plunge-pool": false, "two-speed": true} {
		page := string(fileOf(t, demoPack(t, job), "index.html"))
		for _, words := range []string{"before the cabinet is opened", "under the cabinet", "Air the cabinet", "fan for the cabinet", "with the panel on"} {
			if strings.Contains(page, words) != want {
				t.Errorf("%s: %q is said: %t, wanted %t", job, words, !want, want)
			}
		}
		if !want && strings.Contains(page, "the cabinet") {
			t.Errorf("%s: the cabinet is spoken of:\n%.300s", job, page[strings.Index(page, "the cabinet")-100:])
		}
	}
}
