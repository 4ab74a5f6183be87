package settle_test

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// pumpValues are the settled values of a pump described by some keys, in water of 900 kg/m³.
func pumpValues(t *testing.T, keys string) map[string]settle.Value {
	t.Helper()
	c, ds := description.Read("pump.toml", []byte("[water]\ndensity = \"900 kg/m3\"\n[pipe]\nspec = \"pvc-sch40\"\nsize = \"2 in\"\n[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"a\", \"b\"]\n"+
		"[[run]]\nfrom = \"tub.a\"\nto = \"pump.in\"\nlength = \"1 m\"\n[[run]]\nfrom = \"pump.out\"\nto = \"tub.b\"\nlength = \"1 m\"\n"+
		"[[part]]\nid = \"pump\"\nkind = \"pump\"\n"+keys))
	if c == nil {
		t.Fatal(ds)
	}
	out := map[string]settle.Value{}
	for k, v := range settle.Of(c).Values() {
		if k.Of == "pump" {
			out[k.What] = v
		}
	}
	return out
}

// The shut-off head is that at no flow, whatever the first point of the curve is, and it is said where
// it is no point of it. By hand: secants of -0.15 and -0.3 m per m3/h make the first slope
// (12·(-0.15) + 4·0.3)/8 = -0.075, and a parabola that starts level and meets 3.9 m at 2 m3/h with that
// starts at 3.9 + 0.075·2/2 = 3.975 m; in kPa of water of 900 kg/m³ times 8.825985.
func TestShutOffHeadIsAtNoFlow(t *testing.T) {
	heads := []float64{3.9, 3.3, 2.1, 0.5}
	curve := func(unit string, times float64) string {
		var points []string
		for i, h := range heads {
			points = append(points, fmt.Sprintf(`["%d m3/h", "%g %s"]`, 2+4*i, h*times, unit))
		}
		return "curve = [" + strings.Join(points, ", ") + "]\n"
	}
	const what = "shut-off head, extrapolated, at on"
	v, ok := pumpValues(t, curve("m", 1))[what]
	if !ok || v.Dim != quantity.Head || !agree.Within(v.V, 3.975, 1e-9) {
		t.Errorf("%v m, want 3.975", v.V)
	}
	const kPa = 900 * 9.80665 / 1000
	v, ok = pumpValues(t, curve("kPa", kPa))[what]
	if !ok || v.Dim != quantity.Pressure || !agree.Within(v.V, 3975*kPa, 1e-6*3975*kPa) {
		t.Errorf("%v Pa, want %g", v.V, 3975*kPa)
	}
	if _, ok := pumpValues(t, strings.Replace(curve("m", 1), "2 m3/h", "0 m3/h", 1))["shut-off head at on"]; !ok {
		t.Error("a curve that starts at no flow has no shut-off head")
	}
}

// A pump known by its label is said to be that, by the curves of the row it was taken for, and the
// watts are the description's.
func TestPumpOfALabelSaysSo(t *testing.T) {
	got := pumpValues(t, "power = \"85 W\"\n")
	head, watts := got["shut-off head at on"], got["power at on"]
	if why := head.Why.In(quantity.MetricSystem); head.How != settle.Assumed || head.Row != "" || why != "85 W on its label, by the curves of circulation-pump-24h" {
		t.Errorf("%s, row %q: %s", head.How, head.Row, why)
	}
	if watts.How != settle.Given || watts.Pos.Line != 21 {
		t.Errorf("the watts: %s at %s", watts.How, watts.Pos)
	}
	two := pumpValues(t, "speeds = [{ name = \"low\" }, { name = \"high\", power = \"1.5 kW\" }]\n")
	if low, high := two["power at low"], two["power at high"]; low.How != settle.Assumed || high.How != settle.Given {
		t.Errorf("the watts of the label: low %s, high %s", low.How, high.How)
	}
}
