package takeoff

import (
	"cmp"
	"fmt"
)

// Place is where one of an item goes, in the words of the layout: "at v1.in", "in leg 1 of return-line".
type Place struct {
	At  string
	Nth int // of several that differ by nothing else, from 1; 0 of what stands alone
}

// String tells the place from others like it: "in leg 1 of return-line, no. 2".
func (p Place) String() string {
	if p.Nth > 0 {
		return fmt.Sprintf("%s, no. %d", p.At, p.Nth)
	}
	return p.At
}

func (p Place) compare(o Place) int {
	return cmp.Or(cmp.Compare(p.At, o.At), cmp.Compare(p.Nth, o.Nth))
}

// places are places that stand alone.
func places(at ...string) []Place {
	out := make([]Place, len(at))
	for i, words := range at {
		out[i].At = words
	}
	return out
}

// Apart words places one by one.
func Apart(where []Place) []string {
	out := make([]string, len(where))
	for i, p := range where {
		out[i] = p.String()
	}
	return out
}

// Counted takes places that differ by their number alone together, with how many they are: for whoever
// fits them they are alike.
func Counted(where []Place) []string {
	many := map[string]int{}
	for _, p := range where {
		if p.Nth > 0 {
			many[p.At]++
		}
	}
	var out []string
	for _, p := range where {
		switch n := many[p.At]; {
		case p.Nth == 0 || n == 1:
			out = append(out, p.At)
		case n > 1:
			out = append(out, fmt.Sprintf("%d %s", n, p.At))
			many[p.At] = 0
		}
	}
	return out
}
