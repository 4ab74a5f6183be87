package located

import "testing"

// Two names that look the same in an editor are told apart by what they are written with.
func TestNearThatLooksTheSame(t *testing.T) {
	for _, c := range []struct{ word, other, want string }{
		{"filtr\u00e9", "filtre\u0301", "did you mean \"filtre\u0301\"? it looks the same: its character 6 is U+0065 U+0301, here U+00E9"},
		{"element", "\u0435lement", "did you mean \"\u0435lement\"? it looks the same: its character 1 is U+0435, here U+0065"},
		{"fliter", "filter", `did you mean "filter"?`},
		{"filter2", "filter", `did you mean "filter"?`},
		{"filt\u00e9r", "filter", `did you mean "filter"?`},
	} {
		got := Near(c.word, []string{"pump", c.other})
		if got != c.want {
			t.Errorf("%q of %q: %q, want %q", c.word, c.other, got, c.want)
		}
	}
}
