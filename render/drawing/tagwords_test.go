package drawing

import (
	"os"
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
		{"two-speed", map[string]string{"U1": "V1, V2 SHUT", "U2": "V1, V2 SHUT", "CV1": "EMPTY THE TUB", "V1": "", "D1": ""}},
		{"plug-in", map[string]string{"U1": "V1, V2 SHUT", "U2": "V1, V2 SHUT"}},
		{"plunge-pool", map[string]string{"U1": "", "U2": "", "CV1": "", "CV2": ""}},
	} {
		p := demos(t)[c.demo]
		names := tag.Of(p.Circuit, p.Net())
		said := map[string]string{}
		for id, rows := range warnings(p, names) {
			for _, s := range rows {
				if when, of, _ := strings.Cut(s.Mode, ": "); when == "before opening" {
					said[names.Tag(id)] = strings.TrimSpace(of + " " + s.Position)
				}
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

// Where one valve leads past two units its label names every isolator that may leave the water no
// other way, and no word of it is cut off: two-new-units with a valve in the place of its spring check,
// shut off by V1 and V2 in the pipes they share and V4 and V5 before each (its file). By hand: with any
// of the four shut a unit or both stand still, and V3 is what is left for the water.
func TestLabelPastTwoUnits(t *testing.T) {
	data, err := os.ReadFile("../pack/testdata/two-new-units.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "kind = \"check-valve\"\nstyle = \"spring\"\ncracking = \"2 psi\"", "kind = \"ball-valve\"\nposition = \"30 %\"", 1)
	p := planOf(t, "two.toml", []byte(text))
	names := tag.Of(p.Circuit, p.Net())
	want := sticker.Setting{Mode: "while V1, V2, V4 or V5 is shut", Position: "OPEN"}
	if got := warnings(p, names)["bypass"]; len(got) != 1 || got[0] != want {
		t.Errorf("the label of %s says %v, want %v", names.Tag("bypass"), got, want)
	}
	for _, page := range []sheet.Page{{}, {Format: sheet.Letter}} {
		pages, err := Pages(p, "labels", page, quantity.MetricSystem)
		if err != nil {
			t.Fatal(err)
		}
		shown := ""
		for _, s := range pages {
			for _, it := range s.Items {
				if text, ok := it.(scene.Text); ok {
					shown += text.Text + " "
				}
			}
		}
		if strings.Contains(shown, "…") || strings.Contains(shown, "see the valve schedule") {
			t.Errorf("words of a label are cut off: %s", shown)
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
