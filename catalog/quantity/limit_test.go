package quantity

import (
	"testing"
)

// A limit that was given with two decimals is told with them, and what lies close to it with as many; what
// is no limit, comes out even, or would need more figures than anybody wrote stays as usual. Flows in m³/s.
func TestLimitAsGiven(t *testing.T) {
	const h = 1. / 3600
	for _, c := range []struct {
		text         Text
		metric, inch string
	}{
		{Say("least %s", Flow.Limit(1.05*h)), "least 1.05 m3/h", "least 4.6 gpm"},
		{Say("least %s", Flow.Of(1.05*h)), "least 1.1 m3/h", "least 4.6 gpm"},
		{Say("gets %s; its least is %s", Flow.Of(1.0604*h), Flow.Limit(1.05*h)), "gets 1.06 m3/h; its least is 1.05 m3/h", "gets 4.7 gpm; its least is 4.6 gpm"},
		{Say("gets %s; its least is %s", Flow.Of(0.893*h), Flow.Limit(1.05*h)), "gets 0.89 m3/h; its least is 1.05 m3/h", "gets 3.9 gpm; its least is 4.6 gpm"},
		{Say("gets %s; its most is %s", Flow.Of(9.31*h), Flow.Limit(6.25*h)), "gets 9.3 m3/h; its most is 6.25 m3/h", "gets 41.0 gpm; its most is 27.5 gpm"},
		{Say("least %s", Flow.Limit(2.8*h)), "least 2.8 m3/h", "least 12.3 gpm"},
		{Say("least %s", Flow.Limit(9.75*0.003785411784/60)), "least 2.2 m3/h", "least 9.75 gpm"},
		{Say("least %s, and no more", Flow.Limit(0)), "least 0 m3/h, and no more", "least 0 gpm, and no more"},
	} {
		if got := c.text.In(MetricSystem); got != c.metric {
			t.Errorf("%q, want %q", got, c.metric)
		}
		if got := c.text.In(InchSystem); got != c.inch {
			t.Errorf("%q, want %q", got, c.inch)
		}
	}
	if got := Flow.Limit(1.05 * h).String(); got != "1.05 m3/h" {
		t.Error(got)
	}
}
