package takeoff

import (
	"fmt"
	"strings"
)

// Counted takes places that differ by their number alone together, with how many they are: for whoever
// fits them they are alike.
func Counted(where []string) []string {
	many := map[string]int{}
	for _, w := range where {
		if of, ok := numbered(w); ok {
			many[of]++
		}
	}
	var out []string
	for _, w := range where {
		of, ok := numbered(w)
		switch {
		case !ok:
			out = append(out, w)
		case many[of] == 1:
			out = append(out, of)
		case many[of] > 1:
			out = append(out, fmt.Sprintf("%d %s", many[of], of))
		}
		if ok {
			many[of] = 0
		}
	}
	return out
}

// numbered is a place without its number, and whether it has one, by which it is told from others like it.
func numbered(where string) (of string, ok bool) {
	at := strings.LastIndex(where, ", no. ")
	if at < 0 {
		return "", false
	}
	nth := where[at+len(", no. "):]
	return where[:at], nth != "" && strings.Trim(nth, "0123456789") == ""
}
