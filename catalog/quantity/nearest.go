package quantity

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// longestWord is the longest word, in characters, for which a near one is looked for.
const longestWord = 80

// Nearest returns the candidate that the word was most likely meant to be, or false where
// none is plausibly near: about one slip in three letters, or a word up to its hyphen: least,
// least-flow. Capitals don't count. Of equally
// near ones the first wins.
func Nearest(word string, candidates []string) (string, bool) {
	word = strings.ToLower(word)
	n := utf8.RuneCountInString(word)
	if n == 0 || n > longestWord {
		return "", false
	}
	limit := max(1, (n+1)/3)
	best, found := "", limit+1
	for _, c := range candidates {
		if m := utf8.RuneCountInString(c); m-n > limit || n-m > limit {
			continue
		}
		// A word changed in every letter is not near.
		if d := slips(word, strings.ToLower(c)); d < found && d < max(n, utf8.RuneCountInString(c)) {
			best, found = c, d
		}
	}
	if found > 1 { // not just a letter: half of a key, or a key and more
		for _, c := range candidates {
			if low := strings.ToLower(c); strings.HasPrefix(low, word+"-") || strings.HasPrefix(word, low+"-") {
				return c, true
			}
		}
	}
	return best, found <= limit
}

// MostLike returns the n candidates most like the word, the likest first: those that share a part
// of it between hyphens, or a short form of one, then by as many slips as lie between. Any word gets them, however unlike.
func MostLike(word string, candidates []string, n int) []string {
	if utf8.RuneCountInString(word) > longestWord {
		word = string([]rune(word)[:longestWord])
	}
	word = strings.ToLower(word)
	parts := strings.FieldsFunc(word, func(r rune) bool { return r == '-' || r == '_' || r == ' ' })
	far := func(c string) int {
		c = strings.ToLower(c)
		d := slips(word, c)
		for _, own := range strings.Split(c, "-") {
			if slices.ContainsFunc(parts, func(p string) bool { return alike(p, own) }) {
				d -= longestWord
			}
		}
		return d
	}
	type at struct {
		word string
		far  int
	}
	all := make([]at, 0, len(candidates))
	for _, c := range candidates {
		all = append(all, at{c, far(c)})
	}
	slices.SortStableFunc(all, func(a, b at) int { return a.far - b.far })
	out := make([]string, 0, n)
	for _, a := range all[:min(n, len(all))] {
		out = append(out, a.word)
	}
	return out
}

// alike reports whether one word is the other, or a short form of it: tol, tolerance.
func alike(a, b string) bool {
	const least = 3 // letters
	return a == b || len(a) >= least && len(b) >= least && (strings.HasPrefix(a, b) || strings.HasPrefix(b, a))
}

// slips is the optimal string alignment distance: letters added, left out, changed, or
// swapped with the next. Source: Damerau, "A technique for computer detection and
// correction of spelling errors", CACM 7 (1964) 171, from memory.
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	before := make([]int, len(y)+1)
	last := make([]int, len(y)+1)
	row := make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}
