package takeoff

import (
	"fmt"
	"regexp"
)

// numbered is a place that is told from others like it by a number alone.
var numbered = regexp.MustCompile(`^(.*), no\. \d+$`)

// Counted takes places that differ by their number alone together, with how many they are: for whoever
// fits them they are alike.
func Counted(where []string) []string {
	many := map[string]int{}
	for _, w := range where {
		if m := numbered.FindStringSubmatch(w); m != nil {
			many[m[1]]++
		}
	}
	var out []string
	for _, w := range where {
		m := numbered.FindStringSubmatch(w)
		switch {
		case m == nil:
			out = append(out, w)
		case many[m[1]] == 1:
			out = append(out, m[1])
		case many[m[1]] > 1:
			out = append(out, fmt.Sprintf("%d %s", many[m[1]], m[1]))
		}
		if m != nil {
			many[m[1]] = 0
		}
	}
	return out
}
