package quantity

import (
	"fmt"
	"strings"
)

// otherSpaces are spaces that no key types: a word processor puts them between a number and its unit, and
// in an editor they look like any other.
const otherSpaces = "\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000"

// OtherSpace finds the first space of a text that no key types: where it is, in bytes, what it is called
// (U+00A0), and the text with ordinary ones. at is -1 where there is none.
func OtherSpace(text string) (at int, name, plain string) {
	if at = strings.IndexAny(text, otherSpaces); at < 0 {
		return at, "", text
	}
	plain = strings.Map(func(c rune) rune {
		if strings.ContainsRune(otherSpaces, c) {
			return ' '
		}
		return c
	}, text)
	return at, fmt.Sprintf("U+%04X", firstRune(text[at:])), plain
}

// thousands is the text with its digits together, where spaces or marks stand between thousands; "" where none do.
func (r *reader) thousands() string {
	var b strings.Builder
	_, _, plain := OtherSpace(r.text)
	text := strings.NewReplacer("’", "'").Replace(plain)
	for i := 0; i < len(text); i++ {
		mark := strings.IndexByte(" '_", text[i]) >= 0 && i > 0 && isDigit(text[i-1])
		if mark && i+3 < len(text) && isDigit(text[i+1]) && isDigit(text[i+2]) && isDigit(text[i+3]) && (i+4 == len(text) || !isDigit(text[i+4])) {
			continue
		}
		b.WriteByte(text[i])
	}
	if b.Len() == len(text) {
		return ""
	}
	if _, err := Parse(b.String(), r.want...); err != nil {
		return ""
	}
	return b.String()
}
