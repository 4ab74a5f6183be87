package quantity

import (
	"errors"
	"fmt"
	"testing"
)

// What a text says in either system. The factors are those of NIST SP 811 (25.4 mm,
// 3.785411784 l, 6894.757 Pa, 0.3048 m) and IEC 60534-1 (Cv = 1.156 Kv); the figures are
// worked out by hand.
func TestTextIn(t *testing.T) {
	perHour := 1 / 3600.
	for _, c := range []struct {
		text         Text
		metric, inch string
	}{
		{Say("no %d %q", 3, "a"), `no 3 "a"`, `no 3 "a"`},
		{Say("gets %s", Flow.Of(5.8*perHour)), "gets 5.8 m3/h", "gets 25.5 gpm"},
		{Say("%s long", Length.Of(450)), "450 mm long", "1 ft 5-11/16 in long"},
		{Say("opens at %s, rises %s", Pressure.Of(13789.5), TemperatureDifference.Of(2.5)), "opens at 13.8 kPa, rises 2.5 K", "opens at 2.0 psi, rises 4.5 °F"},
		{Say("at %s", Temperature.Of(38)), "at 38 °C", "at 100.4 °F"},
		{Say("set to %s", Kv.Of(12.4)), "set to Kv 12.4 m3/h", "set to Cv 14.3 gpm"},
		{Say("%s outside", Length.Finely(60.3)), "60.3 mm outside", "2.374 in outside"},
		{Say("misses by %s", Length.Finely(12)), "misses by 12 mm", "misses by 0.472 in"},
		{Say("%s pass it", Flow.Of(0)), "0 m3/h pass it", "0 gpm pass it"},
		{Say("%s of it", Length.Of(0)), "0 mm of it", "0 in of it"},
		{Say("%s", Velocity.Of(1.8288)), "1.83 m/s", "6.0 ft/s"},
		// Told apart where two would look alike; not where they are the same, nor in a list of modes.
		{Say("gets %s; its least is %s", Flow.Of(4.96*perHour), Flow.Of(5*perHour)), "gets 4.96 m3/h; its least is 5.00 m3/h", "gets 21.8 gpm; its least is 22.0 gpm"},
		{Say("gets %s; its least is %s", Flow.Of(5*perHour), Flow.Of(5*perHour)), "gets 5.0 m3/h; its least is 5.0 m3/h", "gets 22.0 gpm; its least is 22.0 gpm"},
		{Say("low: %s; high: %s", Flow.Of(4.96*perHour), Flow.Of(5*perHour)), "low: 5.0 m3/h; high: 5.0 m3/h", "low: 21.8 gpm; high: 22.0 gpm"},
		// A text and an error in a text keep their quantities.
		{Say("so: %s", Say("gets %s", Flow.Of(5.8*perHour))), "so: gets 5.8 m3/h", "so: gets 25.5 gpm"},
		{Say("so: %v", fmt.Errorf("at unit: %w", flowError(5.8*perHour))), "so: at unit: too fast, 5.8 m3/h", "so: at unit: too fast, 25.5 gpm"},
		{OfError(errors.New("plain")), "plain", "plain"},
		{Join([]Text{Say("%s", Length.Of(100)), "b"}, "; "), "100 mm; b", "3-15/16 in; b"},
	} {
		if got := c.text.In(MetricSystem); got != c.metric {
			t.Errorf("metric: %q, want %q", got, c.metric)
		}
		if got := c.text.In(InchSystem); got != c.inch {
			t.Errorf("inch: %q, want %q", got, c.inch)
		}
	}
}

type flowError float64

func (e flowError) Text() Text    { return Say("too fast, %s", Flow.Of(float64(e))) }
func (e flowError) Error() string { return e.Text().String() }

// Whatever stands between the marks, nothing of them is left when a text is printed.
func FuzzTextIn(f *testing.F) {
	f.Add("a", 450.0, 0)
	f.Add("\x01t0,1\x02", -1.5, int(Flow))
	f.Add("\x01\x02\x01", 1e300, int(Kv))
	f.Fuzz(func(t *testing.T, words string, v float64, d int) {
		dim := Dimension(((d % int(dimensions)) + int(dimensions)) % int(dimensions))
		text := Say("%s %s %s", Text(words), dim.Of(v), dim.Finely(v))
		for _, s := range []System{MetricSystem, InchSystem} {
			for _, c := range text.In(s) {
				if c == 1 {
					t.Fatalf("%q holds a mark", text.In(s))
				}
			}
		}
	})
}
