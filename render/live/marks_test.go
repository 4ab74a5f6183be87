package live

import (
	"testing"

	"dryfit/render/table/form"
)

// A mark that would lie before what the tape is held to is never printed as a measure.
func TestMarksAreOnThePipe(t *testing.T) {
	for _, c := range []struct {
		first float64
		want  string
	}{
		{120, "X1 at 120 mm and X2 at 400 mm from the face"},
		{0, "X1 at 0 mm and X2 at 400 mm from the face"},
		{-61, "no marks: X1 would lie 61 mm before the face, where there is no bare pipe to saw"},
	} {
		if got := marks(c.first, 400, "face", form.Style{}); got != c.want {
			t.Errorf("%g: %s, want %s", c.first, got, c.want)
		}
	}
}
