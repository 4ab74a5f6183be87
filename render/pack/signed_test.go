package pack

import (
	"testing"

	"dryfit/render/book"
	"dryfit/render/table/form"
)

// What is signed stands on one sheet with what it is signed for: the record has its signatures in a chapter set to
// one page, and the list of joints, as long as the job, is none of it.
func TestRecordIsOneSheet(t *testing.T) {
	for _, demo := range []string{"two-speed", "plug-in"} {
		p := demoPlan(t, demo)
		found := map[string]int{}
		for _, c := range bookOf(p, form.Style{}, Options{}, nil).Chapters {
			for _, it := range c.Items {
				if it.Kind != book.Blanks || it.Block.Grid == nil {
					continue
				}
				for _, row := range it.Block.Grid.Rows {
					if c.ID == "record" && row[0] == "Owner's signature" && c.OnePage {
						found["signature"]++
					}
					if row[0] == "J1" {
						found["joint in "+c.ID]++
					}
				}
			}
		}
		if found["signature"] != 1 || found["joint in joints"] != 1 || found["joint in record"] != 0 {
			t.Errorf("%s: %v", demo, found)
		}
	}
}
