package settle_test

import (
	"fmt"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// A pump is as large as the catalogue's nearest whether its sheet gives metres of the water or kPa:
// 9.80665 m/s² times a density of 900 kg/m³ make 8.825985 kPa of a metre. The heads go up by two in
// a hundred, so that what counts metres of another water takes some for the next larger pump.
func TestBodyOfAPumpInMetresAndKPa(t *testing.T) {
	lengths := map[float64]bool{}
	for head := 2.0; head < 20; head *= 1.02 {
		var got []float64
		for _, h := range []string{fmt.Sprintf("%.4f m", head), fmt.Sprintf("%.4f kPa", head*8.825985)} {
			c, ds := description.Read("body.toml", fmt.Appendf(nil, `
[water]
density = "900 kg/m3"
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
curve = [["0 m3/h", %q], ["12 m3/h", "0 m"]]
[[run]]
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "tub.b"
existing = true
length = "1 m"
`, h))
			if c == nil {
				t.Fatal(ds)
			}
			got = append(got, settle.Of(c).Part("pump").Body.LongMM)
		}
		if got[0] != got[1] {
			t.Errorf("%.2f m: %g mm long in metres, %g in kPa", head, got[0], got[1])
		}
		lengths[got[0]] = true
	}
	if len(lengths) < 3 {
		t.Errorf("%d lengths: too few to tell", len(lengths))
	}
}
