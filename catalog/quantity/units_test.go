package quantity

import (
	"math"
	"slices"
	"testing"

	"dryfit/graph/agree"
)

// Factors as printed in NIST SP 811 (2008), appendix B.8, to seven figures, and by the
// definitions of the SI. The imperial gallon per minute is a sixtieth of the gallon of
// appendix B.8.
func TestConversionFactors(t *testing.T) {
	for _, c := range []struct {
		text string
		want Dimension
		v    float64 // printed value, in the base unit
	}{
		{"1 in", Length, 2.54e-2 * 1000},
		{"1 ft", Length, 3.048e-1 * 1000},
		{"1 gal", Volume, 3.785412e-3},
		{"1 imp-gal", Volume, 4.54609e-3},
		{"1 l", Volume, 1e-3},
		{"1 gpm", Flow, 6.309020e-5},
		{"1 imp-gpm", Flow, 4.54609e-3 / 60},
		{"1 l/min", Flow, 1.666667e-5},
		{"1 m3/h", Flow, 2.777778e-4},
		{"1 psi", Pressure, 6.894757e3},
		{"1 bar", Pressure, 1e5},
		{"1 mbar", Pressure, 1e2},
		{"1 inHg", Pressure, 3386.389}, // NIST SP 811 B.8, to seven figures
		{"1 in Hg", Pressure, 3386.389},
		{"1 hp", Power, 7.456999e2},
		{"212 °F", Temperature, 100},
		{"32 °F", Temperature, 0},
		{"100 °F", Temperature, 37.77778},
		{"1 °F", TemperatureDifference, 5.555556e-1},
		{"1 h", Time, 3600},
		{"1 ft2", Area, 9.290304e-2},
		{"1 ft/s", Velocity, 3.048e-1},
		{"1 cfm", Air, 4.719474e-4},
	} {
		q, err := Parse(c.text, c.want)
		if err != nil || !agree.Within(q.Value, c.v, 2e-7*math.Abs(c.v)+1e-12) {
			t.Errorf("%s = %.9g, %v, want %.7g", c.text, q.Value, err, c.v)
		}
	}
}

// Kv = 0.865 Cv: read in a valve handbook that cites IEC 534; 0.86498 follows from the
// units.
func TestCv(t *testing.T) {
	q, err := Parse("1 gpm", Cv)
	if err != nil || !agree.Within(q.Value, 0.86498, 5e-6) {
		t.Errorf("Cv 1 is Kv %.6f, %v, want 0.86498", q.Value, err)
	}
	if !agree.Within(q.Value, 0.865, 5e-4) {
		t.Errorf("Cv 1 is Kv %.4f, the handbook says 0.865", q.Value)
	}
}

func TestUnitTable(t *testing.T) {
	type key struct {
		symbol string
		d      Dimension
	}
	seen := map[key]bool{}
	covered := map[Dimension]bool{}
	for _, u := range Units() {
		if u.Symbol == "" || u.Example == "" || u.Source == "" {
			t.Errorf("unit %q of %v is incomplete", u.Symbol, u.Dimension)
		}
		for _, s := range append(slices.Clone(u.Aliases), u.Symbol) {
			if seen[key{s, u.Dimension}] {
				t.Errorf("unit %q of %v is there twice", s, u.Dimension)
			}
			seen[key{s, u.Dimension}] = true
			q, err := Parse("1 "+s, u.Dimension)
			if err != nil || q.Unit != u.Symbol || q.Dimension != u.Dimension {
				t.Errorf("1 %s reads as %v, %v", s, q, err)
			}
		}
		covered[u.Dimension] = true
		if _, err := Parse(u.Example, u.Dimension); err != nil {
			t.Errorf("the example %q: %v", u.Example, err)
		}
	}
	for d := Dimension(0); d < dimensions; d++ {
		if !covered[d] || d.String() == "" || d.BaseUnit() == "" {
			t.Errorf("dimension %d has no unit or no name", d)
		}
		if _, err := Parse(d.Example(), d); err != nil {
			t.Errorf("the example of %v: %v", d, err)
		}
	}
	if Dimension(-1).String() != "unknown" || Dimension(99).Example() != "" || Dimension(99).BaseUnit() != "" {
		t.Error("a dimension there is not has a name")
	}
}

// The table is a copy: what a caller does to it changes nothing.
func TestUnitsIsACopy(t *testing.T) {
	u := Units()
	u[0].Symbol = "x"
	for _, v := range u {
		if len(v.Aliases) > 0 {
			v.Aliases[0] = "x"
		}
	}
	if Units()[0].Symbol == "x" || !unitTable[5].spells("L") {
		t.Error("Units hands out the table itself")
	}
}

func TestNearest(t *testing.T) {
	words := []string{"mm", "cm", "in", "elbow-90", "elbow-45", "check", "cuts", "cutin"}
	for _, c := range []struct {
		word, near string
	}{
		{"elbow-9O", "elbow-90"}, {"elbwo-90", "elbow-90"}, {"chekc", "check"}, {"CHECK", "check"}, {"cut", "cuts"},
		{"mmm", "mm"}, {"qq", ""}, {"pump", ""}, {"", ""}, {"x", ""},
	} {
		near, ok := Nearest(c.word, words)
		if ok != (c.near != "") || ok && near != c.near {
			t.Errorf("Nearest(%q) = %q, %v, want %q", c.word, near, ok, c.near)
		}
	}
	long := make([]byte, 1<<20)
	if _, ok := Nearest(string(long), words); ok {
		t.Error("a word of a megabyte is near something")
	}
}
