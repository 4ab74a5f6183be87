package tables

import (
	"math"
	"sync"

	"dryfit/catalog"
	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

type supportLine struct {
	spec   catalog.Spec
	size   catalog.Size
	mm     []float64
	source string
}

// supportTemps are the temperatures of the columns of the table of supports, °C.
var supportTemps = [...]float64{16, 27, 38, 49, 60}

var supports = sync.OnceValue(func() []supportLine {
	s := data.Read("support.csv")
	var out []supportLine
	for _, l := range s.Lines {
		line := supportLine{spec: catalog.Spec(l[0]), size: sizeIn(s, l[1]), source: l[2+len(supportTemps)]}
		for i := range supportTemps {
			line.mm = append(line.mm, s.Amount(l[2+i], quantity.Length))
		}
		out = append(out, line)
	}
	return out
})

// SupportSpacing returns how far apart (mm) the supports of level pipe may stand with water
// of the temperature (°C), linear between the columns of the table, and its source. Metric
// pipe has lines of its own, those of PN10. ok is false for flexible pipe and hose, which want to
// lie on something all along, and for sizes without a line.
func SupportSpacing(spec catalog.Spec, size catalog.Size, tempC float64) (mm float64, source string, ok bool) {
	if spec.Family() == catalog.Metric && !spec.Flexible() {
		spec = catalog.PVCPN10 // the thicker wall of PN16 carries no less
	}
	for _, l := range supports() {
		if l.spec != spec || l.size != size {
			continue
		}
		last := len(supportTemps) - 1
		switch {
		case tempC <= supportTemps[0]:
			mm = l.mm[0]
		case tempC >= supportTemps[last]:
			mm = l.mm[last]
		default:
			i := 0
			for tempC > supportTemps[i+1] {
				i++
			}
			mm = between(tempC, supportTemps[i], l.mm[i], supportTemps[i+1], l.mm[i+1])
		}
		return mm, l.source, true
	}
	return 0, "", false
}

// Apart is a spacing of supports (mm) as it is said: one that is not exceeded, as one reads it off a
// tape, so down to the centimetre or the inch.
func Apart(spacingMM float64, system quantity.System) float64 {
	grain := 10.0
	if system == quantity.InchSystem {
		grain = 25.4
	}
	return math.Floor(spacingMM/grain+1e-9) * grain
}
