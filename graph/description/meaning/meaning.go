// Package meaning says what every key of a description means, in a sentence, and what is taken of
// one that is left open: for the schema that editors read and for whoever shows a key to a person.
package meaning

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

// text holds a head "[table]" for each table, a line "key: meaning" for each key, and what else
// there is of a key indented below it; its head says it in full.
//
//go:embed keys.txt
var text string

// entry is what is written of one key.
type entry struct{ means, example, open string }

// at is a key of a table.
type at struct{ table, key string }

var all = sync.OnceValue(func() map[at]entry {
	entries, err := parse(text)
	if err != nil {
		panic("meaning: " + err.Error())
	}
	return entries
})

// The beginnings of the lines below a key.
const (
	exampleWord = "such as "
	openWord    = "open: "
)

// parse reads the text; an error names the line that is none of the forms its head lists, or says of
// a key what was said.
func parse(text string) (map[at]entry, error) {
	out := map[at]entry{}
	var now at
	n := 0
	for line := range strings.Lines(text) {
		n++
		body := strings.TrimSpace(line)
		e := out[now]
		switch {
		case body == "" || strings.HasPrefix(line, "#"):
			continue
		case strings.HasPrefix(line, "["):
			now = at{table: strings.Trim(body, "[]")}
			continue
		case !strings.HasPrefix(line, " "):
			key, means, ok := strings.Cut(body, ":")
			now.key = key
			if _, twice := out[now]; twice || !ok {
				return nil, fmt.Errorf("line %d: no key with its meaning, or said twice: %s", n, body)
			}
			e = entry{means: strings.TrimSpace(means)}
		case now.key != "" && strings.HasPrefix(body, exampleWord) && e.example == "":
			e.example = strings.TrimPrefix(body, exampleWord)
		case now.key != "" && strings.HasPrefix(body, openWord) && e.open == "":
			e.open = strings.TrimPrefix(body, openWord)
		default:
			return nil, fmt.Errorf("line %d: neither an example nor what is taken, of a key above, or said twice: %s", n, body)
		}
		out[now] = e
	}
	return out, nil
}

// Of returns what a key of a table means; "" where nobody wrote it down. The table "" holds
// the tables of a description themselves; a kind of part has one of its own for the keys
// that it has beside those of any part.
func Of(table, key string) string { return all()[at{table, key}].means }

// Open returns what is taken of a key that a description leaves open; "" where nobody wrote it
// down. Tables are those of Of.
func Open(table, key string) string { return all()[at{table, key}].open }

// Examples returns what a key of a table may say, as JSON; none where nobody wrote it down. Tables
// are those of Of.
func Examples(table, key string) []string {
	if e := all()[at{table, key}].example; e != "" {
		return []string{e}
	}
	return nil
}

// ExampleKeys returns each table with its keys of which there is an example, for a test that
// none is left over.
func ExampleKeys() map[string][]string {
	return tables(func(e entry) bool { return e.example != "" })
}

// Tables returns each table with its keys that have a meaning, for a test that none is left over.
func Tables() map[string][]string {
	return tables(func(e entry) bool { return e.means != "" })
}

func tables(of func(entry) bool) map[string][]string {
	out := map[string][]string{}
	for k, e := range all() {
		if of(e) {
			out[k.table] = append(out[k.table], k.key)
		}
	}
	return out
}
