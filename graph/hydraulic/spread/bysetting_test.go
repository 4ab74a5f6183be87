package spread

import "testing"

// What only the setting of a valve by its reading settles is left to that, where it comes to its
// reading in every sample; in one that it does not, its loss may be why, and it is told.
func TestBySetting(t *testing.T) {
	kv := Influence{What: "the Kv of bypass", Part: "bypass", Effect: 0.2}
	drop := Influence{What: "the drop of filter", Part: "filter", Effect: 0.1}
	set := &Set{Setting: Setting{Valve: "bypass"}, Of: 100}
	for _, c := range []struct {
		what string
		r    Ranges
		f    Influence
		want bool
	}{
		{"the valve that is set", Ranges{Set: set}, kv, true},
		{"another part", Ranges{Set: set}, drop, false},
		{"no valve is set", Ranges{}, kv, false},
		{"shut it leaves too little in one sample", Ranges{Set: &Set{Setting: set.Setting, Of: 100, Shut: 1}}, kv, false},
		{"nothing was solved", Ranges{Set: &Set{Setting: set.Setting}}, kv, false},
	} {
		if got := c.r.BySetting(c.f); got != c.want {
			t.Errorf("%s: %v", c.what, got)
		}
	}
}
