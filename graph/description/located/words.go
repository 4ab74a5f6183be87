package located

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Said quotes what the user wrote, shortened where it goes on and on.
func Said(text string) string {
	const enough = 60
	if c := []rune(text); len(c) > enough {
		text = string(c[:enough]) + "…"
	}
	return strconv.Quote(text)
}

// Inert returns text in which nothing is left that a terminal would act on.
func Inert(text string) string { return graph.Inert(text) }

// Near returns the hint "did you mean …" for a mistyped word, else a list of the words
// there are.
func Near(word string, words []string) string {
	held := holding(word, words)
	if len(held) > 1 { // it may be any of them: the nearest by its letters is a guess
		return "did you mean " + quantity.Listed(held, "or") + "?"
	}
	if n, ok := quantity.Nearest(word, words); ok {
		return fmt.Sprintf("did you mean %s?%s", Said(n), lookalike(word, n))
	}
	if len(held) == 1 {
		return "did you mean " + held[0] + "?"
	}
	if n, ok := heldBy(word, words); ok {
		return fmt.Sprintf("did you mean %s?", Said(n))
	}
	return ThereAre(words)
}

// heldBy returns the one of the words that a longer text holds as a word of its own, or begins with:
// "sand filter", "backwards"; false where there is none, or more than one.
func heldBy(text string, words []string) (string, bool) {
	const least = 4 // letters, to tell anything
	text = strings.ToLower(text)
	own := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '-' || r == '_' })
	found := ""
	for _, w := range words {
		if len(w) < least || !strings.HasPrefix(text, w) && !slices.Contains(own, w) {
			continue
		}
		if found != "" {
			return "", false
		}
		found = w
	}
	return found, found != ""
}

// holding returns, quoted, the words that a shorter one stands in; none where it is too short to
// tell anything, or stands in too many.
func holding(word string, words []string) []string {
	const least, most = 3, 5
	var out []string
	if len(word) < least {
		return nil
	}
	for _, w := range words {
		if strings.Contains(w, strings.ToLower(word)) {
			out = append(out, Said(w))
		}
	}
	if len(out) > most {
		return nil
	}
	return out
}

// NearAmong is Near for lists that may be long: a file that is wrong all over gets no hints
// after the first few hundred.
func (f *File) NearAmong(word string, words func() []string) string {
	if f.Many() {
		return ""
	}
	return Near(word, words())
}

// ThereAre lists words.
func ThereAre(words []string) string {
	const enough = 60
	switch n := len(words); {
	case n == 0:
		return ""
	case n > enough:
		return fmt.Sprintf("there are %s and %d more", strings.Join(words[:enough], ", "), n-enough)
	case n == 1:
		return "there is only " + words[0]
	}
	return "there are " + strings.Join(words, ", ")
}
