package catalog

import "dryfit/catalog/quantity"

// NearestWord returns the candidate that a word was most likely meant to be, or false where
// none is plausibly near.
func NearestWord(word string, candidates []string) (string, bool) {
	return quantity.Nearest(word, candidates)
}
