package field

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// Direction reads one of the six directions.
func (r *Reader) Direction(v located.Value) graph.Vec {
	s, ok := r.Text(v, `a direction: "left", "right", "up", "down", "back" or "front"`)
	if !ok {
		return graph.Vec{}
	}
	way, ok := graph.Directions()[s]
	if !ok {
		r.Fail(v, nearDirection(s), "there is no direction %s", located.Said(s))
	}
	return way
}

// DirectionWords are the directions of a person facing the open cabinet.
var DirectionWords = []string{"left", "right", "up", "down", "back", "front"}

// nearDirection is the hint for a word that is no direction: the one it begins, or that it begins with ("r",
// "upwards"), else the nearest by its letters.
func nearDirection(word string) string {
	word = strings.ToLower(word)
	if strings.HasPrefix(word, "forw") {
		return `write "front" for towards the person who faces the open cabinet, "back" for towards the tub`
	}
	for _, way := range DirectionWords { // no two begin with the same letter
		if word != "" && (strings.HasPrefix(way, word) || strings.HasPrefix(word, way)) {
			return "did you mean " + located.Said(way) + "?"
		}
	}
	return located.Near(word, DirectionWords)
}

// Components reads "right 300 mm up 180 mm": each axis at most once.
func (r *Reader) Components(v located.Value, text string, l Limit) (graph.Vec, bool) {
	const example = `"right 450 mm"`
	if r.tooLong(v, text) {
		return graph.Vec{}, false
	}
	words := splitWords(text)
	if len(words) == 0 {
		r.Fail(v, "write a direction and a length, such as "+example, "%s holds an empty text", located.Said(v.Key))
		return graph.Vec{}, false
	}
	if r.badlySpaced(v, text, words) {
		return graph.Vec{}, false
	}
	var by graph.Vec
	fine := true
	for i := 0; i < len(words); {
		w := words[i]
		if !slices.Contains(DirectionWords, w.text) {
			d := r.Fail(v, nearDirection(w.text), "there is no direction %s", located.Said(w.text))
			if strings.ContainsAny(w.text, "0123456789") {
				d.Message, d.Hint = graph.Say("the direction comes before the length: %s", located.Said(text)), graph.Say("write it like %s", example)
			}
			r.Shift(d, v, w.at)
			return by, false
		}
		j := i + 1
		for j < len(words) && !slices.Contains(DirectionWords, words[j].text) && !startsDirection(words, i, j) {
			j++
		}
		if j == i+1 {
			d := r.Fail(v, "write a length after the direction, such as "+example, "how far %s?", w.text)
			r.Shift(d, v, w.at)
			return by, false
		}
		last := words[j-1]
		q, ok := r.parse(v, text[words[i+1].at:last.at+len(last.text)], words[i+1].at, l)
		fine = fine && ok
		way := graph.Directions()[w.text]
		if ok && by.Dot(way) != 0 {
			d := r.Fail(v, "take both together: one length along each axis", "%s goes along one axis twice", located.Said(text))
			r.Shift(d, v, w.at)
			fine = false
		}
		by = by.Add(way.Scale(q.Value))
		i = j
	}
	return by, fine
}

// badlySpaced tells of a space that no key types, and of two legs in one text.
func (r *Reader) badlySpaced(v located.Value, text string, words []word) bool {
	if at, name, plain := quantity.OtherSpace(text); at >= 0 {
		d := r.Fail(v, "write "+located.Said(plain)+", with the space of the keyboard", "%s has a space that no key types, %s", located.Said(text), name)
		r.Shift(d, v, at)
		return true
	}
	for i := 1; i < len(words); i++ {
		before := words[i-1]
		joined := before.text == "and" || before.text == "then" || strings.TrimRight(before.text, ",;") != before.text
		if !joined || !slices.Contains(DirectionWords, words[i].text) {
			continue
		}
		first := strings.TrimRight(text[:before.at+len(before.text)], ",; ")
		first = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(first, " and"), " then"))
		rest := text[words[i].at:]
		d := r.Fail(v, "two legs are two texts: "+located.Said(first)+", "+located.Said(rest)+"; of one slanting pipe nothing stands between them",
			"%s joins one leg to another", located.Said(text))
		r.Shift(d, v, before.at)
		return true
	}
	return false
}

// startsDirection reports whether a word is most likely a mistyped direction: letters only,
// after a number and a unit.
func startsDirection(words []word, i, j int) bool {
	if j < i+3 || strings.ContainsAny(words[j].text, "0123456789") || len(words[j].text) < 2 {
		return false
	}
	for _, u := range quantity.Units() {
		if u.Symbol == words[j].text {
			return false
		}
	}
	_, ok := quantity.Nearest(words[j].text, DirectionWords)
	return ok
}

type word struct {
	text string
	at   int // bytes into the text
}

func splitWords(text string) []word {
	var out []word
	for i := 0; i < len(text); {
		if text[i] == ' ' || text[i] == '\t' {
			i++
			continue
		}
		j := i
		for j < len(text) && text[j] != ' ' && text[j] != '\t' {
			j++
		}
		out = append(out, word{text[i:j], i})
		i = j
	}
	return out
}
