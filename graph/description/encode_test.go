package description

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
)

func TestTexts(t *testing.T) {
	for got, want := range map[string]string{
		quote("a\"\\\n\t\x1b"):               `"a\"\\\n\t\u001b"`,
		key("elbow-90"):                      `elbow-90`,
		key("elbow-22.5"):                    `"elbow-22.5"`,
		key(""):                              `""`,
		sizeText(catalog.Size{Nominal: 1.5}): `"1-1/2 in"`,
		sizeText(catalog.Size{Metric: true, Nominal: 50}): `"50 mm"`,
		sizeText(catalog.Size{Nominal: 1.1}):              `"1.1 in"`,
		directionText(graph.Vec{Y: -1}):                   `"front"`,
		percent(0.3):                                      `"30 %"`,
		legText(&graph.Leg{By: graph.Vec{X: -300, Z: 180, Y: 240}, Place: graph.NoPlace()}): `"left 300 mm up 180 mm back 240 mm"`,
	} {
		if got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}
