package description

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
)

// aPumpWith is a file with one pump in a line.
func aPumpWith(keys string) []byte {
	return []byte("[[part]]\nid = \"pump\"\nkind = \"pump\"\n" + keys + "\n" + `[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[run]]
from = "tub.a"
to = "pump.in"
spec = "pvc-sch40"
size = "2 in"
length = "1 m"
[[run]]
from = "pump.out"
to = "tub.b"
spec = "pvc-sch40"
size = "2 in"
length = "1 m"
`)
}

// pumpIn reads a file with one pump in a line.
func pumpIn(t *testing.T, keys string) (*graph.Part, []graph.Diagnostic) {
	t.Helper()
	c, ds := Read("pump.toml", aPumpWith(keys))
	if c == nil {
		return nil, ds
	}
	return c.Part("pump"), ds
}

// A drive of a type runs at the ratio that is said; where its watts alone are, at the speed at which its type
// takes that share of its most: a tenth of the watts near two fifths of the speed, by a power of 2.6 (the
// type's 70 of 780 W at 0.4). Written again it reads the same.
func TestDriveOfATypeRunsAsItShows(t *testing.T) {
	for _, c := range []struct {
		speeds string
		ratios []float64 // 0: the one with the curve
		off    float64
	}{
		{`[{ name = "night", ratio = 0.45 }, { name = "heat", ratio = 0.7 }, { name = "full", power = "1.1 kW" }]`, []float64{0.45, 0.7, 0}, 0},
		{`[{ name = "full", ratio = 1, power = "1.1 kW" }, { name = "night", ratio = 0.45, power = "150 W" }]`, []float64{0, 0.45}, 0},
		{`[{ name = "night", power = "99 W" }, { name = "heat", power = "353 W" }, { name = "full", power = "1.1 kW" }]`, []float64{0.4, 0.65, 0}, 0.01},
		{`[{ name = "night", power = "178 W" }, { name = "heat", power = "353 W" }, { name = "full", power = "1.1 kW" }]`, []float64{0.5, 0.65, 0}, 0.01},
		{`[{ name = "a", power = "99 W" }, { name = "b", power = "178 W" }, { name = "c", power = "353 W" }, { name = "d", power = "1.1 kW" }]`, []float64{0.4, 0.5, 0.65, 0}, 0.01},
	} {
		p, ds := pumpIn(t, "type = \"pool-pump-variable\"\nspeeds = "+c.speeds)
		if p == nil || graph.HasErrors(ds) {
			t.Errorf("%s: %v", c.speeds, ds)
			continue
		}
		for i, s := range p.Pump.Speeds {
			if !agree.Within(s.Ratio, c.ratios[i], c.off+1e-12) || (s.Ratio == 0) != (len(s.Curve) > 0) {
				t.Errorf("%s: %s runs at %g with %d points, want %g", c.speeds, s.Name, s.Ratio, len(s.Curve), c.ratios[i])
			}
			if s.RatioSaid != (c.off == 0 && c.ratios[i] > 0) {
				t.Errorf("%s: of %s a ratio is said: %v", c.speeds, s.Name, s.RatioSaid)
			}
		}
	}
	for _, bad := range []string{
		`[{ name = "night", ratio = 0.4 }, { name = "heat", ratio = 0.7 }]`,             // of no speed that is there
		`[{ name = "night" }, { name = "full", power = "1.1 kW" }]`,                     // of a drive any speed
		`[{ name = "a", ratio = 0.4 }, { name = "b" }, { name = "c" }, { name = "d" }]`, // the same
	} {
		if _, ds := pumpIn(t, "type = \"pool-pump-variable\"\nspeeds = "+bad); !graph.HasErrors(ds) {
			t.Errorf("%s reads", bad)
		}
	}
}

// A plate in horsepower says what the shaft gives (NEMA MG 1, from memory): 1.5 hp are 1,119 W there, for which a
// motor of seven tenths draws 1,598; and reads the same once written again.
func TestHorsepowerIsTheShafts(t *testing.T) {
	p, ds := pumpIn(t, "power = \"1.5 hp\"")
	if p == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	if s := p.Pump.Speeds[0]; !agree.Within(s.ShaftW, 1118.5, 0.1) || !agree.Within(s.PowerW, 1598, 0.2) {
		t.Errorf("1.5 hp: %g W at the shaft, draws %g", s.ShaftW, s.PowerW)
	}
	if says := p.Pump.LabelWords().In(quantity.MetricSystem); !strings.Contains(says, "at the shaft") || !strings.Contains(says, "1.6 kW") {
		t.Errorf("1.5 hp: %q", says)
	}
	row, ds := pumpIn(t, "type = \"my pump\"\n[[catalog.pump]]\nname = \"my pump\"\npower = \"1.5 hp\"\ncurve = [[\"0 m3/h\", \"12 m\"], [\"20 m3/h\", \"6 m\"]]\nsource = \"its sheet\"")
	if row == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	if s := row.Pump.Speeds[0]; !agree.Within(s.PowerW, 1598, 0.2) {
		t.Errorf("a row of 1.5 hp draws %g W", s.PowerW)
	}
	watts, _ := pumpIn(t, "power = \"1.6 kW\"")
	if a, b := p.Pump.Speeds[0].Curve[0].Head.Value, watts.Pump.Speeds[0].Curve[0].Head.Value; !agree.Within(a/b, 1, 0.002) {
		t.Errorf("1.5 hp lifts %g m, 1.6 kW %g", a, b)
	}
}

// Of a drive watts are said at 0.85 of its full speed, of which nothing is: at full it takes 1 kW by 0.85 to the power
// that its row goes by, ln(70/780)/ln(0.4) = 2.63, 1,534 W, and is the pump that 1,534 W on its label make it.
func TestWattsOfADriveBelowItsFullSpeed(t *testing.T) {
	p, ds := pumpIn(t, "type = \"pool-pump-variable\"\nspeeds = [{ name = \"night\", ratio = 0.35 }, { name = \"clean\", ratio = 0.85, power = \"1 kW\" }, { name = \"full\", ratio = 1 }]")
	same, also := pumpIn(t, "type = \"pool-pump-variable\"\nspeeds = [{ name = \"night\", ratio = 0.35 }, { name = \"clean\", ratio = 0.85 }, { name = \"full\", power = \"1534 W\" }]")
	if p == nil || same == nil || graph.HasErrors(ds) || graph.HasErrors(also) {
		t.Fatal(ds, also)
	}
	if a, b := p.Pump.Speeds[2].Curve[0].Head.Value, same.Pump.Speeds[2].Curve[0].Head.Value; !agree.Within(a, b, 1e-3*b) {
		t.Errorf("1 kW at 0.85 of its speed: shut-off %g m, 1,534 W at full %g", a, b)
	}
	if w := p.Pump.Speeds[2].PowerW; !agree.Within(w, 1534, 2) {
		t.Errorf("at full it takes %g W, want 1,534", w)
	}
}
