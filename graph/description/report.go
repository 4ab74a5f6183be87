package description

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// The voice of this package's messages: what is there and what is wrong with it, without a
// capital or a full stop; the hint says what to write instead.

const ruleName = "reading"

// add reports an error.
func (r *reader) add(pos graph.Pos, hint, format string, args ...any) *graph.Diagnostic {
	r.found = append(r.found, graph.Diagnostic{
		Pos: pos, Rule: ruleName, Severity: graph.Error,
		Message: fmt.Sprintf(format, args...), Hint: hint,
	})
	return &r.found[len(r.found)-1]
}

// fail reports an error at a value.
func (r *reader) fail(v value, hint, format string, args ...any) *graph.Diagnostic {
	return r.add(r.valuePos(v), hint, format, args...)
}

// related points at the other half of the last error.
func related(d *graph.Diagnostic, pos graph.Pos, format string, args ...any) {
	d.Related = append(d.Related, graph.Related{Pos: pos, Message: fmt.Sprintf(format, args...)})
}

// findings returns what was found, sorted, and cut short where a file is wrong all over.
func (r *reader) findings() []graph.Diagnostic {
	ds := graph.SortDiagnostics(r.found)
	if more := len(ds) - mostFindings; more > 0 {
		ds = ds[:mostFindings]
		last := ds[mostFindings-1].Pos
		ds = append(ds, graph.Diagnostic{Pos: last, Rule: ruleName, Severity: graph.Error,
			Message: fmt.Sprintf("and %d more errors below", more), Hint: "mend the first ones first"})
	}
	return ds
}

// said quotes what the user wrote, shortened where it goes on and on.
func said(text string) string {
	const enough = 60
	if c := []rune(text); len(c) > enough {
		text = string(c[:enough]) + "…"
	}
	return strconv.Quote(text)
}

// inert returns text in which nothing is left that a terminal would act on.
func inert(text string) string {
	return strings.Map(func(c rune) rune {
		if isControl(c) {
			return '�'
		}
		return c
	}, text)
}

// longestWord is the longest word for which a near one is looked for.
const longestWord = 64

// near returns the hint "did you mean …" for a mistyped word, else a list of the words
// there are.
func near(word string, words []string) string {
	if n, ok := nearest(word, words); ok {
		return fmt.Sprintf("did you mean %s?", said(n))
	}
	return thereAre(words)
}

// nearAmong is near for lists that may be long: a file that is wrong all over gets no hints
// after the first few hundred.
func (r *reader) nearAmong(word string, words func() []string) string {
	if len(r.found) > mostFindings {
		return ""
	}
	return near(word, words())
}

// nearest returns the word a mistyped one was most likely meant to be.
func nearest(word string, words []string) (string, bool) {
	if len(word) > longestWord {
		return "", false
	}
	return catalog.NearestWord(word, words)
}

// thereAre lists words.
func thereAre(words []string) string {
	const enough = 60
	switch n := len(words); {
	case n == 0:
		return ""
	case n > enough:
		return fmt.Sprintf("there are %s and %d more", strings.Join(words[:enough], ", "), n-enough)
	case n == 1:
		return "there is only " + words[0]
	}
	return "there are " + strings.Join(words, ", ")
}

// oneOf reports whether the word is among the words.
func oneOf(word string, words []string) bool { return slices.Contains(words, word) }

// note remembers where a value stands, for a look after everything has been read.
func (r *reader) note(of any, key string, v value) {
	if r.spots[of] == nil {
		r.spots[of] = spots{}
	}
	r.spots[of][key] = v
}

// idPos returns where the id of a part or run stands; fallback where it was not written.
func (r *reader) idPos(of any, fallback graph.Pos) graph.Pos {
	if v, ok := r.spots[of]["id"]; ok {
		return r.valuePos(v)
	}
	return fallback
}
