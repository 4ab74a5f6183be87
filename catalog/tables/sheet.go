package tables

import (
	"dryfit/catalog"
	"dryfit/catalog/data"
)

// sizeIn reads a size of one of the program's own sheets.
func sizeIn(s data.Sheet, text string) catalog.Size {
	size, err := catalog.ParseSize(text, false)
	if err != nil {
		panic("catalog: " + s.Name + ": " + err.Error())
	}
	return size
}
