package hydraulic

import (
	"math"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

// constantF is pipe with a given Darcy factor.
func constantF(f, length, bore float64) network.Law {
	return &laws.PartLaw{Square: laws.SquareOf(f*length/bore, bore), Times: 1}
}

// parallel returns the flows through pipes between two nodes that pass a flow in all, and the head.
func parallel(t *testing.T, flow float64, pipes ...network.Law) ([]float64, float64) {
	t.Helper()
	n := &network.Network{Nodes: 2, Demand: []float64{-flow, flow}}
	for _, l := range pipes {
		n.Edges = append(n.Edges, network.Edge{From: 0, To: 1, Law: l})
	}
	f, err := network.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	return f.Q, f.Head[0] - f.Head[1]
}

// E1: three parallel pipes, White ex. 6.18: under one head, and the head of the flow found.
func TestWhiteParallel(t *testing.T) {
	pipes := whitePipes()
	n := &network.Network{Nodes: 2, Fixed: []network.Fixed{{Node: 0, Head: 20.3}, {Node: 1}}}
	for _, l := range pipes {
		n.Edges = append(n.Edges, network.Edge{From: 0, To: 1, Law: l})
	}
	f, err := network.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	bores := []float64{0.08, 0.06, 0.04}
	sum := 0.0
	for i, q := range f.Q {
		sum += q * 3600
		near(t, "E1 Q", q*3600, []float64{62.5, 25.9, 11.4}[i], 0.005, "White ex. 6.18, read")
		near(t, "E1 Q", q*3600, []float64{62.548, 25.911, 11.408}[i], 5e-5, "own")
		near(t, "E1 V", q/formula.Area(bores[i]), []float64{3.46, 2.55, 2.52}[i], 0.005, "White ex. 6.18, read")
		friction, _ := pipes[i].(atGravity).law.(*laws.RunLaw).Pipe.Friction(q * bores[i] / formula.Area(bores[i]) / 1.02e-6)
		near(t, "E1 f", friction, []float64{0.0267, 0.0246, 0.0313}[i], 0.005, "White ex. 6.18, read")
	}
	near(t, "E1 sum", sum, 99.8, 0.005, "White ex. 6.18, read")
	_, h := parallel(t, 99.8/3600, pipes...)
	near(t, "E1 head of 99.8 m3/h", h, 20.3, 0.005, "White ex. 6.18, inverse, read")
}

// constantPower is a pump that gives its water so much power, W.
type constantPower struct{ watt, density, g float64 }

func (p constantPower) Loss(q float64) (head, slope float64) {
	const least = 1e-4 // m³/s: below that the head is held, or it would be without bound
	if q < least {
		h, s := p.Loss(least)
		return h + s*(q-least), s
	}
	h := -p.watt / (p.density * p.g * q)
	return h, -h / q
}

// E2: a pump feeds two parallel pipes, Cengel and Cimbala ex. 8-8.
func TestPumpAndTwoPipes(t *testing.T) {
	const rho, mu, g = 998, 1.002e-3, 9.81
	law := func(bore float64) network.Law { return atGravity{laws.NewRunLaw(36, bore, 0.045e-3, mu/rho), g} }
	n := &network.Network{
		Nodes: 3,
		Edges: []network.Edge{
			{From: 0, To: 1, Law: constantPower{8000 * 0.7, rho, g}, OneWay: true, Start: 0.02},
			{From: 1, To: 2, Law: law(0.04)},
			{From: 1, To: 2, Law: law(0.08)},
		},
		Fixed: []network.Fixed{{Node: 0, Head: 5}, {Node: 2, Head: 13}},
	}
	f, err := network.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "E2 Q", f.Q[0], 0.0300, 0.005, "Cengel and Cimbala ex. 8-8, memory")
	near(t, "E2 Q1", f.Q[1], 0.00415, 0.005, "Cengel and Cimbala ex. 8-8, memory")
	near(t, "E2 Q2", f.Q[2], 0.0259, 0.005, "Cengel and Cimbala ex. 8-8, memory")
	near(t, "E2 Q1", f.Q[1], 0.0041514, 2e-5, "own")
	near(t, "E2 Q2", f.Q[2], 0.0258608, 2e-5, "own")
	near(t, "E2 V1", f.Q[1]/formula.Area(0.04), 3.30, 0.005, "Cengel and Cimbala ex. 8-8, memory")
	near(t, "E2 V2", f.Q[2]/formula.Area(0.08), 5.15, 0.005, "Cengel and Cimbala ex. 8-8, memory")
	near(t, "E2 loss", f.Loss[1], 11.1, 0.005, "Cengel and Cimbala ex. 8-8")
	near(t, "E2 pump head", -f.Loss[0], 19.1, 0.005, "Cengel and Cimbala ex. 8-8, read")
	near(t, "E2 pump head", -f.Loss[0], 19.059, 1e-4, "own")
	for i, want := range []float64{0.0221, 0.0182} {
		re := f.Q[i+1] * []float64{0.04, 0.08}[i] / formula.Area([]float64{0.04, 0.08}[i]) * rho / mu
		got, _ := formula.Colebrook(re, 0.045e-3/[]float64{0.04, 0.08}[i])
		near(t, "E2 f", got, want, 0.005, "Cengel and Cimbala ex. 8-8, read")
		near(t, "E2 Re", re, []float64{131600, 410000}[i], 0.005, "Cengel and Cimbala ex. 8-8, memory")
	}
}

// hazen is the loss of Hazen and Williams, h = w·L·Q^1.852/(C^1.852·D^4.871), SI.
type hazen struct{ r float64 }

func (p hazen) Loss(q float64) (head, slope float64) {
	a := math.Pow(math.Abs(q), 0.852)
	return p.r * a * q, 1.852 * p.r * a
}

// E3: the two-loop network of Alperovits and Shamir 1977 in the design of Savic and Walters
// 1997 (J. Water Resour. Plann. Manage. 123(2)); data from memory, confirmed by own solve.
func TestTwoLoops(t *testing.T) {
	for _, c := range []struct {
		w    float64
		want []float64
	}{
		{10.6668, []float64{53.25, 30.46, 43.45, 33.81, 30.44, 30.55}},
		{10.5088, []float64{53.35, 30.75, 43.62, 34.19, 30.66, 30.84}},
	} {
		pipes := [][3]float64{{1, 2, 18}, {2, 3, 10}, {2, 4, 16}, {4, 5, 4}, {4, 6, 16}, {6, 7, 10}, {3, 5, 10}, {7, 5, 1}}
		ground := []float64{0, 150, 160, 155, 150, 165, 160}
		demand := []float64{0, 100, 100, 120, 270, 330, 200}
		n := &network.Network{Nodes: 7, Demand: make([]float64, 7), Fixed: []network.Fixed{{Node: 0, Head: 210}}}
		for i, d := range demand {
			n.Demand[i] = d / 3600
		}
		for _, p := range pipes {
			r := c.w * 1000 / (math.Pow(130, 1.852) * math.Pow(p[2]*0.0254, 4.871))
			n.Edges = append(n.Edges, network.Edge{From: int(p[0]) - 1, To: int(p[1]) - 1, Law: hazen{r}})
		}
		f, err := network.Solve(n)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range c.want {
			if got := f.Head[i+1] - f.Head[0] + 210 - ground[i+1]; !agree.Within(got, want, 0.02) {
				t.Errorf("w %g: pressure head at node %d = %.3f m, want %.2f ± 0.02", c.w, i+2, got, want)
			}
		}
		if c.w != 10.6668 {
			continue
		}
		for i, want := range []float64{1120, 336.88, 683.12, 32.56, 530.56, 200.56, 236.88, 0.56} {
			if got := f.Q[i] * 3600; !agree.Within(got, want, 0.006) {
				t.Errorf("flow in pipe %d = %.3f m3/h, want %.2f", i+1, got, want)
			}
		}
	}
}

// E4, E5, E6, E8: parallel pipes.
func TestParallelPipes(t *testing.T) {
	scaled := func(l network.Law) network.Law { return atGravity{l, 9.81} }
	const nu20 = 1.0034e-6
	for _, c := range []struct {
		name      string
		flow      float64
		pipes     []network.Law
		want      []float64
		head      float64
		tolerance float64
		source    string
	}{
		{"E4", 0.120, []network.Law{constantF(0.02, 100, 0.2), constantF(0.02, 400, 0.2)}, []float64{0.080, 0.040}, 0, 1e-7, "board-exam notes, exact"},
		{"E5", 0.5, []network.Law{scaled(constantF(0.018, 200, 0.3)), scaled(constantF(0.018, 200, 0.25)), scaled(constantF(0.018, 200, 0.2))},
			[]float64{0.25040, 0.15874, 0.09087}, 7.675, 1e-4, "question read, answer own: split as D^2.5"},
		{"E6", 0.936, []network.Law{laws.NewRunLaw(100, 0.4, 2e-3, nu20), laws.NewRunLaw(100, 0.5, 1.25e-3, nu20)},
			[]float64{0.31953, 0.61647}, 2.510, 2e-4, "Hwang et al. problem 4.4.1, answer own"},
		{"E8", 0.020, []network.Law{constantF(0.018, 1000, 0.06), constantF(0.020, 800, 0.08)}, []float64{6.295e-3, 13.705e-3}, 0, 1e-4, "university problem set, answer own"},
	} {
		q, h := parallel(t, c.flow, c.pipes...)
		for i := range q {
			near(t, c.name, q[i], c.want[i], c.tolerance, c.source)
		}
		if c.head > 0 {
			near(t, c.name+" head", h, c.head, 5e-4, c.source)
		}
	}
}

// E7: nested branches, h ~ L·Q², as a ladder of bypasses; question from a numerical-methods
// text, answer own.
func TestNestedBranches(t *testing.T) {
	length := map[int]float64{2: 4, 3: 2, 4: 4, 5: 2, 6: 4, 7: 8, 8: 2, 9: 2}
	// junctions: a after 1, b after 3, c after 5, d before 8, e before 9, f before 10
	edges := map[int][2]int{2: {0, 5}, 3: {0, 1}, 4: {1, 4}, 5: {1, 2}, 6: {2, 3}, 7: {2, 3}, 8: {3, 4}, 9: {4, 5}}
	n := &network.Network{Nodes: 6, Demand: []float64{-1, 0, 0, 0, 0, 1}}
	for p := 2; p <= 9; p++ {
		n.Edges = append(n.Edges, network.Edge{From: edges[p][0], To: edges[p][1], Law: &laws.PartLaw{Square: length[p], Times: 1}})
	}
	f, err := network.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	for p, want := range map[int]float64{2: 0.53161, 3: 0.46839, 4: 0.25144, 5: 0.21695, 6: 0.12709, 7: 0.08987} {
		near(t, "E7", f.Q[p-2], want, 6e-5, "answer own")
	}
}

// F3: H = 7.46 - 0.0453·Q² against 3.52 + 0.0261·Q², m and l/min. Cengel and Cimbala, ch. 14,
// inputs read, answer in closed form: 7.428 l/min, 4.960 m.
func TestOperatingPoint(t *testing.T) {
	var q, h []float64
	for i := range 41 { // the parabola by points, a quarter l/min apart
		x := float64(i) / 4
		q, h = append(q, x/60000), append(h, 7.46-0.0453*x*x)
	}
	curve, err := laws.NewPumpCurve(q, h)
	if err != nil {
		t.Fatal(err)
	}
	flow, head := operating(t, curve, 3.52, 0.0261*60000*60000)
	near(t, "F3 flow", flow*60000, 7.428, 2e-4, "closed form")
	near(t, "F3 head", head, 4.960, 2e-4, "closed form")
}

// operating returns where a pump meets a system of static head and a square law.
func operating(t *testing.T, c *laws.PumpCurve, static, k float64) (flow, head float64) {
	t.Helper()
	f := operatingFlow(t, c, static, k)
	return f.Q[0], -f.Loss[0]
}

func operatingFlow(t *testing.T, c *laws.PumpCurve, static, k float64) *network.Flow {
	t.Helper()
	var law network.Law = &laws.PumpLaw{Curve: c, Times: 1, Wide: 1}
	if c.Rises() {
		law = &laws.RisingPump{PumpLaw: laws.PumpLaw{Curve: c, Times: 1, Wide: 1}}
	}
	f, err := network.Solve(&network.Network{Nodes: 3,
		Edges: []network.Edge{{From: 0, To: 1, Law: law, OneWay: true, Start: c.Last() / 2}, {From: 1, To: 2, Law: &laws.PartLaw{Square: k, Times: 1}}},
		Fixed: []network.Fixed{{Node: 0}, {Node: 2, Head: static}}})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// A pump whose curve dips, as when a figure of its sheet is typed wrongly, against systems from
// the mildest to the harshest: the smallest flow at which both agree, to which a start from rest
// comes, and beside it the largest, each found by going along a fine scale and halving; and without
// end where the way to the largest leads over the dip to a branch on which the curve falls faster
// than the system rises.
func TestOperatingPointOfADip(t *testing.T) {
	q := []float64{0, 8, 14, 18, 21} // m³/h
	for i := range q {
		q[i] /= 3600
	}
	curve, err := laws.NewPumpCurve(q, []float64{14.2, 1.25, 9, 5.2, 1.6})
	if err != nil {
		t.Fatal(err)
	}
	before, over := 0.0, 0
	for i := range 60 {
		k := 5e4 * math.Pow(1.12, float64(i))
		left := func(x float64) float64 { h, _ := curve.Head(x); return h - 0.2 - k*x*x }
		high := 2 * curve.Last()
		for left(high-curve.Last()/5000) < 0 {
			high -= curve.Last() / 5000
		}
		low := high - curve.Last()/5000
		for range 60 {
			if mid := (low + high) / 2; left(mid) < 0 {
				high = mid
			} else {
				low = mid
			}
		}
		small := 0.0
		for left(small+curve.Last()/5000) > 0 {
			small += curve.Last() / 5000
		}
		top := small + curve.Last()/5000
		for range 60 {
			if mid := (small + top) / 2; left(mid) > 0 {
				small = mid
			} else {
				top = mid
			}
		}
		f := operatingFlow(t, curve, 0.2, k)
		flow, steps := f.Q[0], f.Iterations
		near(t, "from rest", flow, small, 1e-6, "halving")
		if f.Two != (low > 1.001*small) {
			t.Errorf("k %g: flows of %g and %g m³/s, and the answer says that it is one of two: %v", k, small, low, f.Two)
		}
		if f.Two {
			flow = f.Other[0]
		}
		near(t, "dip", flow, low, 1e-6, "halving")
		if steps > 100 {
			t.Errorf("k %g: %d steps", k, steps)
		}
		if before > 0 && flow < 0.8*before {
			over++
		}
		before = flow
	}
	if over != 1 {
		t.Errorf("the larger flow falls over the dip %d times", over)
	}
}

// F4: a curve from a table, which rises before it falls. Exercise, inputs read; answer own,
// piecewise linear: 35.31 l/s, 9.69 m; 1 %.
func TestOperatingPointOfTable(t *testing.T) {
	q := []float64{0, 7.5e-3, 15.1e-3, 22.7e-3, 30.2e-3, 37.8e-3, 45.4e-3, 53.3e-3}
	curve, err := laws.NewPumpCurve(q, []float64{13.2, 13.6, 12.8, 11.8, 10.9, 9.1, 7.8, 6.1})
	if err != nil {
		t.Fatal(err)
	}
	if !curve.Rises() {
		t.Error("the curve rises from 13.2 to 13.6 m, and Rises says no")
	}
	flow, head := operating(t, curve, 3.2, 5206)
	near(t, "F4 flow", flow, 35.31e-3, 0.01, "piecewise linear")
	near(t, "F4 head", head, 9.69, 0.01, "piecewise linear")
	eta, _ := formula.NewPchip(q, []float64{0, 35, 55, 78, 85, 83, 72, 64}).At(flow)
	near(t, "F4 efficiency", eta, 83.7, 0.01, "piecewise linear")
	near(t, "F4 power", 1000*9.81*flow*head/eta*100, 4010, 0.01, "piecewise linear")
}
