package located

import "testing"

// TestTextThatIsANumber reads numbers in quotes: what is to be written is the number that they say, where it is
// one that may stand there.
func TestTextThatIsANumber(t *testing.T) {
	for text, want := range map[string]string{
		"0.6": "0.6", "0,6": "0.6", "60 %": "0.6", "60%": "0.6", " 1.2 ": "1.2",
		"60": "1.5", "much": "1.5", "": "1.5", "NaN": "1.5",
	} {
		if got := asNumber(Value{V: text}, 0, 2); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
	if got := asNumber(Value{V: "x"}, 0, 1); got != "1" {
		t.Errorf("no more than 1 may be: %s", got)
	}
}
