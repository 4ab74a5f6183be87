package quantity

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// What is read plainly is what the reader reads that knows every form: the same value to the last
// bit, the same unit and dimension; and what that one refuses is not read plainly.
func TestPlainly(t *testing.T) {
	numbers := []string{"0", "0.0", "007", "1", "12.", ".5", "450", "60.33", "1.5", "3/4", "1-1/2", "1 1/2", "1-3/2", "4/0", "1-0/0", "0/3", "1--1/2", "1 1", "1-1",
		"1.2.3", "1/2/3", "1.5-1/2", "-1", "+1", "99999999", "99999999.99999999", "123456789", "0.123456789", "1,5", "1e3", "½", "1 ", "1  1/2", "1- 1/2", ""}
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		numbers = append(numbers, fmt.Sprintf("%d.%0*d", random.IntN(100000), 1+random.IntN(7), random.IntN(10)), fmt.Sprintf("%d-%d/%d", random.IntN(100), 1+random.IntN(20), 1+random.IntN(64)))
	}
	units := []string{"", "x", "mm2 x"}
	for _, u := range unitTable {
		units = append(append(units, u.Symbol), u.Aliases...)
	}
	plain := 0
	for i, number := range numbers {
		for j, unit := range units {
			if i > 100 && i%len(units) != j {
				continue
			}
			for _, text := range []string{number + " " + unit, number + unit, number + "  " + unit + " "} {
				for _, want := range [][]Dimension{nil, {Length}, {Pressure, Head}, {Temperature}, {Cv}} {
					got, ok := plainly(text, want)
					if !ok {
						continue
					}
					plain++
					is, err := (&reader{text: text, want: want}).quantity()
					if err != nil || got != is {
						t.Fatalf("%q is read plainly as %+v, in full as %+v, %v", text, got, is, err)
					}
				}
			}
		}
	}
	if plain < 5000 {
		t.Errorf("%d are read plainly", plain)
	}
	for _, text := range []string{"450 mm", "60.33mm", "3/4 in", "1-1/2 in", "1 1/2 in", "12 m3/h", "0.5 psi", "10 bar", "2.1 m2 K/W"} {
		if _, ok := plainly(text, nil); !ok {
			t.Errorf("%q is not read plainly", text)
		}
	}
}
