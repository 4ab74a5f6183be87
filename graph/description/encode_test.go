package description

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Whatever value stands in a circuit, its text reads back to the same bits.
func TestExact(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2)) // fixed: the same values in every run
	for d := range plainUnits {
		for range 400 {
			v := math.Exp(random.Float64()*20 - 10)
			q, err := quantity.Parse(exact(v, d), d)
			if err != nil || q.Value != v {
				t.Fatalf("%v: %v became %q, %v (%v)", d, v, exact(v, d), q.Value, err)
			}
		}
	}
	for range 400 {
		v := random.Float64()
		q, err := quantity.Parse(percent(v)[1:len(percent(v))-1], quantity.Share)
		if err != nil || q.Value != v {
			t.Fatalf("%v became %s, %v (%v)", v, percent(v), q.Value, err)
		}
	}
}

// What a person wrote in whole units comes back in whole units.
func TestExactIsPlain(t *testing.T) {
	for _, c := range []struct {
		text string
		d    quantity.Dimension
		want string
	}{
		{"450 mm", quantity.Length, "450 mm"},
		{"12 ft 6 in", quantity.Length, "3810 mm"},
		{"5.8 m3/h", quantity.Flow, "5.8 m3/h"},
		{"95 l/min", quantity.Flow, "5.7 m3/h"},
		{"25 gpm", quantity.Flow, "25 gpm"},
		{"2 psi", quantity.Pressure, "2 psi"},
		{"6 kPa", quantity.Pressure, "6 kPa"},
		{"3.5 bar", quantity.Pressure, "350 kPa"},
		{"1150 l", quantity.Volume, "1150 l"},
		{"300 gal", quantity.Volume, "300 gal"},
		{"2.9 kW", quantity.Power, "2.9 kW"},
		{"240 W", quantity.Power, "240 W"},
		{"38 °C", quantity.Temperature, "38 °C"},
	} {
		q, err := quantity.Parse(c.text, c.d)
		if err != nil {
			t.Fatal(err)
		}
		if got := exact(q.Value, c.d); got != c.want {
			t.Errorf("%s is written %q, want %q", c.text, got, c.want)
		}
	}
}

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
