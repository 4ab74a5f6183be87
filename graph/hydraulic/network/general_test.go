package network_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// wall returns a network like a wall of bricks, so wide and so high: pipe along its joints, a tee
// where three meet, a pump and a check here and there.
func wall(seed uint64, wide, high int) *network.Network {
	r := rand.New(rand.NewPCG(seed, 11))
	n := &network.Network{}
	at := make([][]int, wide*high) // ends of the pipes that meet at each crossing
	end := func(crossing int) int {
		at[crossing] = append(at[crossing], n.Nodes)
		n.Nodes++
		return n.Nodes - 1
	}
	pipe := func(a, b int) {
		e := network.Edge{From: end(a), To: end(b)}
		if r.IntN(2) == 0 {
			e.From, e.To = e.To, e.From
		}
		switch r.IntN(40) {
		case 0:
			e.Law, e.OneWay, e.Start = pump{a: 5 + 10*r.Float64(), b: 1e5}, true, 3e-3
		case 1:
			e.Law, e.OneWay = spring{crack: r.Float64(), r: 1e4}, true
		default:
			e.Law = laws.NewRunLaw(0.3+2*r.Float64(), 0.03+0.02*r.Float64(), 1e-6, 7e-7)
		}
		n.Edges = append(n.Edges, e)
	}
	for j := range high {
		for i := range wide {
			if i+1 < wide {
				pipe(j*wide+i, j*wide+i+1)
			}
			if j+1 < high && (i+j)%2 == 0 {
				pipe(j*wide+i, (j+1)*wide+i)
			}
		}
	}
	for _, ends := range at {
		middle, k := n.Nodes, len(n.Edges)
		n.Nodes++
		for _, e := range ends {
			n.Edges = append(n.Edges, network.Edge{From: e, To: middle})
		}
		if len(ends) == 3 {
			branch := 0.03 + 0.02*r.Float64()
			n.Joints = append(n.Joints, network.Joint{Edges: [3]int{k, k + 1, k + 2}, Law: laws.NewTeeLaw(0.05, branch)})
		}
	}
	return n
}

// Eliminated with their cross terms, the joints of a net of many loops leave nothing to seek: what
// the slopes make of flows is turned back into those flows. And the flows of the net are those that
// the search by steps finds without it, to more digits than are ever printed.
func TestJointsEliminated(t *testing.T) {
	many := 0
	for seed := range uint64(40) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			n := wall(seed, 5+int(seed%9), 12+int(seed%7))
			direct, err := network.NewSolver(n)
			if err != nil {
				t.Fatal(err)
			}
			seek, err := network.NewSolver(n)
			if err != nil {
				t.Fatal(err)
			}
			seek.SeekSteps()
			_, _ = direct.Solve(nil) // from the second time on they are
			got, err := direct.Solve(nil)
			want, werr := seek.Solve(nil)
			if (err == nil) != (werr == nil) {
				t.Fatalf("directly %v, by steps %v", err, werr)
			}
			if err != nil {
				t.Skip(err) // neither way
			}
			for i := range want.Q {
				if !agree.Within(got.Q[i], want.Q[i], 1e-8*want.FlowScale) {
					t.Errorf("edge %d: %g m³/s directly, %g by steps", i, got.Q[i], want.Q[i])
				}
			}
			for v := range want.Head {
				if !agree.Within(got.Head[v], want.Head[v], 1e-8*want.HeadScale) {
					t.Errorf("node %d: %g m directly, %g by steps", v, got.Head[v], want.Head[v])
				}
			}
			r := rand.New(rand.NewPCG(seed, 13))
			miss, chords := direct.DirectMiss(r.NormFloat64)
			if chords > 30 {
				many++
			}
			if !agree.Within(miss, 0, 1e-3) { // each slope is off by its floor, a millionth
				t.Errorf("flows along %d chords come back off by %g of the largest", chords, miss)
			}
		})
	}
	if many < 20 {
		t.Errorf("%d nets of more than 30 loops", many)
	}
}

// The loops of a small net, eliminated as they stand, leave nothing to seek either: what the slopes make
// of flows is turned back into them, and its flows are those that the search by steps finds.
func TestFewLoopsEliminated(t *testing.T) {
	nets, loops := 0, 0
	for seed := range uint64(200) {
		n := wall(seed, 2+int(seed%3), 3+int(seed%4))
		direct, err := network.NewSolver(n)
		if err != nil {
			t.Fatal(err)
		}
		seek, err := network.NewSolver(n)
		if err != nil {
			t.Fatal(err)
		}
		seek.SeekSteps()
		got, err := direct.Solve(nil)
		want, werr := seek.Solve(nil)
		if (err == nil) != (werr == nil) {
			t.Errorf("net %d: directly %v, by steps %v", seed, err, werr)
		}
		if err != nil || werr != nil {
			continue
		}
		for i := range want.Q {
			if !agree.Within(got.Q[i], want.Q[i], 1e-8*want.FlowScale) {
				t.Errorf("net %d, edge %d: %g m³/s directly, %g by steps", seed, i, got.Q[i], want.Q[i])
			}
		}
		r := rand.New(rand.NewPCG(seed, 17))
		miss, chords := direct.LoopsMiss(r.NormFloat64)
		if chords == 0 {
			continue
		}
		nets, loops = nets+1, loops+chords
		if !agree.Within(miss, 0, 1e-6) {
			t.Errorf("net %d: flows along %d chords come back off by %g of the largest", seed, chords, miss)
		}
	}
	if nets < 60 || loops < 120 {
		t.Errorf("%d loops in %d nets", loops, nets)
	}
}
