package takeoff

import (
	"slices"
	"testing"
)

// Couplings along one leg are alike, those of another are not.
func TestCounted(t *testing.T) {
	got := Counted([]Place{{"in leg 1 of a", 1}, {"at v1.in", 0}, {"in leg 1 of a", 2}, {"in leg 2 of a", 1}, {"in leg 1 of a", 3}})
	if want := []string{"3 in leg 1 of a", "at v1.in", "in leg 2 of a"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
