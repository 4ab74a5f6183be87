package network_test

import (
	"math/rand/v2"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// A pump whose curve rises before it falls, against a lift and a square law in one loop: the flow is
// the first at which what it gives no longer exceeds what the loop asks, walked up from rest in steps
// and halved down; where it rests, none. Another answer is told where the walk goes on to find one
// that a little more flow leads back from.
func TestRisingPumpByWalking(t *testing.T) {
	two, still, flowing := 0, 0, 0
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 17))
		start := 2 + 4*r.Float64()
		top := start * (1.05 + 3*r.Float64())
		curve, err := laws.NewPumpCurve([]float64{0, 1e-3 * (1 + r.Float64()), 3e-3, 5e-3}, []float64{start, top, top * 0.8, top * 0.1})
		if err != nil {
			t.Fatal(err)
		}
		lift, k := start*(0.5+0.8*r.Float64()), (start*0.2)/(9e-6)*(0.3+6*r.Float64())
		excess := func(q float64) float64 {
			h, _ := curve.Head(q)
			return h - lift - k*q*q
		}
		first, last := 0.0, 0.0
		if excess(0) > 0 {
			first = -1
		}
		const step = 1e-6
		for q := 0.0; q < 6e-3; q += step {
			if excess(q) > 0 && excess(q+step) <= 0 {
				lo, hi := q, q+step
				for range 60 {
					if m := (lo + hi) / 2; excess(m) > 0 {
						lo = m
					} else {
						hi = m
					}
				}
				if last = lo; first < 0 {
					first = lo
				}
			}
		}
		n := &network.Network{Nodes: 2, Edges: []network.Edge{
			{From: 0, To: 1, Law: &laws.RisingPump{PumpLaw: laws.PumpLaw{Curve: curve, Times: 1, Wide: 1}}, OneWay: true, Start: 3e-3},
			{From: 1, To: 0, Law: spring{crack: lift, r: k}, OneWay: true},
		}}
		s, err := network.NewSolver(n)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.Solve(nil)
		if err != nil {
			t.Errorf("seed %d: %v; walking finds %g", seed, err, first)
			continue
		}
		if !agree.Within(f.Q[1], first, 1e-7) {
			t.Errorf("seed %d: %g m³/s, walking from rest %g, last %g", seed, f.Q[1], first, last)
		}
		if apart := last > first+1e-5; f.Two != apart || apart && !agree.Within(f.Other[1], last, 1e-7) {
			t.Errorf("seed %d: two %v, other %v; walking finds %g and %g", seed, f.Two, f.Other, first, last)
		}
		switch {
		case last > first:
			two++
		case first == 0:
			still++
		default:
			flowing++
		}
	}
	if two < 10 || still < 10 || flowing < 10 {
		t.Errorf("%d with two answers, %d at rest, %d flowing: too few to tell", two, still, flowing)
	}
}
