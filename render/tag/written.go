package tag

import (
	"strings"
	"unicode/utf8"
)

// aroundWritten names the ids in a text but in what it says is to be written into the description, a key with
// its value: in `write feeds = ["unit"] on "pump"` the pump alone.
func aroundWritten(text string, named func(string) string) string {
	var out strings.Builder
	for {
		at := strings.Index(text, equals)
		if at < 0 {
			break
		}
		key := strings.LastIndexFunc(text[:at], func(r rune) bool { return !ofKey(r) })
		if key >= 0 {
			_, size := utf8.DecodeRuneInString(text[key:])
			key += size
		}
		key = max(key, 0)
		value := at + len(equals)
		end := value + valueLen(text[value:])
		out.WriteString(named(text[:key]))
		out.WriteString(text[key:end])
		text = text[end:]
	}
	if text != "" {
		out.WriteString(named(text))
	}
	return out.String()
}

// equals stands between a key and its value.
const equals = " = "

func ofKey(r rune) bool { return ofID(r) || r == '-' || r == '.' }

// valueLen is how many bytes of a text are the value it begins with: a text in quotes, a list or table to the
// bracket that shuts it, else what has no space.
func valueLen(text string) int {
	depth, quoted := 0, false
	for i, r := range text {
		switch {
		case r == '"':
			if quoted = !quoted; !quoted && depth == 0 {
				return i + 1
			}
		case quoted:
		case r == '[' || r == '{':
			depth++
		case r == ']' || r == '}':
			if depth--; depth <= 0 {
				return i + 1
			}
		case depth == 0 && !ofKey(r):
			return i
		}
	}
	return len(text)
}
