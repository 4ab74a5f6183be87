package catalog

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"dryfit/catalog/quantity"
)

// Sizes as people write them; made ready only where a name is not known.
var (
	wholeAndPart = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(\d) +(\d+/\d)`) })
	unitAtNumber = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(\d)(mm|in)\b`) })
)

// mostKin is how many rows a name is taken for at most: of more nothing can be said. Judgement.
const mostKin = 3

// kin returns the names of the rows of a kind that a name was most likely meant to be, though it writes a
// size in another way or says more or less than they do ("elbow-90 pvc-sch40 1 1/2 in", "tee pvc-pn10
// 63 mm", "tee 2 in"): the sizes are theirs. Nil where there is none, or more than a few.
func (c *Catalog) kin(kind, name string) []string {
	words := wordsOf(name)
	var less, more, same []string
	for _, i := range c.byKind[kind] {
		row := wordsOf(c.rows[i].Name)
		if !slices.Equal(numbersOf(words), numbersOf(row)) {
			continue
		}
		same = append(same, c.rows[i].Name)
		switch {
		case leftOver(row, words) == 0:
			less = append(less, c.rows[i].Name)
		case leftOver(words, row) == 0:
			more = append(more, c.rows[i].Name)
		}
	}
	for _, found := range [][]string{less, more} {
		if len(found) > 0 && len(found) <= mostKin {
			return found
		}
	}
	if near, ok := quantity.Nearest(name, same); ok {
		return []string{near}
	}
	return nil
}

// wordsOf takes the name of a row apart, its sizes as the catalogue writes them.
func wordsOf(name string) []string {
	name = strings.ReplaceAll(strings.ToLower(name), `"`, " in")
	name = wholeAndPart().ReplaceAllString(name, "$1-$2")
	return strings.Fields(unitAtNumber().ReplaceAllString(name, "$1 $2"))
}

// numbersOf returns those of the words that begin with a digit.
func numbersOf(words []string) (out []string) {
	for _, w := range words {
		if w[0] >= '0' && w[0] <= '9' {
			out = append(out, w)
		}
	}
	return out
}

// leftOver is how many of the words of one name are not in another.
func leftOver(words, of []string) (n int) {
	for _, w := range words {
		if !slices.Contains(of, w) {
			n++
		}
	}
	return n
}
