package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
)

// surface returns points spread over a shape, inside and on its skin, by their own formulas.
func surface(s Shape, n int) []graph.Vec {
	var out []graph.Vec
	at := func(i int) float64 { return float64(i) / float64(n) }
	if s.form == box {
		for i := range n + 1 {
			for j := range n + 1 {
				for k := range n + 1 {
					if i%n != 0 && j%n != 0 && k%n != 0 {
						continue
					}
					out = append(out, s.a.Add(s.half[0].Scale(2*at(i)-1)).Add(s.half[1].Scale(2*at(j)-1)).Add(s.half[2].Scale(2*at(k)-1)))
				}
			}
		}
		return out
	}
	axis := s.b.Sub(s.a)
	u := axis.Unit()
	if u == (graph.Vec{}) {
		u = graph.Vec{Z: 1}
	}
	x := u.Cross(graph.Vec{X: 1})
	if x.Len() < 0.1 {
		x = u.Cross(graph.Vec{Y: 1})
	}
	x = x.Unit()
	y := u.Cross(x)
	for j := range 3 * n {
		turn := 2 * math.Pi * float64(j) / float64(3*n)
		out3 := x.Scale(math.Cos(turn)).Add(y.Scale(math.Sin(turn)))
		for i := range n + 1 {
			out = append(out, s.a.Add(axis.Scale(at(i))).Add(out3.Scale(s.radius)))
			if s.form == cylinder {
				out = append(out, s.a.Add(out3.Scale(s.radius*at(i))), s.b.Add(out3.Scale(s.radius*at(i))))
				continue
			}
			lift := math.Pi / 2 * at(i)
			out = append(out, s.a.Sub(u.Scale(s.radius*math.Sin(lift))).Add(out3.Scale(s.radius*math.Cos(lift))),
				s.b.Add(u.Scale(s.radius*math.Sin(lift))).Add(out3.Scale(s.radius*math.Cos(lift))))
		}
	}
	return out
}

func someShape(r *rand.Rand) Shape {
	v := func(m float64) graph.Vec {
		return graph.Vec{X: m * (2*r.Float64() - 1), Y: m * (2*r.Float64() - 1), Z: m * (2*r.Float64() - 1)}
	}
	a := v(150)
	switch r.IntN(5) {
	case 0:
		return Capsule(a, a.Add(v(120)), 10+40*r.Float64())
	case 1:
		return Cylinder(a, a.Add(v(120)), 10+40*r.Float64())
	case 2: // along an axis, as most pipe is
		return Cylinder(a, a.Add(graph.Vec{Y: 20 + 100*r.Float64()}), 30)
	case 3:
		return Box(a, a.Add(v(120)))
	}
	u, w := v(1).Unit(), v(1)
	w = u.Cross(w).Unit()
	return Slanted(a, u.Scale(10+60*r.Float64()), w.Scale(10+60*r.Float64()), u.Cross(w).Scale(10+60*r.Float64()))
}

// The distance is never more than between any two points of the bodies, and as small as the
// nearest of a dense sample (reference: brute force over the samples).
func TestDistanceAgainstSampling(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 11))
	touching, apart := 0, 0
	for range 250 {
		a, b := someShape(r), someShape(r)
		pa, pb := surface(a, 12), surface(b, 12)
		brute := math.Inf(1)
		for _, p := range pa {
			for _, q := range pb {
				way := p.Sub(q)
				brute = min(brute, way.Dot(way))
			}
		}
		brute = math.Sqrt(brute)
		got := Distance(a, b)
		if got > brute+1e-3 {
			t.Fatalf("Distance(%+v, %+v) = %.4f, and two of their points are %.4f apart", a, b, got, brute)
		}
		if got > 0 {
			apart++
			if brute-got > 12 { // half the sample's mesh on both
				t.Fatalf("Distance(%+v, %+v) = %.4f, nearest sample %.4f", a, b, got, brute)
			}
		} else {
			touching++
		}
		if back := Distance(b, a); !agree.Within(back, got, 2e-3) {
			t.Fatalf("Distance is %.4f one way and %.4f the other", got, back)
		}
	}
	if touching < 20 || apart < 20 {
		t.Fatalf("%d pairs touch and %d are apart: the sample tests too little", touching, apart)
	}
}

// Known distances, by hand.
func TestDistanceByHand(t *testing.T) {
	pipe := Cylinder(graph.Vec{}, graph.Vec{X: 500}, 30)
	for _, c := range []struct {
		name string
		b    Shape
		want float64
	}{
		{"parallel pipe", Cylinder(graph.Vec{Y: 100}, graph.Vec{X: 500, Y: 100}, 30), 40},
		{"crossing pipe", Cylinder(graph.Vec{X: 200, Y: -200, Z: 75}, graph.Vec{X: 200, Y: 200, Z: 75}, 25), 20},
		{"pipe beyond its flat end", Cylinder(graph.Vec{X: 510}, graph.Vec{X: 600}, 40), 10},
		{"box beside it", Box(graph.Vec{X: 100, Y: 42, Z: -5}, graph.Vec{X: 120, Y: 90, Z: 5}), 12},
		{"box beyond its end", Box(graph.Vec{X: 507, Y: -5, Z: -5}, graph.Vec{X: 600, Y: 5, Z: 5}), 7},
		{"sphere at the rim", Sphere(graph.Vec{X: 530, Y: 70}, 20), 30},
		{"pipe in one lane", Cylinder(graph.Vec{X: 400}, graph.Vec{X: 900}, 30), 0},
		{"capsule end on", Capsule(graph.Vec{X: 560}, graph.Vec{X: 700}, 30), 30},
	} {
		if got := Distance(pipe, c.b); !agree.Within(got, c.want, 1e-3) {
			t.Errorf("%s: %.4f, want %.4f", c.name, got, c.want)
		}
	}
}

// The least move out is the overlap along one of the six directions.
func TestPart(t *testing.T) {
	pipe := Cylinder(graph.Vec{}, graph.Vec{X: 500}, 30)
	way, mm := Part(Cylinder(graph.Vec{X: 100, Y: -300, Z: 45}, graph.Vec{X: 100, Y: 300, Z: 45}, 25), pipe)
	if way != (graph.Vec{Z: 1}) || !agree.Within(mm, 10, 1e-2) {
		t.Errorf("out by %.3f mm along %+v, want 10 mm up", mm, way)
	}
	if _, mm := Part(Box(graph.Vec{Z: 31}, graph.Vec{X: 1, Y: 1, Z: 40}), pipe); mm != 0 {
		t.Errorf("apart, and yet out by %.3f mm", mm)
	}
}

// The box round a shape holds every point of it and no more.
func TestBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	for range 100 {
		s := someShape(r)
		low, high := s.Bounds()
		seenLow, seenHigh := graph.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, graph.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
		for _, p := range surface(s, 16) {
			seenLow, seenHigh = least(seenLow, p), most(seenHigh, p)
		}
		if d := seenLow.Sub(low); d.X < -1e-6 || d.Y < -1e-6 || d.Z < -1e-6 || d.Len() > 8 {
			t.Fatalf("%+v: low corner %+v, points reach %+v", s, low, seenLow)
		}
		if d := high.Sub(seenHigh); d.X < -1e-6 || d.Y < -1e-6 || d.Z < -1e-6 || d.Len() > 8 {
			t.Fatalf("%+v: high corner %+v, points reach %+v", s, high, seenHigh)
		}
	}
}

func BenchmarkDistance(b *testing.B) {
	p := Cylinder(graph.Vec{}, graph.Vec{X: 500}, 30)
	q := Box(graph.Vec{X: 100, Y: 42, Z: -5}, graph.Vec{X: 120, Y: 90, Z: 5})
	for b.Loop() {
		Distance(p, q)
	}
}
