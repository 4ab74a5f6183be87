package spread

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
	"dryfit/graph/sample"
)

// readText is a tub with its unit as it stands; READING is put behind it.
const readText = `
[pipe]
spec = "pvc-sch40"
size = "1-1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
below-water = "300 mm"
[[part]]
id = "pump"
kind = "pump"
existing = true
type = "circulation-pump-1.5in"
below-water = "500 mm"
[[part]]
id = "unit"
kind = "heat-pump"
existing = true
flow = { least = "2.5 m3/h", rated = "3 m3/h", most = "6 m3/h" }
loss = { flow = "3 m3/h", drop = "9 kPa" }
below-water = "200 mm"
[[run]]
id = "suction"
from = "tub.a"
to = "pump.in"
length = "1 m"
existing = true
[[run]]
id = "discharge"
from = "pump.out"
to = "unit.in"
length = "3 m"
existing = true
[[run]]
id = "return"
from = "unit.out"
to = "tub.b"
length = "3 m"
existing = true
`

func rangesRead(t *testing.T, reading string) *Ranges {
	t.Helper()
	c, ds := description.Read("read.toml", []byte(readText+reading))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	lay := laying.Of(c.At(graph.After))
	return Of(lay, lay, "unit", nil, nil)
}

const readFlow = "[[reading]]\nat = \"AT\"\nflow = \"4.6 m3/h\"\nplus-minus = \"5 %\"\n"

// What fits a reading is what Bayes' rule makes of the sample: each point weighed by how likely the
// reading is at it. Here the points are weighed and added up, of a reading at the pump whose error is
// normal with nine in ten within 5 %; the drop of the unit, which nobody read, goes with it.
func TestReadingIsBayes(t *testing.T) {
	wide, narrow := rangesRead(t, ""), rangesRead(t, strings.Replace(readFlow, "AT", "pump", 1))
	flows := wide.Of("on", graph.After).UnitFlow
	sd := 0.05 * 4.6 / 1.6449
	weight := func(v float64) float64 { z := (v*3600 - 4.6) / sd; return math.Exp(-z * z / 2) }
	slices.Sort(flows)
	total := 0.0
	for _, v := range flows {
		total += weight(v)
	}
	at := func(share float64) float64 {
		sum := 0.0
		for _, v := range flows {
			if sum += weight(v) / total; sum >= share {
				return v * 3600
			}
		}
		return math.NaN()
	}
	got := narrow.Of("on", graph.After).Parts[2]
	for _, c := range []struct {
		what      string
		got, want float64
	}{{"low", got.Low, at(0.05)}, {"middle", got.Middle, at(0.5)}, {"high", got.High, at(0.95)}} {
		if !agree.Within(c.got*3600, c.want, 0.1*sd*3) {
			t.Errorf("%s: %.3f, by weighing %.3f", c.what, c.got*3600, c.want)
		}
	}
	if !(got.Low*3600 > 4.6*0.92 && got.High*3600 < 4.6*1.08) {
		t.Errorf("read 4.6 m3/h to 5 %%, the unit gets %.2f to %.2f", got.Low*3600, got.High*3600)
	}
	if n := len(narrow.Points); n != narrow.Samples || n < 100 || narrow.Tried <= n || !narrow.Narrowed() || wide.Narrowed() {
		t.Errorf("%d points of %d, %d samples", n, narrow.Tried, narrow.Samples)
	}
}

// A flow read at the pump, at the run behind it or at the unit is one flow: the same points fit.
func TestReadingAnywhereOnTheLine(t *testing.T) {
	want := rangesRead(t, strings.Replace(readFlow, "AT", "pump", 1)).Points
	for _, at := range []string{"discharge", "return", "unit"} {
		if got := rangesRead(t, strings.Replace(readFlow, "AT", at, 1)).Points; !slices.Equal(got, want) {
			t.Errorf("read at %q: %d points, at the pump %d", at, len(got), len(want))
		}
	}
}

// What one instrument reads ten times at one place makes nothing surer, for its error is the same each time; what
// another reads there does.
func TestOneInstrumentIsNoSurer(t *testing.T) {
	one := strings.Replace(readFlow, "AT", "pump", 1)
	once, often := rangesRead(t, one), rangesRead(t, strings.Repeat(one, 10))
	if !slices.Equal(once.Points, often.Points) {
		t.Errorf("%d points fit, of ten times the same %d", len(once.Points), len(often.Points))
	}
	other := rangesRead(t, one+strings.Replace(one, "5 %", "5.1 %", 1))
	wide := func(r *Ranges) float64 { f := r.Of("on", graph.After).Parts[2]; return f.High - f.Low }
	if !(wide(other) < 0.85*wide(once)) { // two of one error are as good as one of 0.7 of it
		t.Errorf("by one instrument %g m3/s wide, by two %g", wide(once), wide(other))
	}
}

// A gauge reads what stands there, the deeper the more: by hydrostatics ρ·g·Δz, water of 38 °C
// 993 kg/m³ (CRC Handbook, from memory).
func TestGaugeReadsTheWaterAboveIt(t *testing.T) {
	r := rangesRead(t, "[[reading]]\nat = \"unit.in\"\npressure = \"0.2 bar\"\n[[reading]]\nat = \"pump.in\"\npressure = \"0.01 bar\"\n")
	deep := rangesRead(t, "[[reading]]\nat = \"unit.in\"\npressure = \"0.2 bar\"\n")
	if got, want := r.Read[0].AsDescribed, deep.Read[0].AsDescribed; got != want {
		t.Errorf("a second reading moves what the first is as described: %g, %g", got, want)
	}
	text := strings.Replace(readText, `below-water = "200 mm"`, `below-water = "1200 mm"`, 1)
	c, ds := description.Read("read.toml", []byte(text+"[[reading]]\nat = \"unit.in\"\npressure = \"0.2 bar\"\n"))
	if c == nil {
		t.Fatal(ds)
	}
	lay := laying.Of(c.At(graph.After))
	lower := Of(lay, lay, "unit", nil, nil)
	if got := lower.Read[0].AsDescribed - r.Read[0].AsDescribed; !agree.Within(got, 993*9.80665*1, 10) {
		t.Errorf("a metre lower the gauge reads %.0f Pa more", got)
	}
	// at the pump's inlet: 500 mm of water less what 1 m of pipe, its entrance and the velocity take
	if got := r.Read[1].AsDescribed; !(got < 993*9.80665*0.5 && got > -3000) {
		t.Errorf("before the pump stand %.0f Pa", got)
	}
}

// What no guess comes near is not counted, and said; the ranges are those without it.
func TestReadingThatFitsNothing(t *testing.T) {
	got := rangesRead(t, "[[reading]]\nat = \"pump\"\nflow = \"40 m3/h\"\n")
	want := rangesRead(t, "")
	if !got.Unfit || got.Narrowed() || !slices.Equal(got.Points, want.Points) {
		t.Errorf("unfit %v, narrowed %v, %d points", got.Unfit, got.Narrowed(), len(got.Points))
	}
	if !got.Read[0].Beyond() {
		t.Error("40 m³/h is beyond what is described")
	}
}

// Two readings of one water that can't both be so are not counted, and it is told of each whether it
// may be so by itself: what goes through the pump goes through the unit behind it.
func TestReadingsThatContradict(t *testing.T) {
	flow := "[[reading]]\nat = %q\nflow = \"%s m3/h\"\nplus-minus = \"2 %%\"\n"
	for _, c := range []struct {
		unit string
		may  bool
	}{{"40", false}, {"3.9", true}} {
		got := rangesRead(t, fmt.Sprintf(flow, "pump", "4.6")+fmt.Sprintf(flow, "unit", c.unit))
		if !got.Unfit || !got.Read[0].Alone || got.Read[1].Alone != c.may {
			t.Errorf("4.6 and %s m³/h of one water: unfit %v, by themselves %v and %v", c.unit, got.Unfit, got.Read[0].Alone, got.Read[1].Alone)
		}
		if against := got.Read[0].Against; (len(against) > 0) != c.may {
			t.Errorf("4.6 and %s m³/h of one water: the first contradicts %v", c.unit, against)
		}
	}
}

// Of three readings of one water the one that is wrong contradicts the other two, and they not each
// other; of three in a row the two ends contradict each other, and the one between neither.
func TestWhichReadingsContradict(t *testing.T) {
	flow := "[[reading]]\nat = %q\nflow = \"%s m3/h\"\nplus-minus = \"%s %%\"\n"
	got := rangesRead(t, fmt.Sprintf(flow, "pump", "4.6", "2")+fmt.Sprintf(flow, "unit", "3.9", "2")+fmt.Sprintf(flow, "return", "4.65", "2"))
	for i, want := range [][]int{{1}, {0, 2}, {1}} {
		if !slices.Equal(got.Read[i].Against, want) {
			t.Errorf("%q contradicts %v, want %v", got.Read[i].At, got.Read[i].Against, want)
		}
	}
	// Half-way between 4.40 and 4.83 each is off by 4.7 % and good for 2 %: z = 1.645·4.7/2 = 3.8, and both
	// are likely by e^-z² = 4·10^-7 at the best, below 5·10^-6; of 4.6 and either, off by 2.4 %, e^-4.
	spaced := rangesRead(t, fmt.Sprintf(flow, "pump", "4.6", "2")+fmt.Sprintf(flow, "unit", "4.83", "2")+fmt.Sprintf(flow, "return", "4.40", "2"))
	for i, want := range [][]int{nil, {2}, {1}} {
		if !slices.Equal(spaced.Read[i].Against, want) {
			t.Errorf("%q contradicts %v, want %v", spaced.Read[i].At, spaced.Read[i].Against, want)
		}
	}
}

// The few points of what fits a reading stand for all of it: by the error of a quantile, √(p(1−p)/n)
// over the density, the ends of nine in ten of 256 normal values move by an eighth of a standard
// deviation, twice that being a twelfth of their distance of 3.29.
func TestFewOfWhatFits(t *testing.T) {
	got := rangesRead(t, "[[reading]]\nat = \"pump\"\nflow = \"4.6 m3/h\"\n")
	few, flows := got.Few(), got.Of("on", graph.After).UnitFlow
	var all, some []float64
	for k, i := range got.Points {
		all = append(all, flows[k])
		if slices.Contains(few, i) {
			some = append(some, flows[k])
		}
	}
	slices.Sort(all)
	slices.Sort(some)
	at := func(of []float64, share float64) float64 { return of[int(share*float64(len(of)-1))] }
	wide := at(all, 0.95) - at(all, 0.05)
	for _, share := range []float64{0.05, 0.5, 0.95} {
		if off := at(some, share) - at(all, share); !agree.Within(off, 0, wide/12) {
			t.Errorf("of %d points that stand for %d the share %.2f is off by %.2f of the range", len(some), len(all), share, off/wide)
		}
	}
	if want := min(len(all), 4*len(sample.Few())); len(few) != want || len(some) != want {
		t.Errorf("%d points, want %d", len(few), want)
	}
}

// A gauge that stands at 0 is read like any other: before the pump, where it sucks as much as the water
// above it gives, 500 mm of it.
func TestGaugeAtNought(t *testing.T) {
	got := rangesRead(t, "[[reading]]\nat = \"pump.in\"\npressure = \"0 bar\"\nplus-minus = \"0.02 bar\"\n")
	if len(got.Read) != 1 || !got.Read[0].Pressed() || got.Read[0].Unanswered || got.Read[0].Off != 2000 {
		t.Fatalf("%+v", got.Read)
	}
	if !got.Narrowed() || got.Read[0].AsDescribed == 0 {
		t.Errorf("0 bar before the pump, as described %.0f Pa: narrowed %v", got.Read[0].AsDescribed, got.Narrowed())
	}
}

// Points are chosen in proportion to their weights, none twice.
func TestEvenly(t *testing.T) {
	var points []int
	var weights []float64
	dice := rand.New(rand.NewPCG(1, 2)).Perm(1000)
	of := func(i int) int { return dice[i] % 10 } // a hundred of each, in no period
	for i := range 1000 {
		points, weights = append(points, i), append(weights, float64(of(i))/18)
	}
	chosen := evenly(points, weights)
	by := make([]int, 10)
	for k, i := range chosen {
		if k > 0 && chosen[k-1] >= i {
			t.Fatalf("%d after %d", i, chosen[k-1])
		}
		by[of(i)]++
	}
	for w, n := range by { // of a hundred of each, as many as its weight to the greatest
		if want := 100 * float64(w) / 9; !agree.Within(float64(n), want, 10) {
			t.Errorf("of weight %d: %d of 100, want %.0f", w, n, want)
		}
	}
}

// Once the pump's flow was read, what is left to be measured is not the pump: its size moves the unit's
// flow by a third and more before, and by less than the reading's own error after.
func TestReadingTakesTheHarm(t *testing.T) {
	harm := func(r *Ranges) float64 {
		most := 0.0
		for _, f := range r.Moves {
			if f.Part == "pump" {
				most = max(most, f.Unit)
			}
		}
		return most
	}
	wide, narrow := harm(rangesRead(t, "")), harm(rangesRead(t, strings.Replace(readFlow, "AT", "unit", 1)))
	if !(wide > 0.15 && narrow < 0.05) {
		t.Errorf("the pump moves the unit's flow by %.2f before it was read, %.2f after", wide, narrow)
	}
}

// A gauge at a place of which nothing says how deep it lies counts the water above it as deep as such
// places are: half a metre in the middle (spreads.csv), by hydrostatics 993·9.80665·0.5 Pa more than
// level with the water; and as far as they lie apart its readings do.
func TestGaugeOfUnknownLevel(t *testing.T) {
	gauge := "[[reading]]\nat = \"unit.in\"\npressure = \"0.2 bar\"\n"
	read := func(below string) Read {
		text := strings.NewReplacer("below-water = \"300 mm\"\n", below, "below-water = \"500 mm\"\n", below, "below-water = \"200 mm\"\n", below).Replace(readText)
		c, ds := description.Read("read.toml", []byte(text+gauge))
		if c == nil {
			t.Fatal(ds)
		}
		lay := laying.Of(c.At(graph.After))
		return Of(lay, lay, "unit", nil, nil).Read[0]
	}
	unknown, level := read(""), read("below-water = \"0 mm\"\n")
	if got := unknown.AsDescribed - level.AsDescribed; !agree.Within(got, 993*9.80665*0.5, 10) {
		t.Errorf("of unknown level the gauge reads %.0f Pa more than level with the water", got)
	}
	if wide := 993 * 9.80665; !(unknown.Was.High-unknown.Was.Low > level.Was.High-level.Was.Low+wide) {
		t.Errorf("of unknown level %+v, level with the water %+v", unknown.Was, level.Was)
	}
}

// How far a reading is off: as it says, a share of a pressure being so much of it; else a tenth and a
// fifth of that of a flow, and of a gauge six hundredths of a bar (spreads.csv).
func TestHowFarAReadingIsOff(t *testing.T) {
	for _, c := range []struct {
		r    graph.Reading
		want float64
	}{
		{graph.Reading{Flow: 1e-3}, 0.12}, {graph.Reading{Flow: 1e-3, Off: 0.05}, 0.05},
		{graph.Reading{Pressure: 4e4, PressureSet: true}, 6000}, {graph.Reading{PressureSet: true}, 6000},
		{graph.Reading{Pressure: -4e4, PressureSet: true, Off: 0.05}, 2000}, {graph.Reading{Pressure: 4e4, PressureSet: true, OffPa: 3000}, 3000},
	} {
		if got := offOf(c.r); !agree.Within(got, c.want, 1e-9*c.want) {
			t.Errorf("%+v: off by %g, want %g", c.r, got, c.want)
		}
	}
}

// What an unknown still moves is its part of the scatter: of a flow that is 100 + 2·a + b, a and b alike
// and apart, a moves 2/√5 of it and b 1/√5 (variances add); two coordinates of the sample go with each other by a few hundredths.
func TestWhatIsLeftToMove(t *testing.T) {
	s := &spreader{all: make([]unknown, 3)}
	for k := range s.all {
		s.all[k] = unknown{span: tables.Span{Low: -0.2, High: 0.2}, coordinate: sample.OfFlows(k)}
	}
	m := &spreadMode{narrowed: true, units: []int{0}, moved: moved{values: make([][]float64, 1)}}
	for i := range sample.Size {
		v := s.values(i)
		y := 100 + 2*v[0] + v[1]
		m.answered, m.moved.values[0] = append(m.answered, i), append(m.moved.values[0], y)
		m.moved.jets, m.moved.head = append(m.moved.jets, 1), append(m.moved.head, 1)
	}
	left, all := s.left(m), half(m.moved.values[0])
	for k, want := range []float64{2 / math.Sqrt(5), 1 / math.Sqrt(5), 0} {
		if !agree.Within(left[k].units[0]/all, want, 0.06) || left[k].jets != 0 {
			t.Errorf("unknown %d moves %.3f of what is left, want %.3f; of the jets %g", k, left[k].units[0]/all, want, left[k].jets)
		}
	}
}
