package sample

import (
	"math"
	"slices"
	"testing"

	"dryfit/graph/agree"
)

// Every coordinate alone takes each of its 1021 values once: a property of a lattice with a
// prime number of points.
func TestEven(t *testing.T) {
	for dim := range 60 {
		var seen []float64
		for i := range Size {
			seen = append(seen, Point(i, dim))
		}
		slices.Sort(seen)
		for i, u := range seen {
			if want := (float64(i) + 0.5) / Size; !agree.Within(u, want, 1e-12) {
				t.Fatalf("coordinate %d, value %d: got %g, want %g", dim, i, u, want)
			}
		}
	}
}

// TestSpread holds the correlation of every pair of the first lattice's coordinates to what a
// random sample of the size would rarely exceed: 4/√n.
func TestSpread(t *testing.T) {
	bound := 4 / math.Sqrt(Size)
	for a := 1; a < block; a++ {
		for b := a + 1; b < block; b++ {
			sum := 0.0
			for i := range Size {
				sum += (Point(i, a) - 0.5) * (Point(i, b) - 0.5)
			}
			if r := sum / Size * 12; !agree.Within(r, 0, bound) {
				t.Errorf("coordinates %d and %d: correlation %.3f, want at most %.3f", a, b, r, bound)
			}
		}
	}
}

// However many coordinates there are, no two go together: each that stands 84, 90, 213, 510, 1,020 or more
// from another, where those of one lattice are half or wholly the same, is spread evenly by itself and goes with
// it by no more than 0.2: two of a random sample of the size do by 0.03 as a rule.
func TestManyCoordinates(t *testing.T) {
	for _, apart := range []int{1, 83, 84, 85, 90, 168, 213, 297, 420, 510, 594, 807, 930, 1020, 2040, 5100, 40000} {
		worst := 0.0
		for a := 1; a <= 2*block; a++ {
			with, mean := 0.0, 0.0
			for i := range Size {
				with += (Point(i, a) - 0.5) * (Point(i, a+apart) - 0.5) * 12 / Size
				mean += Point(i, a+apart) / Size
			}
			worst = max(worst, math.Abs(with))
			if !agree.Within(mean, 0.5, 1e-9) {
				t.Errorf("coordinate %d: mean %g", a+apart, mean)
			}
		}
		if !agree.Within(worst, 0, 0.2) {
			t.Errorf("of coordinates %d apart two have a correlation of %.3f", apart, worst)
		}
	}
}

// The few points are different ones, and the mean of each of the first coordinates of flows and year over them is that of the
// cube to 0.06: a random sample of 64 would be off by 0.036 as a rule, and by 0.1 in one of 60.
func TestFew(t *testing.T) {
	points := Few()
	seen := map[int]bool{}
	for _, i := range points {
		if i < 0 || i >= Size || seen[i] {
			t.Fatalf("point %d", i)
		}
		seen[i] = true
	}
	coordinates := make([]int, 0, 70)
	for n := range 60 {
		coordinates = append(coordinates, OfFlows(n))
	}
	for n := range 10 {
		coordinates = append(coordinates, OfYear(n))
	}
	for _, dim := range coordinates {
		sum := 0.0
		for _, i := range points {
			sum += Point(i, dim)
		}
		if mean := sum / float64(len(points)); !agree.Within(mean, 0.5, 0.06) {
			t.Errorf("coordinate %d: mean %.3f", dim, mean)
		}
	}
	if n := len(All()); n != Size {
		t.Errorf("%d of %d", n, Size)
	}
}

// No number that may be off has the coordinate of another, of the flows or of a year: two would go together.
func TestCoordinatesOfTheirOwn(t *testing.T) {
	of := map[int]string{}
	for _, c := range []struct {
		name  string
		at    func(int) int
		count int
	}{{"flows", OfFlows, 60000}, {"year", OfYear, 400}} {
		for n := range c.count {
			if at := c.at(n); at < 1 || of[at] != "" {
				t.Fatalf("coordinate %d of number %d of the %s: taken by the %q", at, n, c.name, of[at])
			} else {
				of[at] = c.name
			}
		}
	}
}

// Any number of the points that is taken is that many different ones, the few among them, and the
// mean of each coordinate over them is that of the cube to 2.25 times what a random sample of as
// many is off by as a rule, 1/√(12 n): more than that comes about once in forty.
func TestSome(t *testing.T) {
	for _, most := range []int{-1, 0, 64, 100, 200, 333, 500, 510, 511, 5000} {
		points, want := Some(most), max(most, 64)
		if most > 510 {
			want = Size
		}
		seen := map[int]bool{}
		for _, i := range points {
			seen[i] = true
		}
		if len(points) != want || len(seen) != want {
			t.Fatalf("%d asked for: %d points, %d different ones", most, len(points), len(seen))
		}
		for _, i := range Few() {
			if !seen[i] {
				t.Errorf("%d asked for: point %d of the few is not among them", most, i)
			}
		}
		for dim := 1; dim <= 60; dim++ {
			sum := 0.0
			for _, i := range points {
				sum += Point(i, dim)
			}
			if mean := sum / float64(want); !agree.Within(mean, 0.5, 2.25/math.Sqrt(12*float64(want))) {
				t.Errorf("%d asked for, coordinate %d: mean %.3f", most, dim, mean)
			}
		}
	}
}

// From Size on the points are others, in each coordinate as evenly spread, and no two coordinates
// go with each other more than in the first.
func TestPointsAgain(t *testing.T) {
	bound := 4 / math.Sqrt(Size)
	for again := 1; again < 4; again++ {
		for a := 1; a <= 30; a++ {
			mean, with := 0.0, 0.0
			for i := range Size {
				u := Point(again*Size+i, a)
				if u < 0 || u >= 1 || u == Point(i, a) {
					t.Fatalf("point %d of coordinate %d: %g", again*Size+i, a, u)
				}
				mean += u / Size
				with += (u - 0.5) * (Point(again*Size+i, a+1) - 0.5) * 12 / Size
			}
			if !agree.Within(mean, 0.5, 0.001) || !agree.Within(with, 0, bound) {
				t.Errorf("time %d, coordinate %d: mean %.4f, with the next %.3f", again, a, mean, with)
			}
		}
	}
}
