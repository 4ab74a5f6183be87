package quantity

import (
	"slices"
	"testing"
)

// A part of a word between hyphens tells more than its letters do; any word gets as many as
// are asked for, and of few candidates all.
func TestMostLike(t *testing.T) {
	keys := []string{"name", "bore", "head-share", "head-share-low", "take-off", "body-long", "length", "tol-minus", "tol-plus"}
	for _, c := range []struct {
		word string
		want []string
	}{
		{"highest-head", []string{"head-share", "head-share-low"}},
		{"body-wide", []string{"body-long", "bore"}},
		{"tolerance", []string{"tol-minus", "tol-plus"}},
		{"lenth", []string{"length", "name"}},
	} {
		if got := MostLike(c.word, keys, 2); !slices.Equal(got, c.want) {
			t.Errorf("most like %q: %q, want %q", c.word, got, c.want)
		}
	}
	if got := MostLike("", keys[:2], 3); len(got) != 2 {
		t.Errorf("of two candidates %q", got)
	}
}
