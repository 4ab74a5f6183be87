package main

import "fmt"

// warnMissing says which letters of the description the drawings cannot show.
func warnMissing(letters []rune, w *world) {
	if len(letters) > 0 {
		fmt.Fprintf(w.stderr, "dryfit: warning: the font of the drawings lacks %q; a box stands for each\n", string(letters))
	}
}
