package isometric

import (
	"strings"
	"testing"

	"dryfit/render/scene"
)

// Old pipe that goes on for many bends is drawn no farther than the work needs: a sign says that it goes
// on, and where to; no sheet shows old pipe alone.
func TestOldPipeIsBrokenOff(t *testing.T) {
	legs := `"right 180 mm", "up 350 mm", "left 1500 mm"`
	plain := Draw(changedPool(t, legs, legs))
	many := strings.Repeat(`, "left 160 mm", "up 120 mm", "left 160 mm", "down 120 mm"`, 8)
	pages := Draw(changedPool(t, legs, legs+many))
	if len(pages) != len(plain) {
		t.Errorf("%d sheets, without the bends %d", len(pages), len(plain))
	}
	goesOn := false
	for k, s := range pages {
		ringed := false
		for _, it := range s.Items {
			if text, ok := it.(scene.Text); ok {
				ringed = ringed || text.Name == "label:piece"
				goesOn = goesOn || strings.HasPrefix(text.Name, "label:stub") && strings.HasPrefix(text.Text, "to FD1")
			}
		}
		if !ringed {
			t.Errorf("sheet %d shows no new pipe", k+1)
		}
	}
	if !goesOn {
		t.Error("nothing says where the old pipe goes on to")
	}
}
