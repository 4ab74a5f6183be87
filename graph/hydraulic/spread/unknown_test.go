package spread

import (
	"math"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/route/laying"
)

const unknownText = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
existing = true
type = "two-speed-pump"
[[part]]
id = "filter"
kind = "filter"
existing = true
[[part]]
id = "valve"
kind = "ball-valve"
position = "50 %"
[[part]]
id = "swing"
kind = "check-valve"
style = "swing"
[[part]]
id = "jets"
kind = "jet-group"
existing = true
count = 10
JETS
[[run]]
id = "old"
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
id = "mid"
from = "pump.out"
to = "filter.in"
existing = true
length = "1 m"
[[run]]
id = "new"
from = "filter.out"
to = "valve.in"
length = "1 m"
[[run]]
id = "new2"
from = "valve.out"
to = "swing.in"
length = "1 m"
[[run]]
id = "new3"
from = "swing.out"
to = "jets.in"
length = "1 m"
[[run]]
id = "end"
from = "jets.out"
to = "tub.b"
existing = true
length = "0 mm"
`

func unknownModel(t *testing.T, jets, mode string) *hydraulic.Model {
	t.Helper()
	c, ds := description.Read("test.toml", []byte(replaceOnce(unknownText, "JETS", jets)))
	if c == nil {
		t.Fatal(ds)
	}
	c = c.At(graph.After)
	for _, m := range c.AllModes() {
		if m.Name == mode {
			model, err := hydraulic.Build(laying.Of(c), m, graph.After)
			if err != nil {
				t.Fatal(err)
			}
			return model
		}
	}
	t.Fatalf("no mode %s", mode)
	return nil
}

func replaceOnce(text, old, with string) string {
	for i := 0; i+len(old) <= len(text); i++ {
		if text[i:i+len(old)] == old {
			return text[:i] + with + text[i+len(old):]
		}
	}
	return text
}

// What each unknown does to the laws, worked by hand: a Kv twice as large loses a quarter, a
// bore twice as large a sixteenth; a pump of k times the water power has k^0.7 the flow at
// k^0.3 the head, and its filter and jets go with it; joints go on pipe of their own age,
// covers of suctions on the runs from the tub.
func TestUnknownsByHand(t *testing.T) {
	m := unknownModel(t, "", "high")
	all := unknowns([]*hydraulic.Model{m})
	set := func(m *hydraulic.Model, what string, v float64) *hydraulic.Perturb {
		t.Helper()
		for _, u := range all {
			if u.what == what {
				p := &hydraulic.Perturb{}
				u.set(m, p, v)
				m.Perturb(p)
				return p
			}
		}
		t.Fatalf("no unknown %q", what)
		return nil
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if !agree.Within(got, want, 1e-9*math.Abs(want)) {
			t.Errorf("%s: %g, want %g", what, got, want)
		}
	}
	part := func(id string) *hydraulic.ModelPart { return &m.Parts[m.PartAt[id]] }
	head := func(id string, q float64) float64 { h, _ := part(id).Law.Loss(q); return h }
	const q = 3e-3
	m.Perturb(nil)
	valve, filter, jets := head("valve", q), head("filter", q), head("jets", q)
	set(m, "the Kv of valve", 2)
	near("valve", head("valve", q), valve/4)
	set(m, "how large pump is", 2)
	wide, tall := math.Pow(2, 0.7), math.Pow(2, 0.3)
	h0, _ := part("pump").Pump.Curve.Head(q / wide)
	h, _ := part("pump").Pump.Loss(q)
	near("pump", -h, tall*h0)
	near("jets of a larger pump", head("jets", q), jets*tall/(wide*wide))
	near("filter of a larger pump", head("filter", q), filter*math.Pow(wide, -1.6))
	joints := func(what string, v float64) (old, fresh, inlet float64) {
		m.Perturb(nil)
		a, b, c := m.Runs[1].Law.Ahead, m.Runs[2].Law.Ahead, m.Runs[0].Law.Ahead
		set(m, what, v)
		one := laws.SquareOf(1, m.Runs[0].BoreM)
		return (m.Runs[1].Law.Ahead - a) / one, (m.Runs[2].Law.Ahead - b) / one, (m.Runs[0].Law.Ahead - c) / one
	}
	was, fresh, _ := joints("joints in the old pipe", 0.5)
	if !(math.Abs(was-0.5) < 1e-9 && math.Abs(fresh) < 1e-9) {
		t.Errorf("old joints: %g on old pipe, %g on new", was, fresh)
	}
	_, _, inlet := joints("the covers of the suctions", 0.7)
	if !agree.Within(inlet, 0.7, 1e-9) {
		t.Errorf("cover: %g", inlet)
	}
	// the swing check in 2 in pipe of 52.04 mm: 0.7 m/s hold it open, 5.36 m³/h
	if hold := part("swing").Hold * 3600; !agree.Within(hold, 5.360, 0.005) {
		t.Errorf("held open from %g m³/h", hold)
	}
	low, _, ok := lowHigh(m)
	// the cartridge's drop of 2.6 kPa, at the pump's best flow at low speed
	if got := head("filter", low) * m.Water.Density * 9.80665; !ok || !agree.Within(got, 2600, 25) {
		m.Perturb(nil)
		if got := head("filter", low) * m.Water.Density * 9.80665; !agree.Within(got, 2600, 25) {
			t.Errorf("%g Pa at %g m³/s", got, low)
		}
	}
	bore := unknownModel(t, `bore = "8 mm"`, "high")
	all = unknowns([]*hydraulic.Model{bore})
	m = bore
	m.Perturb(nil)
	was = head("jets", q)
	set(m, "the bore of jets", 2)
	near("jets of twice the bore", head("jets", q), was/16)
}

// lowHigh returns the best flows of the model's pump at its slow and fast speed: the low one
// is 0.495 of the high.
func lowHigh(m *hydraulic.Model) (low, high float64, ok bool) {
	for i := range m.Parts {
		if p := &m.Parts[i]; p.Pump != nil {
			high, _ = p.Pump.Curve.Best()
			return 0.495 * high, high, true
		}
	}
	return 0, 0, false
}

// A loss of the catalogue is as wide as its class at least; a filter's class is its own.
func TestRowsDoNotNarrow(t *testing.T) {
	m := unknownModel(t, "", "high")
	span := m.Parts[m.PartAt["filter"]].Set.Loss.Span
	class := tables.Spread(tables.SpreadFilterLoss, "assumed")
	if !(span.Low <= class.Low && span.High >= class.High && span.Low <= 1/2.2-1+1e-9 && span.High >= 5/2.2-1-1e-9) {
		t.Errorf("the filter's drop: %+v, its class %+v", span, class)
	}
}

// Of the numbers 0 to 1000 a twentieth lie below 50, half below 500, a twentieth above 950.
// Where a pump is past its curve from 900 on the upper end is open at the last before.
func TestRangeOf(t *testing.T) {
	var all []sampled
	for i := range 1001 {
		all = append(all, sampled{float64((i * 306) % 1001), false})
	}
	r := rangeOf(all, 400)
	if r.Low != 50 || r.Middle != 500 || r.High != 950 || r.Likely != 400 || r.OpenLow || r.OpenHigh || r.PastHigh != 0 || r.Of != 1001 {
		t.Errorf("%+v", r)
	}
	for i := range all {
		all[i].past = all[i].value >= 900
	}
	if r := rangeOf(all, 400); r.High != 899 || !r.OpenHigh || r.OpenLow || r.PastLow != 0 || r.PastHigh != 101 || !agree.Within(r.BeyondHigh(), 101.0/1001, 1e-9) {
		t.Errorf("past the curve: %+v", r)
	}
	for _, c := range []struct {
		what     string
		past     func(float64) bool
		high     float64
		pastHigh int
		open     bool
	}{
		{"one at the very end of the range", func(v float64) bool { return v == 950 }, 950, 1, false},
		{"half of the outermost tenth but one", func(v float64) bool { return v > 950 }, 950, 50, false},
		{"half of it", func(v float64) bool { return v >= 950 }, 949, 51, true},
		{"every other of them", func(v float64) bool { return v >= 900 && int(v)%2 == 0 }, 949, 51, true},
	} {
		for i := range all {
			all[i].past = c.past(all[i].value)
		}
		if r := rangeOf(all, 400); r.High != c.high || r.PastHigh != c.pastHigh || r.OpenHigh != c.open || r.OpenLow {
			t.Errorf("%s past the curve: %+v", c.what, r)
		}
		for i := range all { // the same at the lower end
			all[i].past = c.past(1000 - all[i].value)
		}
		if r := rangeOf(all, 400); r.Low != 1000-c.high || r.PastLow != c.pastHigh || r.OpenLow != c.open || r.OpenHigh {
			t.Errorf("%s past the curve, below: %+v", c.what, r)
		}
	}
	if r := rangeOf(all[:1], 7); r.Low > 7 || r.High < 7 {
		t.Errorf("the case as described lies outside: %+v", r)
	}
}

// The pressure in pipe that comes from the tub is less than the water's by what it took to
// move it: v²/2g and the entrance. By hand.
func TestPressureInARun(t *testing.T) {
	m := unknownModel(t, "", "high")
	s, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	r := s.Run("old")
	want := -m.Water.Density * r.Velocity * r.Velocity / 2
	if !agree.Within(r.StaticPa, want, 1e-6*math.Abs(want)) {
		t.Errorf("%g Pa at %g m/s, want %g", r.StaticPa, r.Velocity, want)
	}
}

// A tee whose branch is between two thirds of its run and as wide has a factor of its own, and
// only such a tee: 40.94 in 52.50 mm is 0.78 (ASTM D1785, 1-1/2 and 2 in schedule 40).
func TestReducingTeesHaveASpread(t *testing.T) {
	for beta, want := range map[float64]bool{0.5: false, 2.0 / 3: false, 40.94 / 52.50: true, 0.94: true, 1: false} {
		p := &hydraulic.ModelPart{Part: &graph.Part{Kind: graph.Tee}, Tee: laws.NewTeeLaw(0.0525, 0.0525*beta)}
		if got := reducingTee(p); got != want {
			t.Errorf("branch of %.2f of the run: %v", beta, got)
		}
		m := &hydraulic.Model{Parts: []hydraulic.ModelPart{*p}}
		q := &hydraulic.Perturb{}
		onReducingTees(m, q, 1.7)
		if f := q.Loss[0]; f != map[bool]float64{true: 1.7, false: 1}[want] {
			t.Errorf("branch of %.2f of the run: factor %g", beta, f)
		}
	}
}
