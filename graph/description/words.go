package description

import "slices"

// oneOf reports whether the word is among the words.
func oneOf(word string, words []string) bool { return slices.Contains(words, word) }
