package located

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// stumble says how a slip lies to the place at which the decoder stumbles: at another place the same characters
// are text in quotes, or an item of a list over several lines.
type stumble int

const (
	anywhere stumble = iota
	here             // the form begins there
	atEnd            // the same, where a value has ended and its line should
	behind           // it stumbles behind the key, the first thing in brackets
	within           // it stumbles in the key
)

// slips are the ways in which a line is typed that is nearly TOML, each with what would be right; the first
// that fits the line is told.
var slips = []struct {
	form  *regexp.Regexp
	hint  string // %s is the first thing in brackets that was found, %s again the second
	where stumble
}{
	{regexp.MustCompile(`^[;,]\s*(?:#.*)?$`), "a value ends with its line: leave out what stands behind it", atEnd},
	{regexp.MustCompile(`^[;,]?\s*([A-Za-z][\w-]*)\s*=`), "each key begins a line of its own: %s = …", atEnd},
	{regexp.MustCompile(`^(?://|--|/\*)\s*(.*?)\s*$`), "a remark begins with #: # %s", here},
	{regexp.MustCompile(`^;\s*([^"'\s].*?)\s*$`), "a remark begins with #: # %s", here},
	{regexp.MustCompile(`^\s*(?://|--|;|/\*|!|%)\s*(.*?)\s*$`), "a remark begins with #: # %s", anywhere},
	{regexp.MustCompile(`^\s*'\s*([^']*?)\s*$`), "a remark begins with #: # %s", anywhere},
	{regexp.MustCompile(`^\s*\[\[\s*([\w.-]+)\s*\]?\s*(?:#.*)?$`), "the name of a table that there may be several of stands in two brackets: [[%s]]", anywhere},
	{regexp.MustCompile(`^\s*\[\s*([\w.-]+)\s*\]\]\s*(?:#.*)?$`), "the name of a table that there may be several of stands in two brackets: [[%s]]", anywhere},
	{regexp.MustCompile(`^\s*[\w.-]+\s*=\s*["']?(\d{1,2})[./-]\d{1,2}[./-](?:\d{4}|\d{2})\b`), "a date is written 2026-04-18, without quotes: year, month, day", anywhere},
	{regexp.MustCompile(`^\s*([\w.-]+)\s*(?:==|:=|=>|:)\s*([^=\s].*?)\s*$`), "between a key and its value stands one = alone: %s = %s", behind},
	{regexp.MustCompile(`^\s*([a-z]+(?:[ _][a-z]+)+)\s*=`), "a key is one word, with hyphens in it: %s = …", within},
	{regexp.MustCompile(`^\s*([\w.-]+)\s*(["'\[{].*?|\d.*?)\s*$`), "between a key and its value stands =: %s = %s", behind},
}

// Several are the tables of a description that there may be more than one of.
func Several() []string {
	return []string{"part", "run", "mode", "stock", "accept", "reading", "shell", "supply"}
}

var twoBrackets = regexp.MustCompile(`^\s*\[\[\s*([\w-]+)\s*\]\]\s*(?:#.*)?$`)

var oneBracket = regexp.MustCompile(`^\s*\[\s*([\w-]+)\s*\]\s*(?:#.*)?$`)

// slipOf returns what would be right in place of a line that the decoder says something of, which it stumbles
// over at a byte of it; "" where it has none of the forms.
func slipOf(line string, at int, message string) string {
	if name := twoBrackets.FindStringSubmatch(line); name != nil && strings.Contains(message, "already") && slices.Contains(Several(), name[1]) {
		return fmt.Sprintf("an earlier one stands in one bracket: write [[%s]] there too", name[1])
	}
	if strings.Contains(message, "already been defined") || strings.Contains(message, "already exists") {
		if name := oneBracket.FindStringSubmatch(line); name != nil && slices.Contains(Several(), name[1]) {
			return fmt.Sprintf("each begins with its own [[%s]], in two brackets: here, and wherever else it stands in one", name[1])
		}
		return "" // the line can be read
	}
	for _, s := range slips {
		found := s.where.find(s.form, line, at, message)
		if found == nil {
			continue
		}
		words := make([]any, strings.Count(s.hint, "%s"))
		for i := range words {
			words[i] = short(found[i+1])
		}
		if s.where == within { // the key itself is to be mended
			words[0] = strings.NewReplacer(" ", "-", "_", "-").Replace(found[1])
		}
		return Inert(fmt.Sprintf(s.hint, words...))
	}
	return ""
}

// find returns what a form finds in a line, where that lies as it must to the byte the decoder stumbles over.
func (w stumble) find(form *regexp.Regexp, line string, at int, message string) []string {
	from := 0
	if w == here || w == atEnd && strings.Contains(message, "top-level item to end") {
		from = at
	} else if w == atEnd {
		return nil
	}
	found := form.FindStringSubmatchIndex(line[from:])
	if found == nil || w == behind && at < found[3] || w == within && at > found[3] {
		return nil
	}
	return form.FindStringSubmatch(line[from:])
}

// short returns what was typed, cut where it goes on and on.
func short(text string) string {
	const enough = 60 // characters
	if c := []rune(text); len(c) > enough {
		return string(c[:enough]) + "…"
	}
	return text
}

// dashes are characters that editors and phones put in the place of the keyboard's hyphen.
const dashes = "‐‑‒–—−"

// untyped is what stands in place of a character no key types that a line has where it can't be read: a hyphen
// for a dash, a space for one of another width, a digit or letter for its wide form; "" where there is none.
func untyped(rest string) string {
	c, n := utf8.DecodeRuneInString(rest)
	plain := norm.NFKC.String(rest[:n])
	switch {
	case n < 2:
		return ""
	case strings.ContainsRune(dashes, c):
		plain = "-"
	case unicode.IsSpace(c):
		plain = " "
	case plain == string(c) || len(plain) != 1:
		return ""
	}
	return fmt.Sprintf("U+%04X stands here for %q: type it anew on the keyboard, here and wherever else it was pasted", c, plain)
}
