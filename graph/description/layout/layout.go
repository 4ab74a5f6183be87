// Package layout writes a description in the layout of the house: a key at the left, one space
// round its "=", a comment behind it at a column of its own, a blank line before each table,
// what goes on over lines set in. Values, comments and their order stay as they are. Carry puts the
// comments of one text at the same keys of another.
package layout

import (
	"bytes"
	"errors"
	"reflect"
	"strings"

	"github.com/BurntSushi/toml"
)

// commentColumn is where a comment behind a value begins, counted from 0, where there is room.
const commentColumn = 29

// setIn is how far what goes on over lines is set in for each bracket that is open.
const setIn = "  "

// Format returns the text in the layout of the house; the same text where it has it already. Lines
// end as most of them did, with LF or CRLF; inside a text of several lines each as it did.
// The text must be TOML. Nothing is lost: what results holds the same values and the same
// comments, or there is an error.
func Format(text []byte) ([]byte, error) {
	body, marked := bytes.CutPrefix(text, []byte("\ufeff"))
	var was, is map[string]any
	if err := toml.Unmarshal(body, &was); err != nil {
		return nil, err
	}
	lines := split(string(body))
	end := "\n"
	if 2*bytes.Count(body, []byte("\r\n")) > bytes.Count(body, []byte("\n")) {
		end = "\r\n"
	}
	out := []byte(joined(lines, end))
	if err := toml.Unmarshal(out, &is); err != nil || !reflect.DeepEqual(was, is) || !reflect.DeepEqual(comments(lines), comments(split(string(out)))) {
		return nil, errors.New("its layout can't be changed without changing what it says")
	}
	if marked {
		out = append([]byte("\ufeff"), out...)
	}
	return out, nil
}

// line is one line of the file.
type line struct {
	raw     string // whole, where it is inside a text of several lines
	code    string // what is said, without space at its ends
	comment string // from "#" on
	depth   int    // brackets that are open where it begins, less those it closes first
	open    int    // brackets that are open where it begins
	inside  bool   // it begins, or goes on, inside a text of several lines
	opens   bool   // it ends inside one
	end     string // LF or CRLF
}

func comments(lines []line) []string {
	var out []string
	for _, l := range lines {
		if l.comment != "" {
			out = append(out, l.comment)
		}
	}
	return out
}

// split reads the lines with what stands open at each.
func split(text string) []line {
	var out []line
	fence := "" // what ends the text of several lines that is open
	depth := 0
	for raw := range strings.SplitSeq(strings.TrimRight(text, "\r\n"), "\n") {
		l := line{inside: fence != "", end: "\n"}
		if less, crlf := strings.CutSuffix(raw, "\r"); crlf {
			raw, l.end = less, "\r\n"
		}
		l.raw = raw
		end := len(raw)
		first := true // nothing but closing brackets so far
		l.depth, l.open = depth, depth
		for i := 0; i < len(raw); {
			switch rest := raw[i:]; {
			case fence != "":
				if fence == `"""` && rest[0] == '\\' {
					i += 2
					continue
				}
				if strings.HasPrefix(rest, fence) {
					i += 3
					for i < len(raw) && raw[i] == fence[0] { // quotes that belong to the text
						i++
					}
					fence = ""
					continue
				}
				i++
			case strings.HasPrefix(rest, `"""`), strings.HasPrefix(rest, "'''"):
				fence, first = rest[:3], false
				i += 3
			case rest[0] == '"' || rest[0] == '\'':
				i, first = quoted(raw, i), false
			case rest[0] == '#':
				end, l.comment = i, strings.TrimRight(rest, " \t")
				i = len(raw)
			case rest[0] == '[' || rest[0] == '{':
				depth++
				first = false
				i++
			case rest[0] == ']' || rest[0] == '}':
				depth--
				if first {
					l.depth = depth
				}
				i++
			default:
				first = first && (rest[0] == ' ' || rest[0] == '\t' || rest[0] == ',')
				i++
			}
		}
		l.opens = fence != ""
		l.code = strings.TrimSpace(raw[:end])
		out = append(out, l)
	}
	return out
}

// quoted returns where the text of one line ends that begins at i.
func quoted(s string, i int) int {
	q := s[i]
	for i++; i < len(s); i++ {
		switch {
		case s[i] == '\\' && q == '"':
			i++
		case s[i] == q:
			return i + 1
		}
	}
	return len(s)
}

// joined writes the lines in the layout of the house; those that end outside a text of several
// lines with an end.
func joined(lines []line, end string) string {
	var b strings.Builder
	blank, began := 0, false
	for i, l := range lines {
		if !l.opens {
			l.end = end
		}
		if l.inside { // of a text of several lines nothing is touched
			b.WriteString(l.raw + l.end)
			blank, began = 0, true
			continue
		}
		if l.code == "" && l.comment == "" {
			blank++
			continue
		}
		if began && (blank > 0 || headerFollows(lines, i)) {
			b.WriteString(end)
		}
		blank, began = 0, true
		b.WriteString(l.written() + l.end)
	}
	return b.String()
}

// headerFollows reports whether the head of a table begins here: its name, or the comment
// that stands right above it.
func headerFollows(lines []line, i int) bool {
	if i > 0 && lines[i-1].code == "" && lines[i-1].comment != "" && !lines[i-1].inside {
		return false // it began above
	}
	for ; i < len(lines); i++ {
		l := lines[i]
		if l.depth == 0 && strings.HasPrefix(l.code, "[") {
			return true
		}
		if l.code != "" || l.comment == "" || l.inside || l.depth > 0 {
			return false
		}
	}
	return false
}

// written is the line as it stands in the house.
func (l line) written() string {
	in := strings.Repeat(setIn, max(0, l.depth))
	code := l.code
	if l.depth == 0 && !strings.HasPrefix(code, "[") {
		code = spaced(code)
	}
	switch {
	case l.opens:
		return in + strings.TrimLeft(l.raw, " \t")
	case l.comment == "":
		return in + code
	case code == "":
		return in + l.comment
	}
	text := in + code
	if n := commentColumn - len([]rune(text)); n >= 2 {
		return text + strings.Repeat(" ", n) + l.comment
	}
	return text + "  " + l.comment
}

// spaced puts one space round the "=" behind a key.
func spaced(code string) string {
	for i := 0; i < len(code); {
		switch code[i] {
		case '"', '\'':
			i = quoted(code, i)
		case '=':
			return strings.TrimRight(code[:i], " \t") + " = " + strings.TrimLeft(code[i+1:], " \t")
		default:
			i++
		}
	}
	return code
}
