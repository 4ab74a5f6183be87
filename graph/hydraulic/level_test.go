package hydraulic_test

import (
	"math"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/route/laying"
)

// A unit that stands 3 m below the water has 3 m of water more on it than its circuit gives,
// and so has each run by its own level: 3 m of water of 993 kg/m3 by 9.80665 m/s2 are 29.21
// kPa. Runs that touch have no pressure of their own.
func TestStaticHeadByLevel(t *testing.T) {
	const text = `
[water]
density = "993 kg/m3"
viscosity = "0.00068 Pa s"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
below-water = "500 mm"
curve = [["0 m3/h", "10 m"], ["20 m3/h", "2 m"]]
port.out = { at = ["right 200 mm"], faces = "right" }
[[part]]
id = "unit"
kind = "heat-pump"
loss = { flow = "4 m3/h", drop = "40 kPa", exponent = 2 }
[[part]]
id = "jets"
kind = "jet-group"
loss = { flow = "10 m3/h", drop = "5 kPa" }
[[run]]
id = "a"
from = "tub.suction"
to = "pump.in"
length = "1 m"
spec = "pvc-sch40"
size = "2 in"
[[run]]
id = "b"
from = "pump.out"
to = "unit.in"
legs = ["right 400 mm", "down 2500 mm"]
spec = "pvc-sch40"
size = "2 in"
[[run]]
id = "c"
from = "unit.out"
to = "jets.in"
length = "3 m"
spec = "pvc-sch40"
size = "2 in"
[[run]]
id = "touch"
from = "jets.out"
to = "tub.return"
length = "0 mm"
`
	s := solve(t, text, "on")
	pa := 993 * 9.80665
	unit, b, c, d := s.Part("unit"), s.Run("b"), s.Run("c"), s.Run("touch")
	// By hand: the head at the unit's inlet is what unit, run c, jets and the way out lose;
	// total heads less the velocity head in the pipe, plus 3 m.
	v2 := unit.Flow / (math.Pi / 4 * b.BoreMM * b.BoreMM * 1e-6)
	above := unit.Drop + c.Drop + s.Part("jets").Drop + d.Drop
	want := above - 993*v2*v2/2 + 3*pa
	within(t, "at the unit", unit.StaticPa, want, 1e-6, "by hand from the heads and 3 m of water")
	if !unit.LevelKnown || !b.LevelKnown {
		t.Error("the level of unit and run follows from the legs")
	}
	// The greatest pressure of the run to it is at its foot, for 2.5 m weigh more than it loses.
	within(t, "in the run to it", b.StaticPa, want, 1e-6, "by hand: its foot has most water above it")
	if !s.Run("touch").Bare || s.Run("touch").Velocity != 0 || s.Run("touch").StaticPa != 0 {
		t.Error("a run without length or bore shows a velocity or a pressure")
	}
	if c.LevelKnown {
		t.Error("a run known by its length leads down and up wherever it likes")
	}
}

// within fails where got is further from want than a share of it, or is no number.
func within(t *testing.T, what string, got, want, tolerance float64, source string) {
	t.Helper()
	if !agree.Within(got, want, tolerance*math.Abs(want)) {
		t.Errorf("%s = %.7g, want %.7g within %.3g %% (%s)", what, got, want, 100*tolerance, source)
	}
}

// How loosely a level hangs: a pump 500 mm below the water whose ports a measure ties leaves nothing
// open; past a filter whose ports nothing ties it hangs by the height of the filter's box, 400 mm, past
// a second one, 300 mm high, by the root of the squares, 500 mm.
func TestLooseLevels(t *testing.T) {
	const text = `
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
below-water = "500 mm"
curve = [["0 m3/h", "10 m"], ["20 m3/h", "2 m"]]
port.out = { at = ["right 200 mm"], faces = "right" }
[[part]]
id = "first"
kind = "filter"
existing = true
box = { from = ["down 100 mm", "front 100 mm"], to = ["right 300 mm", "up 300 mm", "back 100 mm"] }
[[part]]
id = "second"
kind = "filter"
existing = true
box = { from = ["down 100 mm", "front 100 mm"], to = ["right 300 mm", "up 200 mm", "back 100 mm"] }
[[run]]
id = "a"
from = "tub.suction"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
id = "b"
from = "pump.out"
to = "first.in"
existing = true
legs = ["right 500 mm"]
[[run]]
id = "c"
from = "first.out"
to = "second.in"
existing = true
legs = ["right 500 mm"]
[[run]]
id = "d"
from = "second.out"
to = "tub.return"
existing = true
legs = ["right 500 mm"]
`
	lay := laying.Of(read(t, text).At(graph.After))
	levels := lay.Levels()
	for i, want := range []struct {
		mm float64
		by int
	}{{0, 0}, {0, 0}, {400, 1}, {500, 2}} {
		if mm, by := levels.LooseRun(i); !agree.Within(mm, want.mm, 1e-9) || len(by) != want.by {
			t.Errorf("run %s: %g mm past %d parts, want %g past %d", lay.Circuit.Runs[i].ID, mm, len(by), want.mm, want.by)
		}
	}
	if mm, by := levels.Loose(lay.Circuit.Part("second")); !agree.Within(mm, 500, 1e-9) || len(by) != 2 {
		t.Errorf("second: %g mm past %d", mm, len(by))
	}
}
