package description

import (
	"math"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
)

// A plate of volts and amps: 8 A at 230 V are 1,840 VA, of which eight tenths are drawn (common practice, no source),
// what its own power factor says where it has one, and between three phases 1.732 times as much. A small pump's are
// seven tenths. It is taken for the pump those watts would make it, and reads the same once written again.
func TestPlateOfVoltsAndAmps(t *testing.T) {
	const plate = "amps = \"8 A\"\nvolts = \"230 V\"\n"
	for _, c := range []struct {
		keys string
		want float64
	}{
		{plate, 0.8 * 1840},
		{plate + "power-factor = 0.9", 0.9 * 1840},
		{plate + "phases = 3", 0.8 * 1840 * math.Sqrt(3)},
		{"amps = \"3 A\"\nvolts = \"400 V\"", 0.8 * 1200 * math.Sqrt(3)}, // no one phase has that
		{"amps = \"3 A\"\nvolts = \"400 V\"\nphases = 1", 0.8 * 1200},
		{plate + "power = \"1.5 kW\"", 1500},
		{"amps = \"0.5 A\"\nvolts = \"230 V\"", 0.7 * 115},
	} {
		p, ds := pumpIn(t, c.keys)
		if p == nil || graph.HasErrors(ds) {
			t.Errorf("%s: %v", c.keys, ds)
			continue
		}
		if s := p.Pump.Speeds[0]; !agree.Within(s.PowerW, c.want, 0.01) || s.ByPlate != (c.want != 1500) {
			t.Errorf("%s: draws %g W, of its plate %v, want %g", c.keys, s.PowerW, s.ByPlate, c.want)
		}
	}
	p, _ := pumpIn(t, plate)
	watts, _ := pumpIn(t, "power = \"1.472 kW\"")
	if a, b := p.Pump.Speeds[0].Curve[0].Head.Value, watts.Pump.Speeds[0].Curve[0].Head.Value; !agree.Within(a, b, 1e-9) {
		t.Errorf("8 A at 230 V lift %g m, their watts %g", a, b)
	}
	if says := p.Pump.LabelWords().In(quantity.MetricSystem); says != "8 A at 230 V on its label, of which it draws 1.47 kW" {
		t.Errorf("it says %q", says)
	}
	two, ds := pumpIn(t, `speeds = [{ name = "low", amps = "2.9 A", volts = "230 V" }, { name = "high", amps = "10 A", volts = "230 V" }]`)
	if two == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	if w := two.Pump.LabelW; !agree.Within(w, 0.8*2300, 0.01) {
		t.Errorf("two speeds: %g W on its label, want that of the fast one, 1,840", w)
	}
}

// Amps are nothing without volts, nor watts more than the two carry.
func TestPlateThatSaysTooLittle(t *testing.T) {
	for keys, says := range map[string]string{
		"amps = \"8 A\"":                        "without the volts",
		"volts = \"8 V\"":                       "12 V",
		"volts = \"230 V\"\npower = \"1.5 kW\"": "without its amps",
		"amps = \"4 A\"\nvolts = \"115 V\"\npower = \"1.5 kW\"": "460 W at the most",
	} {
		_, ds := pumpIn(t, keys)
		found := false
		for _, d := range ds {
			found = found || strings.Contains(d.Message.In(quantity.MetricSystem)+d.Hint.In(quantity.MetricSystem), says)
		}
		if !graph.HasErrors(ds) || !found {
			t.Errorf("%s: %v", keys, ds)
		}
	}
	if _, ds := pumpIn(t, "amps = \"8 A\"\nvolts = \"230 V\"\npower = \"2 kW\""); graph.HasErrors(ds) {
		t.Errorf("2 kW of 8 A at 230 V, rounded: %v", ds)
	}
}

// Amps that are refused where they stand are one mistake: nothing is said of the volts beside them.
func TestPlateThatIsRefused(t *testing.T) {
	for _, keys := range []string{
		"amps = \"8,2 A\"\nvolts = \"230 V\"",
		`speeds = [{ name = "low", amps = "2.9 A", volts = "230 V" }, { name = "high", amps = "8,2 A", volts = "230 V" }]`,
		`speeds = [{ name = "low", amps = "2.9 A", volts = "2 V" }, { name = "high", amps = "8.2 A", volts = "230 V" }]`,
	} {
		_, ds := pumpIn(t, keys)
		n := 0
		for _, d := range ds {
			if d.Severity == graph.Error {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%s: %d errors: %v", keys, n, ds)
		}
	}
}
