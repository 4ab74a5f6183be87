package settle_test

import (
	"math"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// The watts somebody read off a pump's label are theirs, though its curve is that of its kind.
// Follows from the description.
func TestWattsOfALabelAreGiven(t *testing.T) {
	const around = `
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]

[[run]]
from = "tub.suction"
to = "pump.in"
existing = true
length = "1 m"

[[run]]
from = "pump.out"
to = "tub.return"
existing = true
length = "1 m"
`
	for _, kind := range []string{"", `type = "pool-pump"`} {
		c, ds := description.Read("pump.toml", []byte("[[part]]\nid = \"pump\"\nkind = \"pump\"\nexisting = true\npower = \"900 W\"\n"+kind+around))
		if c == nil {
			t.Fatal(ds)
		}
		seen := 0
		for k, v := range settle.Of(c).Values() {
			if k.What == "power at on" {
				seen++
				if v.How != settle.Given || v.Pos.Line != 5 {
					t.Errorf("%q: %s: %+v", kind, k.What, v)
				}
			}
		}
		if seen == 0 {
			t.Errorf("%q: no power among the values", kind)
		}
	}
}

// What a slower speed takes lies between the cube of the ratio, which is what the water takes (affinity laws),
// and its square: of 1 kW at half the speed 125 to 250 W. What a pump of which only the curve is known takes
// lies as far apart as pumps of one label give, the other way round: one that gives half as much again of its
// watts takes two thirds of them for the same water.
func TestHowFarAPowerMayBeOff(t *testing.T) {
	at := func(keys string) settle.Value {
		t.Helper()
		c, ds := description.Read("pump.toml", []byte(`
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[run]]
from = "tub.suction"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "tub.return"
length = "1 m"
[[part]]
id = "pump"
kind = "pump"
`+keys))
		if c == nil {
			t.Fatal(ds)
		}
		return settle.Of(c.At(graph.After)).Part("pump").Powers[0]
	}
	const curve = `curve = [["0 m3/h", "12 m"], ["10 m3/h", "9 m"], ["20 m3/h", "2 m"]]`
	v := at(`speeds = [{ name = "low", ratio = 0.5 }, { name = "high", power = "1 kW", ` + curve + ` }]`)
	if low, high := v.V*(1+v.Low), v.V*(1+v.High); !agree.Within(low, 125, 1e-6) || !agree.Within(high, 250, 1e-6) {
		t.Errorf("half the speed of 1 kW: %.1f to %.1f W, want 125 to 250", low, high)
	}
	// Between two types it goes by logarithms: of three pumps each a fifth larger than the one before, the
	// middle one takes the geometric mean of the others.
	var watts []float64
	for _, flow := range []string{"11", "13.2", "15.84"} {
		v = at(`curve = [["0 m3/h", "12 m"], ["` + flow + ` m3/h", "0.1 m"]]`)
		if want := "by what it gives, between circulation-pump-1.5in and pool-pump"; string(v.Why) != want {
			t.Fatalf("a pump of %s m3/h at most: %q", flow, v.Why)
		}
		watts = append(watts, v.V)
	}
	if !(watts[1] > 1.05*watts[0]) || !agree.Within(watts[1], math.Sqrt(watts[0]*watts[2]), 1e-3*watts[1]) {
		t.Errorf("pumps each a fifth larger take %.2f W", watts)
	}
	v = at(curve)
	gives := tables.Spread(tables.SpreadPumpLabel, "assumed")
	if !v.Known || !agree.Within((1+v.Low)*(1+gives.High), 1, 1e-9) || !agree.Within((1+v.High)*(1+gives.Low), 1, 1e-9) || !(v.V > 200) {
		t.Errorf("%.0f W, %+.3f to %+.3f, where pumps of a label give %+.2f to %+.2f", v.V, v.Low, v.High, gives.Low, gives.High)
	}
}
