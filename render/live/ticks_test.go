package live

import "testing"

// Words on a scale do not run into each other nor over its ends: the earlier moves aside, and what has no room is
// left out.
func TestWordsOnAScaleStandApart(t *testing.T) {
	for _, c := range []struct {
		name string
		at   []float64
		want int
	}{
		{"wide apart", []float64{60, 160, 260}, 3},
		{"least near rated", []float64{128, 181, 300}, 3},
		{"least at rated", []float64{128, 132, 300}, 2},
		{"at the left end", []float64{8, 40, 300}, 2},
		{"all at the right end", []float64{308, 310, 312}, 1},
	} {
		ticks := []tick{{at: c.at[0], text: "least 12.0"}, {at: c.at[1], text: "rated 17.0"}, {at: c.at[2], text: "most 30.0"}}
		got := placed(ticks, 6, 314)
		if len(got) != c.want {
			t.Errorf("%s: %d words placed, want %d", c.name, len(got), c.want)
		}
		for i, k := range got {
			if k.from < 6 || k.from+k.wide() > 314.001 || k.at < k.from || k.at > k.from+k.wide() {
				t.Errorf("%s: %q from %g to %g, its tick at %g", c.name, k.text, k.from, k.from+k.wide(), k.at)
			}
			if i > 0 && k.from < got[i-1].from+got[i-1].wide() {
				t.Errorf("%s: %q runs into %q", c.name, got[i-1].text, k.text)
			}
		}
	}
}
