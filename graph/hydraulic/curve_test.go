package hydraulic

import (
	"math"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/route/laying"
)

// pumpOnFilter is a pump on one loss of 2 m at 5 m³/h by the square law, joined without pipe.
func pumpOnFilter() *graph.Circuit {
	port := func(names ...string) (out []graph.Port) {
		for _, n := range names {
			out = append(out, graph.Port{Name: n})
		}
		return out
	}
	direct := func(id, from, fromPort, to, toPort string) *graph.Run {
		return &graph.Run{ID: id, From: graph.PortRef{Part: from, Port: fromPort}, To: graph.PortRef{Part: to, Port: toPort},
			Spec: "pvc-sch40", Size: catalog.Size{Nominal: 2}, HasLength: true, RoughnessMM: -1}
	}
	const h = 3600.0
	return &graph.Circuit{Catalog: catalog.Embedded(),
		Parts: []*graph.Part{
			{ID: "tub", Kind: graph.Tub, Ports: port("a", "b"), Loss: &graph.Loss{None: true}},
			{ID: "p", Kind: graph.Pump, Ports: port("in", "out"), Pump: &graph.PumpData{Speeds: []graph.Speed{{Name: "on", Curve: []graph.CurvePoint{
				{Flow: 0, Head: graph.Drop{Value: 10, IsHead: true}}, {Flow: 12 / h, Head: graph.Drop{Value: 7, IsHead: true}}, {Flow: 20 / h, Head: graph.Drop{Value: 1, IsHead: true}}}}}}},
			{ID: "f", Kind: graph.Filter, Ports: port("in", "out"), Loss: &graph.Loss{Exponent: 2, Points: []graph.LossPoint{{Flow: 5 / h, Drop: graph.Drop{Value: 2, IsHead: true}}}}},
		},
		Runs: []*graph.Run{direct("1", "tub", "a", "p", "in"), direct("2", "p", "out", "f", "in"), direct("3", "f", "out", "tub", "b")},
	}
}

// The circuit asks for H = 2 m·(Q / 5 m³/h)²: the curve by hand.
func TestSystemCurveOfASquareLaw(t *testing.T) {
	c := pumpOnFilter()
	m, err := Build(laying.Of(c), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	before, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	points := m.SystemCurve("p", 3, 40)
	if len(points) < 20 {
		t.Fatalf("only %d points", len(points))
	}
	last := -1.0
	for _, p := range points {
		want := 2 * math.Pow(p.Flow*3600/5, 2)
		if !agree.Within(p.Head, want, 1e-5*want) {
			t.Errorf("at %.3f m3/h the circuit asks for %.5f m, want %.5f", p.Flow*3600, p.Head, want)
		}
		if p.Flow <= last {
			t.Errorf("the flow falls at %g", p.Flow)
		}
		last = p.Flow
	}
	if q := before.Part("p").Flow; points[0].Flow > q/2 || last < q {
		t.Errorf("the curve runs from %g to %g, the duty is at %g", points[0].Flow, last, q)
	}
	after, err := m.Solve(nil)
	if err != nil || !agree.Within(after.Part("p").Flow, before.Part("p").Flow, 1e-9) {
		t.Errorf("following the curve changed the model: %v, %v", after, err)
	}
	if m.SystemCurve("f", 3, 10) != nil || m.SystemCurve("p", 0, 10) != nil || m.PumpCurve("f") != nil {
		t.Error("a curve of what is no running pump, or with no head")
	}
}

// Jets nobody measured are sized by the pump's head at its best flow. Following the curve changes
// the head the pump gives, not the jets that were bought: a square law stays one, by hand
// H = (h + k)·Q² through the duty point.
func TestSystemCurveKeepsJetsSizedByThePump(t *testing.T) {
	c := pumpOnFilter()
	c.Parts[2] = &graph.Part{ID: "f", Kind: graph.JetGroup, Ports: c.Parts[2].Ports, Jets: &graph.JetData{Count: 12}}
	m, err := Build(laying.Of(c), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	if m.Parts[m.PartAt["f"]].SizedTo() != "p" {
		t.Fatal("the jets are not sized by the pump: the test looks at nothing")
	}
	solved, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	duty := solved.Part("p")
	points := m.SystemCurve("p", 3, 40)
	if len(points) < 20 {
		t.Fatalf("only %d points", len(points))
	}
	for _, p := range points {
		if want := duty.HeadM * math.Pow(p.Flow/duty.Flow, 2); !agree.Within(p.Head, want, 1e-3*want) {
			t.Errorf("at %.3f m3/h the circuit asks for %.4f m, want %.4f by the square law through the duty point", p.Flow*3600, p.Head, want)
		}
	}
}
