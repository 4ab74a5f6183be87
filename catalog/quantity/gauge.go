package quantity

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Conductors of North America go by a gauge, whose numbers fall as the wire grows: 6 AWG, and 2/0 for two
// below nought. It measures no cross-section, which is what an area of copper is reckoned by: a gauge is read as
// its own.
var gauged = regexp.MustCompile(`(?i)^(?:awg *#?|#)?(\d{1,2})(/0)?(?: *(?:awg|ga|gauge))?$`)

// gauge is the cross-section of a wire told by its gauge, where one is wanted: "13.3 mm2" for "6 AWG"; told is
// false where the text is none, and the section "" where it is of no gauge from 4/0 to 40.
//
// The diameter is 0.005 in at gauge 36 and 0.46 in at 4/0, in 39 equal ratios between (ASTM B258, from memory).
func gauge(text string, want []Dimension) (section string, told bool) {
	text = strings.TrimSpace(text)
	found := gauged.FindStringSubmatch(text)
	if found == nil || text == found[1] || !slices.Contains(want, Section) {
		return "", false
	}
	n, _ := strconv.Atoi(found[1])
	if found[2] != "" {
		n = 1 - n
	}
	if n < -3 || n > 40 {
		return "", true
	}
	return fmt.Sprintf("%s mm2", strconv.FormatFloat(ofGauge(n), 'g', 3, 64)), true
}

// ofGauge is the cross-section of a gauge [mm²].
func ofGauge(n int) float64 {
	mm := 0.127 * math.Pow(92, float64(36-n)/39)
	return math.Pi / 4 * mm * mm
}

// Gauge names the gauge of wire of a cross-section [mm²], "10 AWG"; "" where it is that of none from 4/0 to 40.
func Gauge(mm2 float64) string {
	const alike = 0.01 // steps are a quarter: nothing between them is meant
	for n := -3; n <= 40; n++ {
		if of := ofGauge(n); math.Abs(mm2-of) > alike*of {
			continue
		}
		if n < 1 {
			return fmt.Sprintf("%d/0 AWG", 1-n)
		}
		return fmt.Sprintf("%d AWG", n)
	}
	return ""
}
