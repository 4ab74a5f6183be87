package drawing

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// Where the unit stands below the water its unions say what is shut before they are opened, and so
// does a check below it that nothing shuts off; above the water nothing runs out. How each demo
// stands is in its file: the unit of two-speed 430 mm below the skimmer, its check between two
// tees with no valve beside it; that of plunge-pool above the water. Of plug-in nobody says it.
func TestTagsOfWhatEmptiesTheTub(t *testing.T) {
	for _, c := range []struct {
		demo string
		want map[string]string // by tag; "": no such row
	}{
		{"two-speed", map[string]string{"U1": "V1+V2 SHUT", "U2": "V1+V2 SHUT", "CV1": "EMPTY THE TUB", "V1": "", "D1": ""}},
		{"plug-in", map[string]string{"U1": "V1+V2 SHUT", "U2": "V1+V2 SHUT"}},
		{"plunge-pool", map[string]string{"U1": "", "U2": "", "CV1": "", "CV2": ""}},
	} {
		p := demos(t)[c.demo]
		names := tag.Of(p.Circuit, p.Net())
		said := map[string]string{}
		for id, rows := range warnings(p, names) {
			if i := slices.IndexFunc(rows, func(s sticker.Setting) bool { return s.Mode == "to open it" }); i >= 0 {
				said[names.Tag(id)] = rows[i].Position
			}
		}
		for part, want := range c.want {
			if said[part] != want {
				t.Errorf("%s: before %s is opened its tag says %q, want %q", c.demo, part, said[part], want)
			}
		}
		for _, l := range sticker.OfValves(p.After.Circuit, names, p.After.Solutions, nil, nil, warnings(p, names)) {
			if l.Head == "union" && c.want[l.Big] == "" {
				t.Errorf("%s: %s has a label that says nothing", c.demo, l.Big)
			}
		}
	}
}

// A length that finds no room beside its pipe is said in a note, with the way it runs and the pipe it
// is of: alone it tells nobody anything. In inches on letter paper two-speed has such a length: the
// old pipe between its second bend and the first tee, which runs left (its file).
func TestLengthsInNotesSayOfWhat(t *testing.T) {
	p := demos(t)["two-speed"]
	pages, err := Pages(p, "isometric", sheet.Page{Format: sheet.Letter}, quantity.InchSystem)
	if err != nil {
		t.Fatal(err)
	}
	said := ""
	for _, s := range pages {
		for _, it := range s.Items {
			if text, ok := it.(scene.Text); ok {
				said += text.Text + " "
			}
		}
	}
	if want := "No room on the drawing for: length 1 ft 5-13/16 in left, pipe E1 to T2."; !strings.Contains(said, want) {
		t.Errorf("nothing of %q in\n%s", want, said)
	}
}
