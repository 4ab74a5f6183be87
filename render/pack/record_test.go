package pack

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph/route"
)

// The record tells the two nuts of a valve apart, and says of every joint how it is made.
func TestHowAJointIsMade(t *testing.T) {
	size, err := catalog.ParseSize("1 1/2 in", false)
	if err != nil {
		t.Fatal(err)
	}
	for want, j := range map[string]route.Joint{
		"cement 1-1/2 in":                 {Kind: "cement", A: "piece 1", B: "v1.in", Size: size},
		"union nut, inlet side 1-1/2 in":  {Kind: "union", A: "v1", B: "tail of v1.in", Size: size},
		"union nut, outlet side 1-1/2 in": {Kind: "union", A: "v1", B: "tail of v1.out", Size: size},
		"union nut 1-1/2 in":              {Kind: "union", A: "union-1.in", B: "union-1.out", Size: size},
		"hose clips":                      {Kind: "barb"},
		"thread, tape 1-1/2 in":           {Kind: "thread", Size: size},
	} {
		if got := howJoined(j); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
