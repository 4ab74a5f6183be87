package ladder

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// number is a number in a text, token what a mutation changes: a number, a quoted text, a word.
var (
	number = regexp.MustCompile(`\d+(\.\d+)?`)
	token  = regexp.MustCompile(`"[^"\n]*"|\d+(\.\d+)?|[a-z][a-z-]+`)
)

// directions are what a leg may begin with.
var directions = []string{"left", "right", "up", "down", "front", "back"}

// Mutate returns a description with some of its tokens changed: a number made larger, smaller
// or nought, a direction turned, a text or word put for another of the same file, a line left
// out or doubled. The same seed changes the same.
func Mutate(description []byte, seed uint64, changes int) []byte {
	rng := rand.New(rand.NewPCG(seed, 9))
	lines := strings.Split(string(description), "\n")
	for range changes {
		i := rng.IntN(len(lines))
		for tries := 0; tries < 40 && (strings.TrimSpace(lines[i]) == "" || strings.HasPrefix(lines[i], "#")); tries++ {
			i = rng.IntN(len(lines))
		}
		switch rng.IntN(16) {
		case 0:
			lines = slices.Delete(lines, i, i+1)
		case 1:
			lines = slices.Insert(lines, i, lines[i])
		default:
			was := lines[i]
			for tries := 0; tries < 40 && lines[i] == was; tries++ {
				i = rng.IntN(len(lines))
				was = lines[i]
				lines[i] = change(was, lines, rng)
			}
		}
		if len(lines) == 0 {
			break
		}
	}
	return []byte(strings.Join(lines, "\n"))
}

// change changes one token of a line.
func change(line string, lines []string, rng *rand.Rand) string {
	at := token.FindAllStringIndex(line, -1)
	if rng.IntN(6) > 0 { // a number, where there is one: most other changes make no circuit
		at = slices.DeleteFunc(at, func(a []int) bool { return !number.MatchString(line[a[0]:a[1]]) })
	}
	if len(at) == 0 {
		return line
	}
	a := at[rng.IntN(len(at))]
	was := line[a[0]:a[1]]
	now := was
	switch {
	case number.MatchString(was):
		n := number.FindAllStringIndex(was, -1)
		k := n[rng.IntN(len(n))]
		v, _ := strconv.ParseFloat(was[k[0]:k[1]], 64)
		to := []float64{0, v * 0.1, v * 0.5, v * 0.9, v * 1.1, v * 2, v * 10, v + 1}[rng.IntN(8)]
		now = was[:k[0]] + strconv.FormatFloat(to, 'g', 6, 64) + was[k[1]:]
		for _, d := range directions {
			if rng.IntN(3) == 0 && strings.Contains(now, d) {
				now = strings.Replace(now, d, directions[rng.IntN(len(directions))], 1)
			}
		}
	default:
		other := token.FindAllString(lines[rng.IntN(len(lines))], -1)
		if len(other) > 0 {
			now = other[rng.IntN(len(other))]
		}
	}
	return line[:a[0]] + now + line[a[1]:]
}
