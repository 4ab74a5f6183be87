package quantity

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// An Error says why a text is not the quantity that is wanted.
type Error struct {
	Text    string // as written
	Offset  int    // bytes into Text where the trouble starts
	Message string // what is wrong, with what was written
	Hint    string // what would be right; may be ""

	Meant []string // the quantities it may have been meant to be, as they are written; nil where nobody can tell
}

// Error returns the message, and the hint after it.
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + "; " + e.Hint
}

// fitHint names the units that fit, with an example.
func fitHint(want []Dimension) string {
	if len(want) == 0 {
		return `write a number and a unit, such as "450 mm"`
	}
	hint := fmt.Sprintf("units that fit: %s (such as %q)", strings.Join(fitting(want), ", "), want[0].Example())
	if slices.Contains(want, Section) {
		hint += `; or a gauge of wire, "10 AWG"`
	}
	return hint
}

// wantWords says what is wanted: "a pressure or a head of water".
func wantWords(want []Dimension) string {
	words := make([]string, len(want))
	for i, d := range want {
		words[i] = dimensionWords[d].a
	}
	return strings.Join(words, " or ")
}

// quoted is the text as a message shows it: quoted, and cut where it is overlong.
func quoted(text string) string {
	if len(text) > longestText {
		text = strings.ToValidUTF8(text[:longestText/2], "") + "…"
	}
	return strconv.Quote(text)
}
