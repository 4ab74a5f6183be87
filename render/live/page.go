package live

import (
	"bytes"
	_ "embed" // the page's frame, styles and script
	"html/template"

	"dryfit/render/book"
)

//go:embed page.html.tmpl
var frame string

//go:embed live.css
var ownStyle string

//go:embed live.js
var script string

// Style is the page's style sheet: the pack's, and what a live page has beside it.
func Style() []byte { return []byte(book.Style() + ownStyle) }

// Script is the page's script.
func Script() []byte { return []byte(script) }

// Policy is the content security policy the page is served under: its own script and styles,
// nothing in line, nothing from outside.
const Policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// Frame is the page without its sections, which the script fetches.
type Frame struct {
	Title  string
	Writes bool // values may be put into the file from here
}

// HTML writes the frame.
func (f Frame) HTML() ([]byte, error) {
	t, err := template.New("frame").Parse(frame)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = t.Execute(&out, f)
	return book.Inert(out.Bytes()), err
}
