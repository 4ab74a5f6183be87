package book

import (
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
)

// letters says what of the book paper can't show as it was written, and where it can be read; "" where
// there is nothing of the kind.
func (b *Book) letters() string {
	list := b.texts()
	missing, unjoined := scene.Scripts(scene.MissingIn(list...)), scene.UnjoinedIn(list...)
	if len(missing)+len(unjoined) == 0 {
		return ""
	}
	var said []string
	if len(missing) > 0 {
		said = append(said, fmt.Sprintf("Paper has a box for each letter of %s.", quantity.Listed(missing, "and")))
	}
	if len(unjoined) > 0 {
		said = append(said, fmt.Sprintf("What is written in %s stands letter by letter from the left.", quantity.Listed(unjoined, "and")))
	}
	var where []string
	if !b.Bare {
		where = append(where, "index.html")
	}
	if b.File != "" {
		where = append(where, b.File)
	}
	if len(where) > 0 {
		said = append(said, fmt.Sprintf("As it was written it is in %s.", quantity.Listed(where, "and")))
	}
	return strings.Join(said, " ")
}

// texts are all texts of the book.
func (b *Book) texts() []string {
	out := append([]string{b.Job.Name}, append(b.head(), b.Job.Notes...)...)
	for _, c := range b.Chapters {
		out = append(out, c.Title)
		for _, it := range c.Items {
			out = append(append(out, it.Text, it.Block.Title), append(it.Lines, it.Block.Lines...)...)
			if g := it.Block.Grid; g != nil {
				out = append(out, g.Header...)
				for _, row := range g.Rows {
					out = append(out, row...)
				}
			}
			if it.Scene != nil {
				out = append(out, it.Scene.Texts()...)
			}
		}
	}
	return out
}
