package description

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/pipework"
)

func TestTexts(t *testing.T) {
	for got, want := range map[string]string{
		field.Quote("a\"\\\n\t\x1b"):                            `"a\"\\\n\t\u001b"`,
		field.Key("elbow-90"):                                   `elbow-90`,
		field.Key("elbow-22.5"):                                 `"elbow-22.5"`,
		field.Key(""):                                           `""`,
		field.SizeText(catalog.Size{Nominal: 1.5}):              `"1-1/2 in"`,
		field.SizeText(catalog.Size{Metric: true, Nominal: 50}): `"50 mm"`,
		field.SizeText(catalog.Size{Nominal: 1.1}):              `"1.1 in"`,
		field.DirectionText(graph.Vec{Y: -1}):                   `"front"`,
		field.Percent(0.3):                                      `"30 %"`,
		pipework.LegText(&graph.Leg{By: graph.Vec{X: -300, Z: 180, Y: 240}, Surroundings: graph.NothingSaid()}): `"left 300 mm up 180 mm back 240 mm"`,
	} {
		if got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}
