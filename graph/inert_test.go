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

// Joiners between letters, marks on them counted, are part of a word; all else that is not seen is shown by
// its number.
func TestInertKeepsWhatJoinsLetters(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"خانه\u200cها", "خانه\u200cها"},
		{"क\u094d\u200dष", "क\u094d\u200dष"},
		{"a\u200c", `a\x200c`}, {"\u200da", `\x200da`}, {"a\u200c\u200cb", `a\x200c\x200cb`}, {"a\u200c1", `a\x200c1`},
		{"1\u200da", `1\x200da`}, {"a\u200bb", `a\x200bb`}, {"a\u200c\u202eb", `a\x200c\x202eb`}, {"👨\u200d👩", `👨\x200d👩`},
	} {
		if got := Inert(c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}
