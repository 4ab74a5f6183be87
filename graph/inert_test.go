package graph

import (
	"testing"
	"unicode"
)

// What is acted on is what Unicode's tables say, of every character there is: those of ASCII are told
// without them.
func TestObeyedIsWhatTheTablesSay(t *testing.T) {
	for c := range unicode.MaxRune + 1 {
		if want := unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp); Obeyed(c) != want {
			t.Fatalf("%U is obeyed: %t, by the tables %t", c, !want, want)
		}
	}
}
