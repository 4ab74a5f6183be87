package book

import (
	"dryfit/graph"
	"dryfit/render/photo"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/table/form"
)

// Reader is whom a chapter is for; several may be or-ed together.
type Reader int

// The readers.
const (
	Fitter Reader = 1 << iota
	Electrician
	Owner
	Everybody = Fitter | Electrician | Owner
)

// Chapter is one part of the book.
type Chapter struct {
	ID, Title string // ID: letters and hyphens, unique
	For       Reader
	NewPage   bool // begins a page of its own on paper
	OnePage   bool // one sheet to hand over, or the first page: set as small as it takes to stay on one page, down to leastPt
	Items     []Item
}

// Kind says what an item is.
type Kind int

// The kinds of items.
const (
	Words   Kind = iota // Text, a paragraph
	Lead                // Text, a paragraph in larger letters
	Heading             // Text, inside a chapter
	Hold                // Text, a point at which the work waits
	Alert               // Text and Lines: what stands in the way
	Bullets             // Lines
	Steps               // Lines, numbered from First, each with a box to tick
	Table               // Block
	Blanks              // Block, whose last column is written into by hand
	Sheet               // Scene, at its true size on a page of its own; File is its SVG
	Picture             // Scene, at its true size among the text, with Text under it
	Photo               // Photo, with Text under it; File is its JPEG
)

// Item is one thing in a chapter.
type Item struct {
	Kind     Kind
	Bookmark string // the bookmark that leads to it: the question it answers; "": none but what headings and sheets have, their Text
	Text     string
	Lines    []string
	First    int
	Block    form.Block
	Scene    *scene.Scene
	Photo    photo.Photo
	File     string
}

// Book is everything that is printed.
type Book struct {
	Kind     string // "job pack", "offer"
	Bare     bool   // no contents: a page or two
	Job      graph.Job
	File     string // of the description, without its folder
	Stamp    string // fingerprint of the description, or ""
	Paper    sheet.Format
	Chapters []Chapter
}

// Add appends items to the chapter.
func (c *Chapter) Add(items ...Item) { c.Items = append(c.Items, items...) }

// Say appends paragraphs.
func (c *Chapter) Say(lines ...string) {
	for _, l := range lines {
		c.Add(Item{Kind: Words, Text: l})
	}
}

// Tables appends blocks.
func (c *Chapter) Tables(blocks ...form.Block) {
	for _, b := range blocks {
		c.Add(Item{Kind: Table, Block: b})
	}
}

// Scenes returns the sheets of drawings, in order.
func (b *Book) Scenes() []*scene.Scene {
	var out []*scene.Scene
	for _, c := range b.Chapters {
		for _, it := range c.Items {
			if it.Kind == Sheet {
				out = append(out, it.Scene)
			}
		}
	}
	return out
}
