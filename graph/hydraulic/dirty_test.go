package hydraulic_test

import (
	"math"
	"strings"
	"testing"
)

// A dirty filter loses so many times what it loses clean at the same flow: as its description
// says, else as the catalogue's row of its make, whose factor holds for a clean loss measured on
// it too (2.5 for sand, from memory), else three times (common practice, no source). The clean
// loss is described, k 8 on 50 mm: k·ρ/2·(q/A)². Darcy and Weisbach's way of writing a loss.
func TestDirtyFilterLosesSoManyTimesItsCleanLoss(t *testing.T) {
	const clean = `loss = { flow = "10 m3/h", drop = "6 kPa" }`
	for _, c := range []struct {
		name, filter string
		times        float64
	}{
		{"its own factor", "dirty-factor = 4", 4},
		{"its own factor, of a make", "type = \"sand-filter\"\ndirty-factor = 4", 4},
		{"a make", `type = "sand-filter"`, 2.5},
		{"nothing said", "", 3},
	} {
		text := strings.Replace(file(t, "bypass.toml"), clean, "loss = { k = 8, bore = \"50 mm\" }\n"+c.filter, 1)
		text += "\n[[mode]]\nname = \"clean\"\nspeeds = { pump = \"high\" }\n[[mode]]\nname = \"clogged\"\nspeeds = { pump = \"high\" }\nfilter = \"dirty\"\n"
		for name, times := range map[string]float64{"clean": 1, "clogged": c.times} {
			s := solve(t, text, name)
			f := s.Part("filter")
			v := f.Flow / (math.Pi / 4 * 0.05 * 0.05)
			approx(t, c.name+", "+name, math.Abs(f.Drop), times*8*s.Water.Density/2*v*v, 1e-6)
		}
	}
}
