package quantity

import (
	"slices"
	"strconv"
	"strings"
)

// Unbroken splits a text into what a line may be broken between: its words, an amount kept whole
// ("4.88 m", "7 ft 6-7/8 in").
func Unbroken(text string) []string {
	words := strings.Fields(text)
	var out []string
	for i, w := range words {
		if Kept(words, i) {
			out[len(out)-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// Kept reports whether no line may end before the i-th word: it is the unit of the number before
// it, the number behind ±, the inches behind feet, or belongs to a cell that is a range and no more ("2.84 to 5.38",
// "906 of 1021").
func Kept(words []string, i int) bool {
	switch {
	case i > 0 && len(words) == 3 && (words[1] == "to" || words[1] == "of"):
		return isNumber(words[0]) && isNumber(words[2])
	case i > 0 && endsInDigit(words[i-1]) && isUnit(words[i]), i > 0 && strings.HasSuffix(words[i-1], "±"):
		return true
	case i > 1 && words[i-1] == "ft" && endsInDigit(words[i-2]) && endsInDigit(words[i]):
		return i+1 < len(words) && strings.HasPrefix(words[i+1], "in") && isUnit(words[i+1])
	}
	return false
}

func isNumber(word string) bool {
	_, err := strconv.ParseFloat(word, 64)
	return err == nil
}

func endsInDigit(word string) bool {
	if word == "" {
		return false
	}
	last := word[len(word)-1]
	return last >= '0' && last <= '9'
}

// counted are what parts lists count in, which no quantity has.
var counted = []string{"ml", "pc", "tin", "bar", "EUR", "GBP", "USD"}

// isUnit reports whether a word is a unit, whatever mark stands behind it.
func isUnit(word string) bool {
	word = strings.TrimRight(word, ".,;:)*^+'\"")
	if slices.Contains(counted, word) {
		return true
	}
	return IsSymbol(word)
}
