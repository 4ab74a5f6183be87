package book

import (
	"fmt"

	"dryfit/render/table"
)

// Text writes the book for a terminal: its words and tables, no drawings.
func (b *Book) Text(s table.Style) []byte {
	head := table.Block{Title: b.Job.Name + ": " + b.Kind, Lines: b.head()}
	blocks := []table.Block{head}
	for _, c := range b.Chapters {
		blocks = append(blocks, table.Block{Title: c.Title})
		for _, it := range c.Items {
			blocks = append(blocks, it.text())
		}
	}
	return table.Text(blocks, s)
}

// text is an item as lines or a table.
func (it *Item) text() table.Block {
	switch it.Kind {
	case Table, Blanks:
		return it.Block
	case Sheet, Picture:
		return table.Block{}
	case Photo:
		return table.Block{Lines: []string{it.Text}}
	case Bullets, Alert:
		b := table.Block{}
		if it.Text != "" {
			b.Lines = append(b.Lines, it.Text)
		}
		for _, l := range it.Lines {
			b.Lines = append(b.Lines, "  - "+l)
		}
		return b
	case Steps:
		b := table.Block{}
		for i, l := range it.Lines {
			b.Lines = append(b.Lines, fmt.Sprintf("  %2d. %s", it.First+i, l))
		}
		return b
	}
	return table.Block{Lines: []string{it.Text}}
}
