package book

import (
	"bytes"
	"html"
	"strings"

	"dryfit/catalog/quantity"
)

// noBreak is the space at which no line ends (U+00A0).
const noBreak = "\u00a0"

// AmountsKept puts a space at which no line ends into every amount that a page shows: a number and
// its unit are read together on the narrowest screen. Drawings, styles and scripts, and what stands
// in tags, stay as they are.
func AmountsKept(page []byte) []byte {
	var out bytes.Buffer
	for len(page) > 0 {
		n := bytes.IndexByte(page, '<')
		if n < 0 {
			n = len(page)
		}
		out.WriteString(amountsIn(string(page[:n])))
		page = page[n:]
		n = asItIs(page)
		out.Write(page[:n])
		page = page[n:]
	}
	return out.Bytes()
}

// asItIs is how much of a page that begins with a tag is not text: the tag, and what stands in a
// drawing, a style and a script.
func asItIs(page []byte) int {
	for _, name := range []string{"svg", "style", "script"} {
		if bytes.HasPrefix(page, []byte("<"+name)) {
			end := []byte("</" + name + ">")
			if n := bytes.Index(page, end); n >= 0 {
				return n + len(end)
			}
		}
	}
	if n := bytes.IndexByte(page, '>'); n >= 0 {
		return n + 1
	}
	return len(page)
}

// amountsIn keeps the amounts of a text in a page together.
func amountsIn(text string) string {
	parts := strings.Split(text, " ")
	words := make([]string, len(parts))
	for i, p := range parts {
		words[i] = html.UnescapeString(p)
	}
	var out strings.Builder
	for i, p := range parts {
		switch {
		case quantity.Kept(words, i):
			out.WriteString(noBreak)
		case i > 0:
			out.WriteString(" ")
		}
		out.WriteString(p)
	}
	return out.String()
}
