package quantity

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Whatever value stands in a circuit, its text reads back to the same bits.
func TestExact(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2)) // fixed: the same values in every run
	for d := range plainUnits {
		for range 400 {
			v := math.Exp(random.Float64()*20 - 10)
			q, err := Parse(Exact(v, d), d)
			if err != nil || q.Value != v {
				t.Fatalf("%v: %v became %q, %v (%v)", d, v, Exact(v, d), q.Value, err)
			}
		}
	}
	for range 400 {
		v := random.Float64()
		q, err := Parse(Exact(v, Share), Share)
		if err != nil || q.Value != v {
			t.Fatalf("%v became %s, %v (%v)", v, Exact(v, Share), q.Value, err)
		}
	}
}

// Every dimension has a unit to be written in; a Cv is kept, and written, as a Kv.
func TestExactHasEveryDimension(t *testing.T) {
	for d := range dimensions {
		if len(plainUnits[d]) == 0 && d != Share && d != Cv {
			t.Errorf("no unit to write a %s in", d)
		}
	}
}

// What a person wrote in whole units comes back in whole units.
func TestExactIsPlain(t *testing.T) {
	for _, c := range []struct {
		text string
		d    Dimension
		want string
	}{
		{"450 mm", Length, "450 mm"},
		{"12 ft 6 in", Length, "3810 mm"},
		{"5.8 m3/h", Flow, "5.8 m3/h"},
		{"95 l/min", Flow, "5.7 m3/h"},
		{"25 gpm", Flow, "25 gpm"},
		{"2 psi", Pressure, "2 psi"},
		{"6 kPa", Pressure, "6 kPa"},
		{"3.5 bar", Pressure, "350 kPa"},
		{"1150 l", Volume, "1150 l"},
		{"300 gal", Volume, "300 gal"},
		{"2.9 kW", Power, "2.9 kW"},
		{"240 W", Power, "240 W"},
		{"38 °C", Temperature, "38 °C"},
	} {
		q, err := Parse(c.text, c.d)
		if err != nil {
			t.Fatal(err)
		}
		if got := Exact(q.Value, c.d); got != c.want {
			t.Errorf("%s is written %q, want %q", c.text, got, c.want)
		}
	}
}
