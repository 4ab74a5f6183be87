package main

import (
	"fmt"

	"dryfit/catalog/quantity"
)

// meant is what is added to an error about a word that is not there: the one it was most
// likely meant to be; "" where none is near.
func meant(word string, there []string) string {
	if near, ok := quantity.Nearest(word, there); ok {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}
