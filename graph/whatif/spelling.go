package whatif

import (
	"regexp"
	"strings"
)

// decimalComma is a number with one, at the beginning of a value. With three digits behind it it
// may part thousands: that is left to the reader to refuse.
var decimalComma = regexp.MustCompile(`^([+-]?\d+),(\d{1,2}|\d{4,})($|[^\d,])`)

// spellings are the ways to take what was typed for the value at a path, the first that reads
// holds: as it is, without what only a file wants, with a point for a decimal comma, and as true or
// false for yes and no.
func spellings(typed string, path []any) []string {
	out := []string{typed}
	add := func(s string) {
		if s = strings.TrimSpace(s); s != "" && s != out[len(out)-1] {
			out = append(out, s)
		}
	}
	add(plain(typed, path))
	add(decimalComma.ReplaceAllString(out[len(out)-1], "$1.$2$3"))
	switch strings.ToLower(out[len(out)-1]) {
	case "yes":
		add("true")
	case "no":
		add("false")
	}
	return out
}

// plain is what was typed without the key before it, the brackets around it and its quotes.
func plain(typed string, path []any) string {
	if key, ok := path[len(path)-1].(string); ok {
		if before, value, found := strings.Cut(typed, "="); found && strings.TrimSpace(before) == key {
			typed = strings.TrimSpace(value)
		}
	}
	if inner, ok := strings.CutPrefix(typed, "["); ok && strings.HasSuffix(inner, "]") {
		typed = inner[:len(inner)-1]
	}
	if inner, ok := quoted(typed); ok || !strings.Contains(typed, `"`) {
		return inner
	}
	items := strings.Split(typed, ",")
	for i := range items {
		items[i], _ = quoted(strings.TrimSpace(items[i]))
	}
	return strings.Join(items, ", ")
}

// quoted takes the quotes off one value in them; what is none stays.
func quoted(s string) (string, bool) {
	if strings.Count(s, `"`) == 2 && s[0] == '"' && s[len(s)-1] == '"' {
		return s[1 : len(s)-1], true
	}
	return s, false
}
