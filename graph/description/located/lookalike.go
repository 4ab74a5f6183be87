package located

import (
	"fmt"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Look is what a name looks like, whether its accents are in their letters or characters of their own: names
// that look the same have the same. Source: Unicode Standard Annex 15, form C.
func Look(name string) string { return norm.NFC.String(name) }

// scripts are those whose letters pass for one another.
var scripts = []*unicode.RangeTable{unicode.Latin, unicode.Cyrillic, unicode.Greek}

// lookalike says what two words differ by that look the same in an editor: a letter of another script, or an
// accent that is a character of its own in one of them; "" where they look different.
func lookalike(a, b string) string {
	x, y := []rune(a), []rune(b)
	k := 0
	for k < len(x) && k < len(y) && x[k] == y[k] {
		k++
	}
	if k == len(x) || k == len(y) {
		return ""
	}
	accent := func(word []rune) bool { return k+1 < len(word) && unicode.Is(unicode.Mn, word[k+1]) }
	ours, theirs := script(x[k]), script(y[k])
	if (ours == theirs || ours < 0 || theirs < 0) && accent(x) == accent(y) {
		return ""
	}
	point := func(word []rune) string {
		if accent(word) {
			return fmt.Sprintf("U+%04X U+%04X", word[k], word[k+1])
		}
		return fmt.Sprintf("U+%04X", word[k])
	}
	return fmt.Sprintf(" it looks the same: its character %d is %s, here %s", k+1, point(y), point(x))
}

// script is which of the scripts a letter is of; -1: of none.
func script(c rune) int {
	for i, s := range scripts {
		if unicode.Is(s, c) {
			return i
		}
	}
	return -1
}
