package book

import (
	"bytes"
	"html"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
)

// noBreak is the space at which no line ends (U+00A0).
const noBreak = "\u00a0"

// unbroken splits a text into what a line may be broken between: its words, an amount kept whole
// ("4.88 m", "7 ft 6-7/8 in").
func unbroken(text string) []string {
	words := strings.Fields(text)
	var out []string
	for i, w := range words {
		if kept(words, i) {
			out[len(out)-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// kept reports whether no line may end before the i-th word: it is the unit of the number before
// it, the number behind ±, the inches behind feet, or belongs to a cell that is a range and no more ("2.84 to 5.38",
// "906 of 1021").
func kept(words []string, i int) bool {
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
	return quantity.IsSymbol(word)
}

// AmountsKept puts a space at which no line ends into every amount that a page shows: a number and
// its unit are read together on the narrowest screen. Drawings, styles and scripts, and what stands
// in tags, stay as they are.
func AmountsKept(page []byte) []byte {
	var out bytes.Buffer
	for len(page) > 0 {
		n := bytes.IndexByte(page, '<')
		if n < 0 {
			n = len(page)
		}
		out.WriteString(amountsIn(string(page[:n])))
		page = page[n:]
		n = asItIs(page)
		out.Write(page[:n])
		page = page[n:]
	}
	return out.Bytes()
}

// asItIs is how much of a page that begins with a tag is not text: the tag, and what stands in a
// drawing, a style and a script.
func asItIs(page []byte) int {
	for _, name := range []string{"svg", "style", "script"} {
		if bytes.HasPrefix(page, []byte("<"+name)) {
			end := []byte("</" + name + ">")
			if n := bytes.Index(page, end); n >= 0 {
				return n + len(end)
			}
		}
	}
	if n := bytes.IndexByte(page, '>'); n >= 0 {
		return n + 1
	}
	return len(page)
}

// amountsIn keeps the amounts of a text in a page together.
func amountsIn(text string) string {
	parts := strings.Split(text, " ")
	words := make([]string, len(parts))
	for i, p := range parts {
		words[i] = html.UnescapeString(p)
	}
	var out strings.Builder
	for i, p := range parts {
		switch {
		case kept(words, i):
			out.WriteString(noBreak)
		case i > 0:
			out.WriteString(" ")
		}
		out.WriteString(p)
	}
	return out.String()
}
