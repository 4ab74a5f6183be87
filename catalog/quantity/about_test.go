package quantity

import "testing"

// A rule of thumb is said in round numbers of the units asked for; a length never comes out
// shorter than it was. 1 in is 25.4 mm, 1 °F 5/9 K, 1 gal 3.785411784 l: NIST SP 811 (2008),
// appendix B. So 2 m are 78.74 in, 1.5 m 59.06 in, 19 mm 0.748 in, 32 mm 1.26 in.
func TestAbout(t *testing.T) {
	for _, c := range []struct {
		form         string
		args         []any
		metric, inch string
	}{
		{"%s from the rim", []any{Length.About(2000)}, "2 m from the rim", "6 ft 7 in from the rim"},
		{"%s", []any{Length.About(1500)}, "1.5 m", "5 ft"},
		{"%s", []any{Length.About(5 * 304.8)}, "1.5 m", "5 ft"},
		{"%s to %s above", []any{Length.About(100), Length.About(150)}, "100 to 150 mm above", "4 to 6 in above"},
		{"%s to %s behind", []any{Length.About(300), Length.About(500)}, "300 to 500 mm behind", "1 ft to 1 ft 8 in behind"},
		{"%s to %s", []any{Length.About(457), Length.About(762)}, "457 to 762 mm", "1 ft 6 in to 2 ft 6 in"},
		{"%s, or %s to %s", []any{Length.About(19), Length.About(25), Length.About(32)}, "19 mm, or 25 to 32 mm", "3/4 in, or 1 to 1-1/4 in"},
		{"%s to %s", []any{TemperatureDifference.About(2), TemperatureDifference.About(3)}, "2 to 3 K", "3.5 to 5.5 °F"},
		{"%s", []any{Pressure.About(4958)}, "5 kPa", "0.7 psi"},
		{"%s", []any{Pressure.About(13790)}, "10 kPa", "2 psi"},
		{"%s", []any{Pressure.About(440)}, "0.4 kPa", "0.06 psi"},
		{"%s", []any{Flow.About(1.44 / 3600)}, "1 m3/h", "6 gpm"},
		{"±%s", []any{TemperatureDifference.About(0.3)}, "±0.3 K", "±0.5 °F"},
		{"%s and above", []any{Temperature.About(15)}, "15 °C and above", "59 °F and above"},
		{"below %s", []any{Temperature.About(0)}, "below 0 °C", "below 32 °F"},
		{"%s to %s", []any{Volume.About(0.005), Volume.About(0.015)}, "5 to 15 l", "1.5 to 4 gal"},
		{"%s", []any{Energy.About(6.24)}, "6.2 kWh", "6.2 kWh"},
		{"%s", []any{Long(2890)}, "2.89 m", "9.5 ft"},
	} {
		text := Say(c.form, c.args...)
		if got := text.In(MetricSystem); got != c.metric {
			t.Errorf("metric %q, want %q", got, c.metric)
		}
		if got := text.In(InchSystem); got != c.inch {
			t.Errorf("inch %q, want %q", got, c.inch)
		}
	}
}
