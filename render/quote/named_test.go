package quote

import (
	"testing"

	"dryfit/graph/takeoff"
)

// Bars of two lengths are two things to buy: each says how long it is.
func TestBarsSayTheirLength(t *testing.T) {
	for want, item := range map[string]takeoff.Item{
		"pipe 50 mm bar of 6 m":  {Name: "pipe, 50 mm, pvc-pn10, bar of 6 m", Kind: "pipe", Size: "50 mm"},
		"pipe 2 in bar of 10 ft": {Name: "pipe, 2 in, bar of 10 ft", Kind: "pipe", Size: "2 in"},
		"hose 1 in":              {Name: "hose, 1 in", Kind: "pipe", Size: "1 in"},
		"elbow 90 50 mm":         {Name: "elbow 90, 50 mm, pvc-pn10", Kind: "elbow-90", Size: "50 mm"},
	} {
		if got := named(&item); got != want {
			t.Errorf("%q is asked for as %q, want %q", item.Name, got, want)
		}
	}
}
