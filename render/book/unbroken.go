package book

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
)

// unbroken splits a text into what a line may be broken between: its words, a number kept with
// its unit ("4.88 m", "7 ft", "6-7/8 in").
func unbroken(text string) []string {
	words := strings.Fields(text)
	var out []string
	for i, w := range words {
		if i > 0 && endsInDigit(words[i-1]) && isUnit(w) {
			out[len(out)-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(word string) bool {
	last := word[len(word)-1]
	return last >= '0' && last <= '9'
}

// counted are what parts lists count in, which no quantity has.
var counted = []string{"ml", "pc", "tin", "bar", "EUR", "GBP", "USD"}

// isUnit reports whether a word is a unit, whatever mark stands behind it.
func isUnit(word string) bool {
	word = strings.TrimRight(word, ".,;:)*^+")
	if slices.Contains(counted, word) {
		return true
	}
	return quantity.IsSymbol(word)
}
