package takeoff

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/route/laying"
)

func bill(t testing.TB, c *graph.Circuit) *Bill {
	t.Helper()
	return NewBill(c, laying.Of(c.At(graph.After)), laying.Of(c.At(graph.Before)))
}

// item returns the one item of a kind and size of the new or existing work.
func item(t *testing.T, b *Bill, isNew bool, kind, size, unit string) Item {
	t.Helper()
	var found []Item
	for _, i := range b.Items {
		if i.Kind == kind && i.New == isNew && i.Size == size && i.Unit == unit && !i.Removed {
			found = append(found, i)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%d items of kind %q, size %q, unit %q, new %v: %+v", len(found), kind, size, unit, isNew, found)
	}
	return found[0]
}

func near(got, want, tol float64) bool { return math.Abs(got-want) <= tol }

// Counted by hand from testdata/plug-in.toml. Take-offs: tee and elbow 1-1/2 in of ASTM D2467
// (handbook copy), 1 in to the socket stop. Cement: 10.52 ml and primer 5.26 ml a socket, from
// a cement maker's table, half as much again.
func TestPlugInCountedByHand(t *testing.T) {
	b := bill(t, demo(t, "../../testdata/plug-in.toml"))
	const half = "1-1/2 in"
	for _, c := range []struct {
		kind, size, unit string
		quantity, spare  float64
		price            string
	}{
		{"barb", "1-1/2 in x 38 mm", "pc", 2, 0, "2.60"},
		{"tee", half, "pc", 2, 0, "3.10"},
		{"ball-valve", half, "pc", 3, 0, "15.20"}, // no spare valves
		{"union", half, "pc", 2, 0, "6.70"},
		{"elbow-90", half, "pc", 2, 1, "1.80"}, // one bend in to-unit, one in from-unit; one spare for up to five
		{"heat-pump", half, "pc", 1, 0, "980.00"},
		{"o-ring", half, "pc", 0, 2, ""},
		{"hose-clip", "38 mm", "pc", 8, 0, ""}, // two hoses, two ends each, two clips on each (practice)
		{"pipe", half, "bar", 2, 0, "11.40"},   // 3387 mm out of bars of 3 m
		{"pipe", "38 mm", "coil", 1, 0, "9.90"},
		{"pipe", "38 mm", "m", 2.8, 0, ""},
		// 4 · (120-25.4) + (140-25.4) + (357-25.4) + (1300-25.4) + 80 + 80 + (957-25.4) + (120-25.4) + (127-25.4)
		{"pipe", half, "m", 3.387, 0, ""},
		{"insulation", half, "m", 1.657 + 0.08 + 0.08 + 1.077, 0, ""},
		{"pipe-clip", half, "pc", 3, 0, ""}, // two on the 1657 mm of to-unit, one on the 1077 mm of from-unit; the rest is shorter than a quarter of 1.53 m
		{"valve-support", half, "pc", 3, 0, ""},
		{"cement", "", "tin", 2, 1, ""}, // 24 sockets · 10.52 ml · 1.5 = 378.7 ml in tins of 250 ml
		{"primer", "", "tin", 1, 0, ""}, // 24 · 5.26 · 1.5 = 189.4 ml
	} {
		i := item(t, b, true, c.kind, c.size, c.unit)
		if !near(i.Quantity, c.quantity, 1e-6) || i.Spare != c.spare || i.Price != c.price {
			t.Errorf("%s %s: %g %s, spare %g, price %q; want %g, %g, %q", c.kind, c.size, i.Quantity, i.Unit, i.Spare, i.Price, c.quantity, c.spare, c.price)
		}
		if i.Source == "" || len(i.Where) == 0 {
			t.Errorf("%s %s: no source or place: %+v", c.kind, c.size, i)
		}
	}
	if i := item(t, b, true, "cement", "", "tin"); !strings.Contains(i.Name, "379 ml") || !slices.Contains(Apart(i.Where), "24 sockets 1-1/2 in") {
		t.Errorf("cement: %+v", i)
	}
	if i := item(t, b, true, "elbow-90", half, "pc"); !i.Measure || i.Ends != "socket, inch" || !slices.Equal(Apart(i.Where), []string{"bend 1 of from-unit", "bend 1 of to-unit"}) {
		t.Errorf("elbow: %+v", i)
	}
	if i := item(t, b, true, "ball-valve", half, "pc"); i.Measure { // its length was measured
		t.Errorf("the valves were measured: %+v", i)
	}
	for _, i := range b.Items {
		ofSuction := strings.Contains(strings.Join(Apart(i.Where), " "), "suction-tee") // which was there
		if !i.New && !ofSuction && (i.Kind == "barb" || i.Kind == "tee" || i.Kind == "heat-pump") {
			t.Errorf("listed as existing: %+v", i)
		}
		if i.New && (i.Kind == "pump" || i.Kind == "filter" || i.Kind == "element-heater") {
			t.Errorf("listed as new: %+v", i)
		}
	}
}

// Added by hand, with Crane's L/D (TP-410, 2009) on the mean bore of 1-1/2 in Schedule 40,
// 40.44 mm: two tees round the corner 60, two ball valves 3, two elbows 30; unions nothing.
func TestUnitBranchAddedByHand(t *testing.T) {
	b := bill(t, demo(t, "../../testdata/plug-in.toml"))
	at := slices.IndexFunc(b.Totals, func(x Total) bool { return x.Name == UnitBranch })
	if at < 0 {
		t.Fatal("no total of the unit's branch")
	}
	got := b.Totals[at]
	wantPipe := 0.140 + 1.657 + 0.080 + 0.080 + 1.077 + 0.127
	wantFittings := (2*60 + 2*3 + 2*30) * 0.04044
	if !near(got.PipeM, wantPipe, 1e-9) || !near(got.FittingsM, wantFittings, 1e-9) {
		t.Errorf("unit's branch %+v, want pipe %.3f m and fittings %.4f m", got, wantPipe, wantFittings)
	}
	sum := 0.0
	for _, x := range b.Totals {
		if x.Name != UnitBranch {
			sum += x.PipeM + x.FittingsM
		}
	}
	if !near(sum, b.TotalEquivalentLengthM, 1e-9) {
		t.Errorf("the runs add up to %g m, the bill says %g m", sum, b.TotalEquivalentLengthM)
	}
}

// Published: "PVC - equivalent length friction loss in fittings", a table for solvent-weld
// fittings, ft of same-size pipe. A fitting's loss is rarely known to better than 20 %.
func TestEquivalentLengthsAgainstPublishedTable(t *testing.T) {
	const ft = 0.3048
	for _, c := range []struct {
		size                        float64
		elbow90, elbow45, teeBranch float64
	}{
		{1, 2.5, 1.4, 6.0}, {1.25, 3.8, 1.8, 7.0}, {1.5, 4.0, 2.1, 8.0}, {2, 5.7, 2.6, 12}, {2.5, 6.9, 3.1, 15}, {3, 7.9, 4.0, 16},
	} {
		size := catalog.Size{Nominal: c.size}
		pipe, _ := catalog.Embedded().Pipe(catalog.PVCSch40, size)
		for _, f := range []struct {
			kind   string
			branch bool
			want   float64
		}{{"elbow-90", false, c.elbow90}, {"elbow-45", false, c.elbow45}, {"tee", true, c.teeBranch}} {
			row, ok := catalog.Embedded().Fitting(f.kind, catalog.PVCSch40, size)
			if !ok {
				t.Fatalf("no %s %s", f.kind, size)
			}
			got := ofRow(&row, pipe.BoreMM, catalog.SheetDensity)
			if f.branch {
				got = fromLoverD(row.LoverDBranch, pipe.BoreMM)
			}
			if !near(got.lengthM, f.want*ft, 0.2*f.want*ft) {
				t.Errorf("%s %s: %.2f m, the table has %.2f m", f.kind, size, got.lengthM, f.want*ft)
			}
		}
	}
}

// Printed K of Crane TP-410 (2009), as worked out from its rounded f_T: tolerance 5 %.
func TestHandbookK(t *testing.T) {
	for _, c := range []struct{ loverD, boreMM, want float64 }{
		{30, 40.9, 0.60}, {16, 40.9, 0.32}, {20, 40.9, 0.40}, {60, 40.9, 1.20}, {8, 40.9, 0.16}, {3, 40.9, 0.06},
		{30, 52.5, 0.57}, {16, 52.5, 0.30}, {20, 52.5, 0.38}, {60, 52.5, 1.13}, {100, 52.5, 1.9}, {45, 52.5, 0.85},
	} {
		if got := fromLoverD(c.loverD, c.boreMM).k; !near(got, c.want, 0.05*c.want) {
			t.Errorf("L/D %g in %g mm: K %.3f, want %.3f", c.loverD, c.boreMM, got, c.want)
		}
	}
}

// A change of bore costs by the way of the water: 52.5 to 40.9 mm, β² = 0.607; into the
// smaller 0.42·(1-β²) = 0.165 (a sudden contraction, as printed), out of it (1-β²)² = 0.154
// (Borda-Carnot), both on the smaller bore.
func TestStepByTheWay(t *testing.T) {
	if in, out := step(52.5, 40.9).k, step(40.9, 52.5).k; !near(in, 0.165, 0.001) || !near(out, 0.1545, 0.001) {
		t.Errorf("K %.4f into the smaller bore and %.4f out of it", in, out)
	}
}

// A tee's own loss is what it costs round the corner; a reducing tee's corner stands on the
// bore of its branch: 60 diameters of 1 in Schedule 40 (mean bore 26.26 mm of ASTM D1785's
// outside 33.40 and least wall 3.38 with half its tolerance, the catalogue's).
func TestCornerOfATee(t *testing.T) {
	c := demo(t, "../../testdata/plug-in.toml")
	lay := laying.Of(c.At(graph.After))
	b := &bores{lay: lay}
	bore := b.ofSize("pvc-sch40", catalog.Size{Nominal: 1})
	if !near(bore, 26.3, 0.3) {
		t.Fatalf("bore of 1 in: %.2f mm", bore)
	}
	at := slices.IndexFunc(lay.Circuit.Parts, func(p *graph.Part) bool { return p.Kind == graph.Tee && p.New() })
	p := *lay.Circuit.Parts[at]
	fit := *lay.Stage.Part(p.ID)
	fit.Spec.V, fit.Branch.V = "pvc-sch40", catalog.Size{Nominal: 1}
	if _, corner := b.lossOf(&p, &fit); !near(corner.lengthM, 60*bore/1000, 1e-9) {
		t.Errorf("corner into 1 in: %.3f m, want %.3f", corner.lengthM, 60*bore/1000)
	}
	p.Loss = &graph.Loss{K: 2, HasK: true}
	if through, corner := b.lossOf(&p, &fit); through.k != 0 || !near(corner.k, 2, 1e-9) {
		t.Errorf("its own K of 2: %.2f straight on, %.2f round the corner", through.k, corner.k)
	}
}

// cutIn is an old line cut open for two tees and a bypass, written out in full, invented.
const cutIn = `
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]

[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "10 m"], ["20 m3/h", "2 m"]]

[[part]]
id = "old-valve"
kind = "gate-valve"
existing = true
removed = true

[[part]]
id = "tee-a"
kind = "tee"

[[part]]
id = "tee-b"
kind = "tee"

[[part]]
id = "check"
kind = "check-valve"
type = "my check"

[[part]]
id = "v1"
kind = "ball-valve"

[[part]]
id = "v2"
kind = "ball-valve"

[[part]]
id = "unit"
kind = "heat-pump"
ports-size = "1 1/2 in"
flow = { least = "2.8 m3/h", rated = "4.2 m3/h", most = "8.4 m3/h" }
loss = { flow = "4.2 m3/h", drop = "6 kPa" }

[[run]]
id = "suction"
from = "tub.suction"
to = "pump.in"
existing = true
legs = ["down 300 mm", "right 200 mm"]

[[run]]
id = "line"
from = "pump.out"
to = "old-valve.in"
existing = true
removed = true
legs = ["right 900 mm"]

[[run]]
id = "line-end"
from = "old-valve.out"
to = "tub.return"
existing = true
removed = true
legs = ["right 600 mm", "up 300 mm"]

[[run]]
id = "line-1"
from = "pump.out"
to = "tee-a.run-in"
existing = true
remains-of = "line"
legs = ["right 500 mm"]

[[run]]
id = "bypass-in"
from = "tee-a.run-out"
to = "check.in"
legs = ["right 150 mm"]

[[run]]
id = "bypass-out"
from = "check.out"
to = "tee-b.run-in"
legs = ["right 150 mm"]

[[run]]
id = "line-2"
from = "tee-b.run-out"
to = "tub.return"
existing = true
remains-of = "line"
legs = ["right 400 mm", "up 300 mm"]

[[run]]
id = "to-unit"
from = "tee-a.branch"
to = "v1.in"
size = "1 1/2 in"
through-wall = true
outside = true
legs = ["front 300 mm", "right 100 mm", "front 500 mm"]

[[run]]
id = "unit-in"
from = "v1.out"
to = "unit.in"
size = "1 1/2 in"
length = "200 mm"

[[run]]
id = "unit-out"
from = "unit.out"
to = "v2.in"
size = "1 1/2 in"
length = "200 mm"

[[run]]
id = "from-unit"
from = "v2.out"
to = "tee-b.branch"
size = "1 1/2 in"
legs = ["back 500 mm", "right 100 mm", "back 300 mm"]

[catalog]

[[catalog.check-valve]]
name = "my check"
style = "spring-check"
size = "2 in"
length = "120 mm"
socket = "38 mm"
ends = "union"
k = 4.2
cracking = "1.5 psi"
rating = "10 bar"
source = "its data sheet"

[prices]
v1 = "30.00"
ball-valve = "20.00"
`

func TestCutInCountedByHand(t *testing.T) {
	b := bill(t, read(t, "cut-in.toml", cutIn))
	for _, c := range []struct {
		kind, size, unit string
		quantity, spare  float64
	}{
		{"elbow-90", "1-1/2 in", "pc", 4, 1},
		{"reducing-bush", "2 x 1-1/2 in", "pc", 2, 0},
		{"coupling", "2 in", "pc", 0, 4},      // two cuts, two couplings each
		{"slip-coupling", "2 in", "pc", 0, 2}, // and a repair coupling each
		{"wall-sleeve", "1-1/2 in", "pc", 1, 0},
		{"insulation", "1-1/2 in", "m", 0.9, 0},
		{"check-valve", "2 in", "pc", 1, 0},
		{"o-ring", "2 in", "pc", 0, 2},
	} {
		i := item(t, b, true, c.kind, c.size, c.unit)
		if !near(i.Quantity, c.quantity, 1e-9) || i.Spare != c.spare {
			t.Errorf("%s %s: %g, spare %g; want %g, %g\n%+v", c.kind, c.size, i.Quantity, i.Spare, c.quantity, c.spare, i)
		}
	}
	check := item(t, b, true, "check-valve", "2 in", "pc")
	if !check.Own || check.K != 4.2 || !strings.Contains(check.Source, "its data sheet") {
		t.Errorf("the user's row is not named or not used: %+v", check)
	}
	// of two valves of a kind one has a price of its own
	prices := map[string]string{}
	removed := 0
	for _, i := range b.Items {
		if i.Kind == "ball-valve" {
			prices[strings.Join(Apart(i.Where), " ")] = i.Price
		}
		if i.Removed {
			removed++
			if i.New || i.Kind != "gate-valve" && i.Kind != "pipe" {
				t.Errorf("taken out: %+v", i)
			}
		}
	}
	if prices["v1"] != "30.00" || prices["v2"] != "20.00" || len(prices) != 2 {
		t.Errorf("prices of the valves: %v", prices)
	}
	if removed != 2 {
		t.Errorf("%d items taken out, want the gate valve and the pipe", removed)
	}
}

func TestBillIsTheSameEveryTime(t *testing.T) {
	c := demo(t, "../../testdata/large-circulation.toml")
	first := bill(t, c)
	for range 5 {
		again := bill(t, c)
		if len(again.Items) != len(first.Items) {
			t.Fatal("another number of items")
		}
		for i := range first.Items {
			a, b := first.Items[i], again.Items[i]
			if a.Name != b.Name || a.Quantity != b.Quantity || !slices.Equal(a.Where, b.Where) {
				t.Fatalf("item %d: %+v, then %+v", i, a, b)
			}
		}
	}
}

func BenchmarkBill(b *testing.B) {
	c := demo(b, "../../testdata/plug-in.toml")
	lay, before := laying.Of(c.At(graph.After)), laying.Of(c.At(graph.Before))
	for b.Loop() {
		NewBill(c, lay, before)
	}
}

// A hand valve set by its Kv counts for the same length in both ways of saying so, and one partly
// open by the curve of its kind: K = 2·10⁵/(1000·v²) at the velocity of Kv m³/h through the bore,
// by the definition of Kv. By hand on 40.44 mm: Kv 3 is 0.649 m/s, K 475; as much pipe as loses
// that with f_T = 0.0200 (Crane TP-410, 1-1/2 in, as rounded there) is 960 m.
func TestSetValveInTheHandbook(t *testing.T) {
	c := demo(t, "../../testdata/plug-in.toml")
	lay := laying.Of(c.At(graph.After))
	b := &bores{lay: lay}
	p := *lay.Circuit.Part("bypass")
	fit := lay.Stage.Part("bypass")
	open, _ := b.lossOf(&graph.Part{ID: p.ID, Kind: p.Kind}, fit)
	p.Valve = &graph.ValveData{Position: 0.3, PositionSet: true}
	partly, _ := b.asSet(&p, fit)
	p.Valve = &graph.ValveData{Kv: 3}
	byKv, _ := b.asSet(&p, fit)
	p.Valve, p.Loss = nil, &graph.Loss{Kv: 3}
	byLoss, _ := b.asSet(&p, fit)
	if byKv != byLoss || !near(byKv.k, 475, 5) || !near(byKv.lengthM, 960, 0.005*960) {
		t.Errorf("kv: %+v, loss by kv: %+v, want K 475 and 960 m", byKv, byLoss)
	}
	if bought, _ := b.lossOf(&graph.Part{ID: p.ID, Kind: p.Kind, Valve: &graph.ValveData{Kv: 3}}, fit); bought != open {
		t.Errorf("the valve that is bought costs %+v, open %+v", bought, open)
	}
	row := fit.Row.V
	row.Opening = [][2]float64{{0, 0}, {0.5, 0.2}, {1, 1}}
	if own, ok := ofSetting(&graph.Part{ID: p.ID, Kind: p.Kind, Valve: &graph.ValveData{Position: 0.5, PositionSet: true}}, &row, 40.44, 1000); !ok || !near(own.k, open.k/0.04, 0.01*own.k) {
		t.Errorf("half open by a maker's curve that then has a fifth of its Kv: %+v, want 25 times %.4f", own, open.k)
	}
	if k, _ := tables.OpeningK(string(p.Kind), 0.3, open.k); !near(partly.k, k, 1e-9) || partly.k < 100*open.k {
		t.Errorf("30 %% open K %.2f, open %.2f", partly.k, open.k)
	}
}

// A drop is a head of the water pumped in the handbook's length too: 2 m at 9 m3/h of water of
// 900 kg/m³ is 2·900·9.80665 Pa, as a loss of the part and as a row's; K is h·2g/v², 10.05 at
// 1.976 m/s through 40.13 mm.
func TestDropInTheHandbookInMetres(t *testing.T) {
	const density, bore, flow = 900.0, 40.13, 9.0 / 3600
	pa := 2 * density * 9.80665
	v := flow / (math.Pi / 4 * 0.04013 * 0.04013)
	want := 2 * 2 * 9.80665 / (v * v)
	metres := ofDescribed(&graph.Loss{Points: []graph.LossPoint{{Flow: flow, Drop: graph.Drop{Value: 2, IsHead: true}}}}, bore, density)
	pascals := ofDescribed(&graph.Loss{Points: []graph.LossPoint{{Flow: flow, Drop: graph.Drop{Value: pa}}}}, bore, density)
	row := ofRow(&catalog.Row{LossFlow: flow, LossDropPa: pa}, bore, density)
	for what, got := range map[string]handbook{"metres": metres, "pascals": pascals, "a row": row} {
		if !near(got.k, want, 1e-9*want) || got.lengthM <= 0 {
			t.Errorf("%s: %+v, want K %.4f", what, got, want)
		}
	}
}

// Valves of one row are one line of what is bought, at the loss they have open; that which is throttled is
// told apart with what it costs so: the plug-in tub's bypass of 15 %.
func TestThrottledValveIsToldApart(t *testing.T) {
	b := bill(t, demo(t, "../../testdata/plug-in.toml"))
	i := item(t, b, true, "ball-valve", "1-1/2 in", "pc")
	if i.Quantity != 3 || i.K > 0.1 || len(i.Set) != 1 || i.Set[0].Part != "bypass" || i.Set[0].Open != 0.15 || i.Set[0].K < 1000*i.K || i.Set[0].EquivalentLengthM < 1000*i.EquivalentLengthM {
		t.Errorf("%+v", i)
	}
}
