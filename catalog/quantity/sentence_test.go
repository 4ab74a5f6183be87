package quantity

import "testing"

// A sentence begins with a large letter in any alphabet that has them; what begins with something else,
// and what is no text, stays byte for byte. Checked by hand against the alphabets.
func TestCapital(t *testing.T) {
	for small, large := range map[string]string{
		"": "", "the unit": "The unit", "öl": "Öl", "étage 2": "Étage 2", "насос": "Насос", "ǆep": "ǅep", "i": "I",
		`"unit-2" gets`: `"unit-2" gets`, "2.9 m3/h": "2.9 m3/h", "پمپ": "پمپ", "\xff": "\xff", "a\u0301": "A\u0301",
	} {
		if got := Capital(small); got != large {
			t.Errorf("%q: %q, want %q", small, got, large)
		}
		if got := Small(large); got != small {
			t.Errorf("small: %q: %q, want %q", large, got, small)
		}
	}
	amount := Say("%s of pipe", Length.Of(20))
	if got := Capital(amount).In(MetricSystem); got != "20 mm of pipe" {
		t.Errorf("an amount at the head: %q", got)
	}
}
