package live

import (
	"slices"
	"testing"

	"dryfit/render/drawing"
)

// Every view there is is drawn on the live page.
func TestEveryViewIsDrawn(t *testing.T) {
	if got, want := slices.Sorted(slices.Values(late)), slices.Sorted(slices.Values(drawing.Views())); !slices.Equal(got, want) {
		t.Errorf("the live page draws %v, the views are %v", got, want)
	}
}
