package graph

import "strings"

// A returns a word of the trade with its article: "a tee", "an air bleed", "a union".
func A[T ~string](word T) string {
	if word != "" && strings.ContainsRune("aeio", rune(word[0]|' ')) {
		return "an " + string(word)
	}
	return "a " + string(word)
}
