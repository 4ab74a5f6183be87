package tag

import (
	"regexp"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// form is a pattern by which ids are found in texts. It is compiled once a text has the word it can't be
// without: most have none, and a command that prints no paper reads none at all.
type form struct {
	needs    string
	compiled func() *regexp.Regexp
}

func newForm(needs, expr string) *form {
	return &form{needs: needs, compiled: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })}
}

// find returns the first that a text has of the form, or nothing.
func (f *form) find(text string) string {
	if !strings.Contains(text, f.needs) {
		return ""
	}
	return f.compiled().FindString(text)
}

// replace puts what named says in the place of everything in a text that has the form, of which it gets
// the whole and the groups.
func (f *form) replace(text string, named func(m []string) string) string {
	if !strings.Contains(text, f.needs) {
		return text
	}
	re := f.compiled()
	return re.ReplaceAllStringFunc(text, func(s string) string { return named(re.FindStringSubmatch(s)) })
}

// id are the characters of an id in a pattern: letters of any script with their marks. In quotes
// an id is whatever stands there, so that one of several words is found.
const id = `\p{L}\p{M}\p{N}_`

// ofID is id for a letter by itself.
func ofID(r rune) bool {
	return r == '_' || unicode.In(r, unicode.L, unicode.M, unicode.N)
}

// eachWord puts what named says in the place of every word of a text that could be an id, or a port
// behind one: characters of ids, with stops, dashes and arrows between them.
func eachWord(text string, named func(w string) string) string {
	var out strings.Builder
	for text != "" {
		from := strings.IndexFunc(text, ofID)
		if from < 0 {
			break
		}
		last, end := 0, from
		for i, r := range text[from:] {
			if ofID(r) {
				last, end = i, from+i+utf8.RuneLen(r)
			} else if !strings.ContainsRune(".>-", r) {
				break
			}
		}
		out.WriteString(text[:from])
		w := text[from:end]
		if last > 0 { // a single character is no id of a part or run on papers
			w = named(w)
		}
		out.WriteString(w)
		text = text[end:]
	}
	out.WriteString(text)
	return out.String()
}
