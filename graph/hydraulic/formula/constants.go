package formula

import "math"

// Gravity is the standard acceleration of free fall, m/s². Source: CGPM 1901, exact.
const Gravity = 9.80665

// Atmosphere is the standard atmosphere, Pa. Source: CGPM 1954, exact.
const Atmosphere = 101325

// Area returns the cross-section in m² of a round bore in m.
func Area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// HeadPerFlow2 returns what turns a loss coefficient on a bore (m) into head over the
// square of flow, m/(m³/s)²: h = K·v²/2g = K·q²/(2·g·A²).
func HeadPerFlow2(bore float64) float64 {
	a := Area(bore)
	return 1 / (2 * Gravity * a * a)
}
