package located

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"dryfit/graph"
)

// What a file may hold at most. A deep or long-winded file costs a TOML decoder
// quadratic time, so these are looked at before anything is decoded.
const (
	MaxBytes    = 1 << 20 // of the file
	MaxNesting  = 32      // arrays and tables within each other
	MaxKeyParts = 16      // of a dotted key
	MaxText     = 1000    // characters of a text
)

// mostFindings ends the list of a file that is wrong all over.
const mostFindings = 500

// precheck looks for what must not reach the decoder, and returns true where there is none.
func (f *File) precheck() bool {
	if len(f.data) > MaxBytes {
		f.Add(graph.Pos{File: f.Name, Line: 1, Column: 1}, "a description holds one tub; split the file",
			"the file is %d bytes long; a description is at most %d", len(f.data), MaxBytes)
		return false
	}
	if f.notText() {
		return false
	}
	f.badBytes()
	if len(f.Found) > 0 {
		return false
	}
	f.depths()
	return len(f.Found) == 0
}

// notText reports a file that is no text at all, or text of 16 bits a character, as some
// editors save it; to name each of its bytes would help nobody.
func (f *File) notText() bool {
	start := graph.Pos{File: f.Name, Line: 1, Column: 1}
	switch {
	case bytes.HasPrefix(f.data, []byte("\xff\xfe")), bytes.HasPrefix(f.data, []byte("\xfe\xff")):
		f.Add(start, "save it again in the editor, with the encoding UTF-8", "the file is UTF-16 text; a description is UTF-8")
	case bytes.Count(f.data[:min(len(f.data), 1024)], []byte{0}) > 3:
		f.Add(start, "name the description; dryfit new writes one to start from", "the file is no text: a picture, a spreadsheet or a program")
	default:
		return false
	}
	return true
}

// badBytes reports invalid UTF-8, control characters and what else is not shown but acted on, the
// first few of them. Of remarks, in which any language may be written, only what turns the
// direction of text is refused: with it a line reads as another.
func (f *File) badBytes() {
	const enough = 10
	returns := false         // one is told
	text, remark := 0, false // where the text in quotes ends; between # and the end of its line
	for i := 0; i < len(f.data) && len(f.Found) < enough; {
		if plain[f.data[i]] { // most of every file
			i++
			continue
		}
		c, n := utf8.DecodeRune(f.data[i:])
		switch {
		case c == '\n' && i >= text:
			remark = false
		case c == '#' && i >= text:
			remark = true
		case (c == '"' || c == '\'') && i >= text && !remark:
			text = skipString(f.data, i)
		}
		switch {
		case c == utf8.RuneError && n == 1:
			f.Add(f.Pos(i), "save the file as UTF-8", "byte 0x%02x is not UTF-8 text", f.data[i])
			for i++; i < len(f.data) && !utf8.RuneStart(f.data[i]); i++ {
			}
			continue
		case c == '\r' && i+1 < len(f.data) && f.data[i+1] == '\n':
		case c == '\r':
			if !returns {
				f.Add(f.Pos(i), "end lines with LF or CR LF: save it again in the editor with the line ends of Windows or Unix", "a carriage return without a line feed")
			}
			returns = true // where one line ends so, all do
		case isControl(c) && c != '\t' && c != '\n':
			f.Add(f.Pos(i), unseen, "control character %s", codePoint(c))
		case graph.Joiner(c) && i < text: // what it stands between is looked at once it is read
		case turnsText(c), graph.Obeyed(c) && !isControl(c) && !remark:
			f.Add(f.Pos(i), unseen, "%s", obeyedWord(c))
		}
		i += n
	}
}

// plain are the bytes that badBytes has nothing to say of wherever they stand: of ASCII, what is shown and
// begins no text or remark.
var plain = func() (is [256]bool) {
	for c := ' '; c < 0x7f; c++ {
		is[c] = c != '"' && c != '\'' && c != '#'
	}
	return is
}()

// unseen is the hint for a character that is not shown.
const unseen = "take it out; it can't be seen in an editor"

// turnsText reports whether the character turns the direction of the text behind it. Source:
// Unicode Standard Annex 9, table of explicit directional formatting characters, from memory.
func turnsText(c rune) bool {
	return c == 0x061c || c == 0x200e || c == 0x200f || c >= 0x202a && c <= 0x202e || c >= 0x2066 && c <= 0x2069
}

// obeyedWord says what a character is that is not shown but acted on.
func obeyedWord(c rune) string {
	switch {
	case turnsText(c):
		return "character " + codePoint(c) + ", which turns the direction of the text behind it: papers would show another"
	case isControl(c):
		return "the control character " + codePoint(c)
	}
	return "character " + codePoint(c) + ", which has no width: names that differ by it look the same on paper"
}

// escapes reports what is not shown but acted on, written as an escape: in a key or a text,
// wherever it stands. Tabs and line ends are fine in texts, and joiners between letters where they
// are prose, which shows when they are read.
func (f *File) escapes(v Value) {
	obeyed := func(s string) (rune, bool) {
		for _, c := range s {
			if graph.Obeyed(c) && c != '\n' && c != '\t' && c != '\r' {
				return c, true
			}
		}
		return 0, false
	}
	switch x := v.V.(type) {
	case string:
		c, ok := obeyed(withoutJoins(x))
		switch {
		case f.Many():
		case graph.Joiner(c):
			f.Fail(v, "take it out, or put it between the two letters of a word that is written with it", "%s holds %s", Said(v.Key), obeyedWord(c))
		case ok:
			f.Fail(v, "take it out", "%s holds %s", Said(v.Key), obeyedWord(c))
		case strings.ContainsFunc(x, graph.Joiner):
			f.joined = append(f.joined, v)
		}
	case map[string]any:
		for _, key := range v.Keys() {
			in, _ := v.In(key)
			if c, ok := obeyed(key); ok && !f.Many() {
				f.Add(f.KeyPos(in), "take it out", "the key %s holds %s", Said(key), obeyedWord(c))
			}
			f.escapes(in)
		}
	case []any, []map[string]any:
		items, _ := v.Items()
		for _, item := range items {
			f.escapes(item)
		}
	}
}

// withoutJoins is a text without the joiners that stand between two letters.
func withoutJoins(s string) string {
	if !strings.ContainsFunc(s, graph.Joiner) {
		return s
	}
	var b strings.Builder
	for i, c := range s {
		if !graph.Joins(s, i) {
			b.WriteRune(c)
		}
	}
	return b.String()
}

// Prose reads a text that is shown and never compared with another: a name of the whole job, a note, a
// reason. Letters in it may be joined or parted by what has no width, as Persian and Hindi write.
func (f *File) Prose(v Value, write string) (string, bool) {
	f.IsProse(v)
	return f.Text(v, write)
}

// IsProse says of a text read elsewhere what Prose says of one it reads.
func (f *File) IsProse(v Value) {
	f.joined = slices.DeleteFunc(f.joined, func(o Value) bool { return v.at != nil && o.at == v.at })
}

// JoinersLeft reports the joiners in texts that nobody read as prose: ids, names and words that are compared
// with others, which look the same without them. It is called once, when all is read.
func (f *File) JoinersLeft() {
	for _, v := range f.joined {
		for _, c := range v.V.(string) {
			if graph.Joiner(c) && !f.Many() {
				f.Fail(v, "take it out; only in texts that are not compared with others, such as notes, may it stand between letters", "%s holds %s", Said(v.Key), obeyedWord(c))
				break
			}
		}
	}
	f.joined = nil
}

// isControl reports whether the character is a control character (C0, DEL, C1).
func isControl(c rune) bool { return c < 0x20 || c >= 0x7f && c < 0xa0 }

func codePoint(c rune) string { return fmt.Sprintf("U+%04X", c) }

// depths scans the text once, past strings and comments, for nesting and dotted keys.
func (f *File) depths() {
	d, depth, dots := f.data, 0, 0
	for i := 0; i < len(d); i++ {
		switch d[i] {
		case '#':
			for i+1 < len(d) && d[i+1] != '\n' {
				i++
			}
		case '"', '\'':
			i = skipString(d, i) - 1
		case '[', '{':
			dots = 0
			if depth++; depth > MaxNesting {
				f.Add(f.Pos(i), "a description nests a handful of levels", "arrays and tables are nested deeper than %d", MaxNesting)
				return
			}
		case ']', '}':
			dots = 0
			depth = max(0, depth-1)
		case '.':
			if dots++; dots >= MaxKeyParts {
				f.Add(f.Pos(i), "keys of a description have one or two parts", "a dotted key has more than %d parts", MaxKeyParts)
				return
			}
		case '=', ',', '\n':
			dots = 0
		}
	}
}

// skipString returns the index after the string that starts at i; where it does not end,
// that of the end of the line or of the text.
func skipString(d []byte, i int) int {
	quote := d[i]
	long := i+2 < len(d) && d[i+1] == quote && d[i+2] == quote
	if long {
		i += 2
	}
	for i++; i < len(d); i++ {
		switch {
		case d[i] == '\\' && quote == '"':
			i++
		case d[i] == '\n' && !long:
			return i
		case d[i] == quote && !long:
			return i + 1
		case d[i] == quote && i+2 < len(d) && d[i+1] == quote && d[i+2] == quote:
			for i += 3; i < len(d) && d[i] == quote; i++ {
			}
			return i
		}
	}
	return len(d)
}
