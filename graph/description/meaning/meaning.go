// Package meaning says what every key of a description means, in a sentence, and what is taken of
// one that is left open: for the schema that editors read and for whoever shows a key to a person.
package meaning

import (
	_ "embed"
	"strings"
	"sync"
)

// text holds a section "[table]" for each table, and a line "key: meaning" for each key.
//
//go:embed keys.txt
var text string

// openText holds what is taken of keys that are left open, in the same form.
//
//go:embed open.txt
var openText string

// exampleText holds an example of keys, as JSON, in the same form.
//
//go:embed examples.txt
var exampleText string

var (
	all         = sync.OnceValue(func() map[[2]string]string { return parse(text) })
	allExamples = sync.OnceValue(func() map[[2]string]string { return parse(exampleText) })
	allOpen     = sync.OnceValue(func() map[[2]string]string { return parse(openText) })
)

func parse(text string) map[[2]string]string {
	out := map[[2]string]string{}
	section := ""
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "["):
			section = strings.Trim(line, "[]")
		default:
			if key, means, ok := strings.Cut(line, ": "); ok {
				out[[2]string{section, key}] = means
			}
		}
	}
	return out
}

// Of returns what a key of a table means; "" where nobody wrote it down. The section "" holds
// the tables of a description themselves; a kind of part has a section of its own for the keys
// that it has beside those of any part.
func Of(section, key string) string { return all()[[2]string{section, key}] }

// Open returns what is taken of a key that a description leaves open; "" where nobody wrote it
// down. Sections are those of Of.
func Open(section, key string) string { return allOpen()[[2]string{section, key}] }

// Examples returns what a key of a table may say, as JSON; none where nobody wrote it down. Sections
// are those of Of.
func Examples(section, key string) []string {
	if e := allExamples()[[2]string{section, key}]; e != "" {
		return []string{e}
	}
	return nil
}

// ExampleKeys returns each section with its keys of which there is an example, for a test that
// none is left over.
func ExampleKeys() map[string][]string { return sections(allExamples()) }

// Sections returns each section with its keys, for a test that none is left over.
func Sections() map[string][]string { return sections(all()) }

func sections(of map[[2]string]string) map[string][]string {
	out := map[string][]string{}
	for k := range of {
		out[k[0]] = append(out[k[0]], k[1])
	}
	return out
}
