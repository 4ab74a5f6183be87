package located

import (
	"bytes"
	"errors"
	"regexp"
	"strings"

	"github.com/BurntSushi/toml"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Decode turns the text into values, each with where it stands; false where it is no TOML.
func (f *File) Decode() (Value, bool) {
	if !f.precheck() {
		return Value{}, false
	}
	var top map[string]any
	if _, err := toml.Decode(string(f.data), &top); err != nil {
		var pe toml.ParseError
		if errors.As(err, &pe) {
			f.syntax(pe.Position.Start, pe.Message)
		} else {
			f.Add(graph.Pos{File: f.Name, Line: 1, Column: 1}, "", "%s", err.Error())
		}
		return Value{}, false
	}
	root, offset, message := entriesOf(f.data)
	if root == nil {
		f.syntax(offset, message)
		return Value{}, false
	}
	out := Value{V: top, at: root}
	if bytes.ContainsRune(f.data, '\\') || bytes.ContainsFunc(f.data, graph.Joiner) {
		f.escapes(out)
		if len(f.Found) > 0 { // what follows from a name nobody sees is no finding of its own
			return Value{}, false
		}
	}
	return out, true
}

const usualHint = "put text and quantities in quotes, one key = value to a line"

// syntax reports that the text is no TOML from some place on.
func (f *File) syntax(offset int, message string) {
	message = strings.TrimSuffix(strings.TrimSpace(message), ".")
	hint := usualHint
	if line, _, _ := bytes.Cut(f.data[min(max(offset, 0), len(f.data)):], []byte("\n")); bytes.ContainsAny(line, "“”„‘’") {
		hint = `use straight quotes: length = "450 mm"`
	}
	if yesOrNo.MatchString(message) {
		hint = "write true or false, in small letters and without quotes"
	}
	if odd := untyped(string(f.data[min(max(f.meant(offset, message), 0), len(f.data)):])); odd != "" {
		hint = odd
	}
	line, at := f.lineAt(f.meant(offset, message))
	if slip := slipOf(line, at, message); slip != "" && hint == usualHint {
		hint = slip
	}
	for _, h := range syntaxHints {
		if hint == usualHint && strings.Contains(message, h.sign) {
			hint = h.hint
			break
		}
	}
	d := f.Add(f.Pos(f.meant(offset, message)), hint, "this can't be read: %s", plainMessage(message))
	if first, ok := f.definedAt(offset, message); ok {
		Related(d, f.Pos(first), "it is written here first")
	}
}

// lineAt returns the line the offset stands in, or before whose end, without what ends it; and where in it.
func (f *File) lineAt(offset int) (line string, at int) {
	offset = min(max(offset, 0), len(f.data))
	start := bytes.LastIndexByte(f.data[:offset], '\n') + 1
	text, _, _ := bytes.Cut(f.data[start:], []byte("\n"))
	text = bytes.TrimSuffix(text, []byte("\r"))
	return string(text), min(offset-start, len(text))
}

// definedAt returns where a key stands that the decoder finds for a second time at the offset; false for
// another message, and where what comes before can't be read by itself: within a table in braces over
// several lines.
func (f *File) definedAt(offset int, message string) (first int, ok bool) {
	_, name, _ := strings.Cut(message, "'")
	name, rest, ok := strings.Cut(name, "'")
	if !ok || !strings.Contains(rest, "already been defined") || offset < 0 || offset > len(f.data) {
		return 0, false
	}
	line := bytes.LastIndexByte(f.data[:offset], '\n') + 1
	at, _, _ := entriesOf(f.data[:line])
	if at == nil {
		return 0, false
	}
	for _, key := range strings.Split(name, ".") {
		if at = at.last().keys[key]; at == nil {
			return 0, false
		}
	}
	return at.key, true
}

// meant moves the decoder's offset to the character its message names, which it misses by a
// few bytes after characters that take more than one.
func (f *File) meant(offset int, message string) int {
	_, name, ok := strings.Cut(message, "but got '")
	name, _, closed := strings.Cut(name, "'")
	if !ok || !closed || name == "" || offset < 0 || offset > len(f.data) {
		return offset
	}
	line, _, _ := bytes.Cut(f.data[offset:], []byte("\n"))
	if at := bytes.Index(line[:min(len(line), 4)], []byte(name)); at > 0 {
		return offset + at
	}
	return offset
}

// yesOrNo is what the decoder says of a value that is yes or no by another word.
var yesOrNo = regexp.MustCompile(`expected value but found "(?i:yes|no|y|n|on|off|true|false)"`)

// syntaxHints say what most likely is wrong, by a sign in the decoder's message.
var syntaxHints = []struct{ sign, hint string }{
	{"already been defined", "a key stands once in its table; where there are several of a thing each begins with its own [[part]] or [[run]]"},
	{"already exists", "a key stands once in its table; where there are several of a thing each begins with its own [[part]] or [[run]]"},
	{"already created", "a table stands once; where there are several of a thing each begins with its own [[part]] or [[run]]"},
	{"strings cannot contain newlines", `end the text with " on the same line`},
	{"unexpected EOF", `something is not closed: a " or a ] or a }`},
	{"unexpected end", `something is not closed: a " or a ] or a }`},
	{"expected value but found", `put text and quantities in quotes: length = "450 mm"`},
	{"expected a top-level item to end", `put text and quantities in quotes: length = "450 mm"`},
	{"to end table name", "close the name of the table in the same line: [water], [[part]]"},
	{"bare keys cannot contain", `put a key with such a character in quotes`},
	{"expected a comma", "put a comma between the values of a list, and ] after the last"},
	{"invalid escape", `write / between folders; a backslash is written twice`},
	{"hexadecimal digits", `write / between folders; a backslash is written twice`},
	{"expected key separator '='", "a line is key = value, or a table's name in brackets"},
	{"out of range for", "a number has at most 18 digits"},
	{"leading zeroes", "a number has no 0 before its first digit, unless it is the only one before the point"},
	{"invalid datetime", `a date is written 2026-04-18, without quotes; a time of day is text: "20:00"`},
	{"expected '.' or '='", "a line is key = value, or a table's name in brackets"},
}

// plainMessage returns the decoder's message without a capital, and the commonest one in
// words that aren't a parser's.
func plainMessage(s string) string {
	if _, got, ok := strings.Cut(s, "expected a top-level item to end with a newline, comment, or EOF, but got "); ok {
		return Inert("the line should end here, but goes on with " + strings.TrimSuffix(got, " instead"))
	}
	if number, _, ok := strings.Cut(s, " is out of range for "); ok {
		return Inert("the number " + number + " is too large")
	}
	if len(s) > 1 && s[0] >= 'A' && s[0] <= 'Z' && s[1] >= 'a' && s[1] <= 'z' {
		s = quantity.Small(s)
	}
	return Inert(s)
}
