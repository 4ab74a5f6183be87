package graph

import "testing"

// An opening at the surface is known by any of the trade's words for one; a footwell is none.
func TestOpeningAtTheSurface(t *testing.T) {
	for name, want := range map[string]bool{
		"skimmer": true, "Skim-left": true, "weir": true, "filter-well": true, "well": true, "surface": true,
		"footwell": false, "foot-well": false, "floor": false, "jets": false, "suction-low": false,
	} {
		if got := (&Port{Name: name}).AtSurface(); got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
