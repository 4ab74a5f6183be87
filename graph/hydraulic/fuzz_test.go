package hydraulic

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// built returns a network made of bytes: pipes, ideal edges, pumps, rising pumps, checks and
// tees between a few nodes.
func built(data []byte) *network.Network {
	next := func() int {
		if len(data) == 0 {
			return 0
		}
		b := data[0]
		data = data[1:]
		return int(b)
	}
	size := func() float64 { return math.Pow(10, float64(next())/64-2) } // 0.01 to 100
	n := &network.Network{Nodes: 2 + next()%10}
	open := n.Nodes // nodes to join: not the middles of tees
	for range 40 {
		if len(data) == 0 {
			break
		}
		kind, a, b := next(), next()%open, next()%open
		e := network.Edge{From: a, To: b}
		switch kind % 8 {
		case 0, 1:
			e.Law = laws.NewRunLaw(0.5+10*size(), 0.01+0.01*float64(next()%10), 1e-6*size(), 7e-7)
		case 2:
			e.Law = &laws.PartLaw{Square: 1e4 * size(), Times: 1}
		case 3: // ideal
		case 4:
			c, err := laws.NewPumpCurve([]float64{0, 4e-3, 8e-3}, []float64{10 * size(), 0, -1})
			if err != nil {
				continue
			}
			e.Law, e.OneWay, e.Start = &laws.PumpLaw{Curve: c, Times: 1, Wide: 1}, true, 3e-3
		case 5:
			top := size()
			c, err := laws.NewPumpCurve([]float64{0, 2e-3, 8e-3}, []float64{top * 0.8, top, 0})
			if err != nil {
				continue
			}
			e.Law, e.OneWay, e.Start = &laws.RisingPump{PumpLaw: laws.PumpLaw{Curve: c, Times: 1, Wide: 1}}, true, 3e-3
		case 6:
			e.Law, e.OneWay = &laws.CheckLaw{Cracking: 0.1 * size() * float64(next()%2), Open: laws.PartLaw{Square: 1e4 * size(), Times: 1}}, true
		case 7:
			legs := []int{a, b, next() % open}
			for i, leg := range legs { // a pipe on every leg, as a tee has
				legs[i] = n.Nodes
				n.Nodes++
				n.Edges = append(n.Edges, network.Edge{From: leg, To: legs[i], Law: laws.NewRunLaw(0.5+0.5*size(), 0.03+0.01*float64(next()%3), 1e-6, 7e-7)})
			}
			middle, k := n.Nodes, len(n.Edges)
			n.Nodes++
			for _, leg := range legs {
				n.Edges = append(n.Edges, network.Edge{From: leg, To: middle})
			}
			n.Joints = append(n.Joints, network.Joint{Edges: [3]int{k, k + 1, k + 2}, Law: laws.NewTeeLaw(0.05, 0.02+0.01*float64(next()%4))})
			continue
		}
		n.Edges = append(n.Edges, e)
	}
	return n
}

// examine solves a network and reports what must not be: an answer that does not close, is
// not a number or takes too long; an error of another kind.
func examine(t *testing.T, n *network.Network) error {
	t.Helper()
	start := time.Now()
	f, err := network.Solve(n)
	if d := time.Since(start); d > 10*time.Second {
		t.Errorf("took %v", d)
	}
	if err != nil {
		var c *network.ConvergenceError
		if !errors.As(err, &c) {
			t.Errorf("error of another kind: %v", err)
		}
		return err
	}
	bal := make([]float64, n.Nodes)
	most := 0.0
	for i, e := range n.Edges {
		if math.IsNaN(f.Q[i]) || math.IsNaN(f.Loss[i]) {
			t.Fatalf("edge %d is not a number", i)
		}
		bal[e.From] -= f.Q[i]
		bal[e.To] += f.Q[i]
		most = max(most, math.Abs(f.Q[i]))
		if e.OneWay && f.Q[i] < 0 {
			t.Errorf("edge %d: %g m³/s against its way", i, f.Q[i])
		}
		if e.OneWay && f.Shut[i] && f.Q[i] != 0 {
			t.Errorf("edge %d is shut with %g m³/s", i, f.Q[i])
		}
	}
	for v, b := range bal {
		if !agree.Within(b, 0, 1e-9*most) {
			t.Errorf("node %d: %g m³/s too much", v, b)
		}
	}
	heads := func(i int, want float64) {
		e := n.Edges[i]
		if d := f.Head[e.From] - f.Head[e.To]; !agree.Within(d, want, 1e-6*f.HeadScale+1e-9) {
			t.Errorf("edge %d: %g m over it, its law says %g", i, d, want)
		}
	}
	inJoint := map[int]bool{}
	for _, j := range n.Joints {
		var q [3]float64
		for k, e := range j.Edges {
			q[k], inJoint[e] = f.Q[e], true
		}
		h, _ := j.Law.Loss(q)
		for k, e := range j.Edges {
			heads(e, h[k])
		}
	}
	for i, e := range n.Edges {
		if inJoint[i] || f.Shut[i] {
			continue
		}
		h := 0.0
		if e.Law != nil {
			h, _ = e.Law.Loss(f.Q[i])
		}
		heads(i, h)
	}
	return nil
}

func FuzzNetwork(f *testing.F) {
	f.Add([]byte{3, 4, 0, 1, 128, 0, 1, 2, 90, 3, 1, 2, 0, 0, 0, 0, 0, 6, 1, 2, 60, 1, 99})
	f.Add([]byte{5, 4, 0, 1, 200, 7, 1, 2, 3, 1, 0, 2, 4, 100, 1, 1, 1, 3, 4, 110, 2, 2, 7, 4, 4, 0, 0, 3, 2, 0})
	f.Add([]byte{2, 5, 0, 1, 170, 6, 1, 0, 200, 1, 120})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 400 {
			return
		}
		_ = examine(t, built(data))
	})
}

// Random networks of every kind of edge, tees and rising pumps among them, all have an answer
// that closes.
func TestRandomKinds(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		data := make([]byte, 20+r.IntN(120))
		for i := range data {
			data[i] = byte(r.IntN(256))
		}
		if err := examine(t, built(data)); err != nil {
			t.Errorf("no answer: %v (%v)", err, data)
		}
	}
}

// ladder is a line of tees, every branch of which leads back through a loss: so many jets
// off one manifold of pipe.
func ladder(tees int) *network.Network {
	n := &network.Network{Nodes: 2}
	node := func() int {
		n.Nodes++
		return n.Nodes - 1
	}
	pipe := func(a, b int) {
		n.Edges = append(n.Edges, network.Edge{From: a, To: b, Law: laws.NewRunLaw(0.4, 0.15, 2e-6, 7e-7)})
	}
	c, _ := laws.NewPumpCurve([]float64{0, 0.05, 0.1}, []float64{20, 16, 0})
	n.Edges = append(n.Edges, network.Edge{From: 0, To: 1, Law: &laws.PumpLaw{Curve: c, Times: 1, Wide: 1}, OneWay: true, Start: 0.05})
	at := 1
	for i := range tees {
		in, out, side, middle := node(), node(), node(), node()
		pipe(at, in)
		k := len(n.Edges)
		for _, leg := range []int{in, out, side} {
			n.Edges = append(n.Edges, network.Edge{From: leg, To: middle})
		}
		n.Joints = append(n.Joints, network.Joint{Edges: [3]int{k, k + 1, k + 2}, Law: laws.NewTeeLaw(0.15, 0.05)})
		n.Edges = append(n.Edges, network.Edge{From: side, To: 0, Law: &laws.PartLaw{Square: 2e7 * (1 + 0.3*math.Sin(float64(i))), Times: 1}})
		at = out
	}
	n.Edges = append(n.Edges, network.Edge{From: at, To: 0, Law: &laws.PartLaw{Square: 2e7, Times: 1}})
	return n
}

func TestManyTees(t *testing.T) {
	for _, tees := range []int{1, 3, 30, 300} {
		if err := examine(t, ladder(tees)); err != nil {
			t.Errorf("%d tees: %v", tees, err)
		}
	}
}

// With many loops the steps are found less exactly; what they lead to is not.
func TestManyLoopsCloseAsNearly(t *testing.T) {
	for _, tees := range []int{20, 31, 300} {
		f, err := network.Solve(ladder(tees))
		if err != nil {
			t.Fatalf("%d tees: %v", tees, err)
		}
		if !(f.EnergyError <= 1e-11*f.HeadScale) {
			t.Errorf("%d tees: heads miss by %g of %g m", tees, f.EnergyError, f.HeadScale)
		}
		if f.Iterations > 40 {
			t.Errorf("%d tees: %d steps", tees, f.Iterations)
		}
	}
}

func BenchmarkTees(b *testing.B) {
	for _, tees := range []int{10, 300, 2000} {
		b.Run(fmt.Sprint(tees), func(b *testing.B) {
			n := ladder(tees)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := network.Solve(n); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
