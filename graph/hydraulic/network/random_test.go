package network_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/network"
)

// power is the law h = r·|q|^n.
type power struct{ r, n float64 }

func (p power) Loss(q float64) (float64, float64) {
	a := math.Pow(math.Abs(q), p.n-1)
	return p.r * a * q, p.n * p.r * a
}

// pump is a falling curve, h = a - b·q².
type pump struct{ a, b float64 }

func (p pump) Loss(q float64) (float64, float64) { return p.b*q*q - p.a, 2 * p.b * q }

// spring is a check that opens at a head.
type spring struct{ crack, r float64 }

func (s spring) Loss(q float64) (float64, float64) { return s.crack + s.r*q*q, 2 * s.r * q }

// ring returns a network of so many edges: a grid of pipe wound round, with pumps and checks.
func ring(seed uint64, edges int) *network.Network {
	r := rand.New(rand.NewPCG(seed, 7))
	wide := max(2, int(math.Sqrt(float64(edges)/2)))
	n := &network.Network{Nodes: wide * wide}
	law := func() network.Law {
		return power{r: math.Pow(10, 3+3*r.Float64()), n: 1.75 + 0.25*r.Float64()}
	}
	at := func(i, j int) int { return (i%wide)*wide + j%wide }
	for i := range wide {
		for j := range wide {
			for _, to := range []int{at(i+1, j), at(i, j+1)} {
				if len(n.Edges) < edges {
					n.Edges = append(n.Edges, network.Edge{From: at(i, j), To: to, Law: law()})
				}
			}
		}
	}
	for k := range 1 + edges/50 {
		e := &n.Edges[(k*37+3)%len(n.Edges)]
		e.Law, e.OneWay, e.Start = pump{a: 5 + 10*r.Float64(), b: 1e5}, true, 5e-3
		c := &n.Edges[(k*53+11)%len(n.Edges)]
		if !c.OneWay {
			c.Law, c.OneWay = spring{crack: 2 * r.Float64(), r: 1e4}, true
		}
	}
	return n
}

// closes checks a solution from its flows and the laws alone.
func closes(t *testing.T, n *network.Network, f *network.Flow) {
	t.Helper()
	bal := make([]float64, n.Nodes)
	most, head := 0.0, 0.0
	for i, e := range n.Edges {
		q := f.Q[i]
		bal[e.From] -= q
		bal[e.To] += q
		most = max(most, math.Abs(q))
		d := f.Head[e.From] - f.Head[e.To]
		if f.Shut[i] {
			h0, _ := e.Law.Loss(0)
			if q != 0 || d > h0+1e-6*f.HeadScale {
				t.Errorf("edge %d is shut with %g m³/s and %g m over it, opens at %g", i, q, d, h0)
			}
			continue
		}
		h := 0.0
		if e.Law != nil {
			h, _ = e.Law.Loss(q)
		}
		head = max(head, math.Abs(d-h))
		if e.OneWay && q < 0 {
			t.Errorf("edge %d: %g m³/s against its way", i, q)
		}
	}
	for v, b := range bal {
		if !agree.Within(b, 0, 1e-9*most) {
			t.Errorf("node %d: %g m³/s too much", v, b)
		}
	}
	if head > 1e-6*f.HeadScale {
		t.Errorf("heads miss by %g m of %g", head, f.HeadScale)
	}
	if most == 0 {
		t.Error("nothing flows")
	}
}

func TestRandomNetworks(t *testing.T) {
	for _, size := range []int{10, 20, 50, 100, 200, 500, 1000} {
		for seed := range uint64(8) {
			t.Run(fmt.Sprintf("%d/%d", size, seed), func(t *testing.T) {
				n := ring(seed, size)
				f, err := network.Solve(n)
				if err != nil {
					t.Fatal(err)
				}
				closes(t, n, f)
			})
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, size := range []int{30, 1000, 10000} {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			n := ring(1, size)
			b.ReportAllocs()
			steps := 0
			for b.Loop() {
				f, err := network.Solve(n)
				if err != nil {
					b.Fatal(err)
				}
				steps = f.Iterations
			}
			b.ReportMetric(float64(steps), "steps")
		})
	}
}
