package pack

import (
	"fmt"

	"dryfit/render/book"
	"dryfit/render/photo"
)

// PhotoFile names the file of the i-th photo, from 0.
func PhotoFile(i int) string { return fmt.Sprintf("photo-%d.jpg", i+1) }

// photos shows what was taken on site.
func photos(all []photo.Photo) book.Chapter {
	c := book.Chapter{ID: "photos", Title: "Photos", For: book.Fitter | book.Electrician, NewPage: true}
	if len(all) == 0 {
		return c
	}
	c.Say("Taken on site, and made smaller for these papers. They measure nothing: the drawings do.")
	for i, one := range all {
		c.Add(book.Item{Kind: book.Photo, Text: fmt.Sprintf("Photo %d: %s", i+1, one.Name), File: PhotoFile(i), Photo: one})
	}
	return c
}
