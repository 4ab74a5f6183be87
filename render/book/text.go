package book

import (
	"fmt"

	"dryfit/render/table/form"
)

// Text writes the book for a terminal: its words and tables, no drawings.
func (b *Book) Text(s form.Style) []byte {
	head := form.Block{Title: b.Job.Name + ": " + b.Kind, Lines: b.head()}
	blocks := []form.Block{head}
	for _, c := range b.Chapters {
		blocks = append(blocks, form.Block{Title: c.Title})
		for _, it := range c.Items {
			blocks = append(blocks, it.text())
		}
	}
	return form.Text(blocks, s)
}

// text is an item as lines or a table.
func (it *Item) text() form.Block {
	switch it.Kind {
	case Table, Blanks:
		return it.Block
	case Sheet, Picture:
		return form.Block{}
	case Photo:
		return form.Block{Lines: []string{it.Text}}
	case Bullets, Alert:
		b := form.Block{}
		if it.Text != "" {
			b.Lines = append(b.Lines, it.Text)
		}
		for _, l := range it.Lines {
			b.Lines = append(b.Lines, "  - "+l)
		}
		return b
	case Steps:
		b := form.Block{}
		for i, l := range it.Lines {
			b.Lines = append(b.Lines, fmt.Sprintf("  %2d. %s", it.First+i, l))
		}
		return b
	}
	return form.Block{Lines: []string{it.Text}}
}
