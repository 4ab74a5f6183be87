package spread_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic/spread"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/route/laying"
)

// flatPump is a pump of constant head, known exactly enough, that drives one filter and a unit.
const flatPump = `
[water]
density = "1000 kg/m3"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
known = "measured"
curve = [["0 m3/h", "10 m"], ["100 m3/h", "10 m"]]
[[part]]
id = "filter"
kind = "filter"
known = "KNOWN"
loss = { flow = "10 m3/h", drop = "49.03325 kPa", exponent = 2 }
[[part]]
id = "unit"
kind = "heat-pump"
known = "measured"
flow = { least = "9 m3/h", rated = "10 m3/h", most = "11 m3/h" }
loss = { flow = "10 m3/h", drop = "49.03325 kPa", exponent = 2 }
`

func flatText(known string) string {
	return strings.Replace(flatPump, "KNOWN", known, 1) +
		join("tub.a", "pump.in") + join("pump.out", "filter.in") + join("filter.out", "unit.in") + join("unit.out", "tub.b")
}

func spreadOf(t *testing.T, text, unit string) *spread.Ranges {
	t.Helper()
	c, ds := description.Read("test.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatalf("the description is wrong: %v", ds)
	}
	return spread.Of(nil, laying.Of(c.At(graph.After)), unit, nil, nil)
}

// Ten metres over two square laws of five metres each at 10 m³/h: q = 10·√(2h/(k1+k2)), with
// h, k1 and k2 factors. The effect of the filter alone at the ends of its span, which are its
// twentieths: what spreads.csv says of filter-loss, assumed. Worked by hand.
func TestInfluenceByHand(t *testing.T) {
	r := spreadOf(t, flatText("assumed"), "unit")
	if r.Unsolved != 0 || r.Samples < 512 {
		t.Fatalf("%d of %d samples unsolved", r.Unsolved, r.Samples)
	}
	q := func(f float64) float64 { return math.Sqrt(2 / (1 + f)) }
	span := tables.Spread(tables.SpreadFilterLoss, "assumed")
	want := (q(1+span.Low) - q(1+span.High)) / 2
	first := r.MeasureFirst[0]
	if first.Part != "filter" || first.Moves != spread.UnitsFlow || !agree.Within(first.Effect, want, 1e-4) {
		t.Errorf("first is %+v, want the filter with %.4f", first, want)
	}
	got := r.Of("on", graph.After).Parts[3]
	if !agree.Within(got.Likely*3600, 10, 1e-6) || got.Low >= got.Likely || got.High <= got.Likely {
		t.Errorf("the unit's range is %+v, want likely 10 m³/h inside it", got)
	}
}

// A better known filter narrows the range, and no promise holds in less than its share of a
// wider one.
func TestKnowingNarrows(t *testing.T) {
	width := func(known string) float64 {
		r := spreadOf(t, flatText(known), "unit").Of("on", graph.After).Parts[3]
		return r.High - r.Low
	}
	assumed, sheet, measured := width("assumed"), width("data-sheet"), width("measured")
	if !(assumed > 1.5*sheet && sheet > 1.5*measured) {
		t.Errorf("widths %g assumed, %g data-sheet, %g measured: want them to fall", assumed, sheet, measured)
	}
}

// Promises of the unit's flow, counted against the closed form over the spread of the
// filter: at least 9 m³/h where f <= 2·(10/9)²-1, that is 1.469, and at most 11 where
// f >= 2·(10/11)²-1, 0.653. By the span the share of the normal distribution below ln f in units
// of its half on that side. Pump and unit add a little, and a part in use costs a little more than
// its sheet, the filter apart: the tolerance is two of a hundred.
func TestPromiseByHand(t *testing.T) {
	r := spreadOf(t, flatText("assumed"), "unit")
	span := tables.Spread(tables.SpreadFilterLoss, "assumed")
	below := func(flow float64) float64 {
		f := 2*math.Pow(10/flow, 2) - 1
		half := math.Log((1 + span.High) / (1 + span.Middle))
		if f < 1+span.Middle {
			half = math.Log((1 + span.Middle) / (1 + span.Low))
		}
		return (1 + math.Erf(math.Log(f/(1+span.Middle))/half*1.6448536/math.Sqrt2)) / 2
	}
	want := map[spread.PromiseKind]float64{spread.LeastFlow: below(9), spread.MostFlow: 1 - below(11)}
	for _, p := range r.Promises {
		if w, ok := want[p.Kind]; ok {
			delete(want, p.Kind)
			if !agree.Within(p.Share, w, 0.02) || p.Of != r.Samples || p.Share != float64(p.Kept)/float64(p.Of) {
				t.Errorf("%s: share %.4f, %d of %d, want %.4f", p.Kind, p.Share, p.Kept, p.Of, w)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("no promises of %v", want)
	}
}

// Without a unit and without jets it is the pump's flow that is watched. Ten metres over one square
// law of five at 10 m³/h: q = 10·√(2/f) with the filter's loss times f. Worked by hand.
func TestInfluenceOnThePumpAlone(t *testing.T) {
	text := strings.Replace(flatPump[:strings.LastIndex(flatPump, "[[part]]")], "KNOWN", "assumed", 1)
	r := spreadOf(t, text+join("tub.a", "pump.in")+join("pump.out", "filter.in")+join("filter.out", "tub.b"), "")
	q := func(f float64) float64 { return math.Sqrt(1 / f) }
	span := tables.Spread(tables.SpreadFilterLoss, "assumed")
	want := (q(1+span.Low) - q(1+span.High)) / 2
	if len(r.MeasureFirst) == 0 {
		t.Fatal("nothing moves the pump's flow")
	}
	if first := r.MeasureFirst[0]; first.Part != "filter" || first.Moves != spread.PumpsFlow || !agree.Within(first.Effect, want, 1e-4) {
		t.Errorf("first is %+v, want the filter with %.4f", first, want)
	}
}

func TestSpreadIsFixed(t *testing.T) {
	if a, b := spreadOf(t, flatText("assumed"), "unit"), spreadOf(t, flatText("assumed"), "unit"); !reflect.DeepEqual(a, b) {
		t.Error("two runs differ")
	}
}

func join(from, to string) string {
	return "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nspec = \"pvc-sch40\"\nsize = \"2 in\"\nlength = \"0 mm\"\n"
}
