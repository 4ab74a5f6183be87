package quantity

import "testing"

// Factors: NIST SP 811 appendix B (1 psi 6.894757 kPa, 1 US gpm 0.2271247 m3/h, 1 ft 0.3048 m),
// worked out by hand to the figures asked for.
func TestProse(t *testing.T) {
	for _, c := range []struct{ words, metric, inch string }{
		{"clean, 1 to 5 kPa at low speed", "clean, 1 to 5 kPa at low speed", "clean, 0.15 to 0.73 psi at low speed"},
		{"high 15 to 30 m3/h at 7 to 12 m, 2.5 kW", "high 15 to 30 m3/h at 7 to 12 m, 2.5 kW", "high 66 to 130 gpm at 23 to 39 ft, 2.5 kW"},
		{"flows 0.25, 0.35 and 0.70 m3/h a kW", "flows 0.25, 0.35 and 0.70 m3/h a kW", "flows 1.1, 1.5 and 3.1 gpm a kW"},
		{"9 to 13 US gpm a jet with about 12 psi across it", "2.0 to 3.0 m3/h a jet with about 83 kPa across it", "9 to 13 US gpm a jet with about 12 psi across it"},
		{"none above 40 °C.", "none above 40 °C.", "none above 104 °F."},
		{"at least 2 K below", "at least 2 K below", "at least 3.6 °F below"},
		{"at most 1.83 m/s (6 ft/s) on the suction side", "at most 1.83 m/s on the suction side", "at most 6 ft/s on the suction side"},
		{"104 °F (40 °C)", "40 °C", "104 °F"},
		{"with 300 mm of free air", "with 300 mm of free air", "with 12 in of free air"},
		{"48.3 mm in a 50 mm socket", "48.3 mm in a 50 mm socket", "1.90 in in a 50 mm socket"},
		{"the 1 in take-off; K 3 to 12; D1785, Schedule 40", "the 1 in take-off; K 3 to 12; D1785, Schedule 40", "the 1 in take-off; K 3 to 12; D1785, Schedule 40"},
		{"EN ISO 1452-2, checked", "EN ISO 1452-2, checked", "EN ISO 1452-2, checked"},
		{"0 m of it", "0 m of it", "0.0 ft of it"},
	} {
		got := Prose(c.words)
		if m, i := got.In(MetricSystem), got.In(InchSystem); m != c.metric || i != c.inch {
			t.Errorf("Prose(%q)\nmetric %q\ninch   %q", c.words, m, i)
		}
	}
	if got := Say("%s: %s", Either("a tin", "a can"), Pressure.Of(50_000)).In(InchSystem); got != "a can: 7.3 psi" {
		t.Errorf("%q", got)
	}
}

// What holds no digit and unit behind each other is not searched: no amount is missed by it.
func TestNoAmountIsPassedOver(t *testing.T) {
	for unit := range proseUnits {
		for _, words := range []string{"1 " + unit, "(0.25, 0.35 and 0.70 " + unit + ")", "of 1 to 5 " + unit + ", as a rule", "table 2: 3 " + unit + "."} {
			if !mayHoldAmount(words) || !proseAmount.MatchString(words) {
				t.Errorf("%q: may hold an amount %t, holds one %t", words, mayHoldAmount(words), proseAmount.MatchString(words))
			}
		}
	}
	for _, words := range []string{"", "1", "1 ", "ASTM D2466, table 2", "2 in pipe", "12  mm", "5mm", "DN 50"} {
		if mayHoldAmount(words) || proseAmount.MatchString(words) {
			t.Errorf("%q holds an amount", words)
		}
	}
}
