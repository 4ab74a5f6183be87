package isometric

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// wordsOf are the words of everything written on some sheets, those of a note too.
func wordsOf(pages []*scene.Scene) []string {
	var out []string
	for _, s := range pages {
		for _, it := range s.Items {
			if x, ok := it.(scene.Text); ok {
				out = append(out, strings.FieldsFunc(x.Text, func(r rune) bool { return strings.ContainsRune(" ,;.", r) })...)
			}
		}
	}
	return out
}

// Whoever saws and glues by the drawings finds each leg's length, each piece and each joint of
// what has a place, on some sheet of every example.
func TestEverythingStandsOnASheet(t *testing.T) {
	for _, file := range demos(t) {
		in, words := input(t, file), wordsOf(drawnFile(t, file))
		name := filepath.Base(file)
		for i := range in.Layout.Paths {
			p := &in.Layout.Paths[i]
			if !p.Run.New() || !p.Located {
				continue
			}
			for k := 1; k < len(p.Points); k++ {
				way := p.Points[k].Sub(p.Points[k-1])
				if !alongAxis(way) {
					continue
				}
				if l := strings.TrimSuffix(quantity.Format(way.Len(), quantity.Length, in.Units), " mm"); !slices.Contains(words, l) {
					t.Errorf("%s: leg %d of %s, %s long, has its length on no sheet", name, k, p.Run.ID, l)
				}
			}
			for _, n := range p.Pieces {
				if piece := picture.Number(in.Layout.Pieces[n].Number); !slices.Contains(words, piece) {
					t.Errorf("%s: piece %s of %s is on no sheet", name, piece, p.Run.ID)
				}
			}
			for _, j := range in.Layout.Joints {
				if j.Run == p.Run.ID && !slices.Contains(words, tag.Joint(j.Number)) {
					t.Errorf("%s: joint %d of %s is on no sheet", name, j.Number, p.Run.ID)
				}
			}
		}
	}
}

// Every piece of every example has its circle on a drawing, hose that only starts there too; none
// is left for a list of its own.
func TestEveryPieceHasItsCircle(t *testing.T) {
	for _, file := range demos(t) {
		circled := map[string]bool{}
		for _, s := range drawnFile(t, file) {
			for _, it := range s.Items {
				switch x, ok := it.(scene.Text); {
				case ok && x.Name == "piece-list":
					t.Errorf("%s: a list besides the drawings: %q", filepath.Base(file), x.Text)
				case ok && x.Name == "label:piece":
					circled[x.Text] = true
				}
			}
		}
		for _, p := range input(t, file).Layout.Pieces {
			if !circled[picture.Number(p.Number)] {
				t.Errorf("%s: piece %d has no circle", filepath.Base(file), p.Number)
			}
		}
	}
}

// A stub says between which joints its hose is cut, the near one first.
func TestStubNamesItsJoints(t *testing.T) {
	const file = "../../testdata/plug-in.toml"
	words := wordsOf(drawnFile(t, file))
	n := 0
	for _, p := range input(t, file).Layout.Paths {
		if !p.Run.New() || p.Located {
			continue
		}
		for _, j := range input(t, file).Layout.Joints {
			if j.Run != p.Run.ID {
				continue
			}
			if n++; !slices.Contains(words, tag.Joint(j.Number)) {
				t.Errorf("joint %d of %s is on no sheet", j.Number, p.Run.ID)
			}
		}
	}
	if n != 4 {
		t.Errorf("%d joints at hose that is not drawn, want 4: two hoses have two ends each", n)
	}
}

func alongAxis(v graph.Vec) bool {
	n := 0
	for _, c := range []float64{v.X, v.Y, v.Z} {
		if c > 0.5 || c < -0.5 {
			n++
		}
	}
	return n == 1
}

// A barb that nobody wrote is drawn as a barb, between its short piece and its hose: the sign
// of a bush there would have the fitter look for one.
func TestBarbsAreDrawnAsBarbs(t *testing.T) {
	pages := drawnFile(t, "testdata/hose.toml")
	n := 0
	for _, s := range pages[1:] { // after the overview
		for _, it := range s.Items {
			if x, ok := it.(scene.Shape); ok && x.Name == "fitting:barb" {
				n++
			}
		}
	}
	if n != 4 {
		t.Errorf("%d barbs on the sheets, want 4: two hoses have two ends each", n)
	}
	if !slices.Contains(wordsOf(pages), "barb") {
		t.Error("no legend names the barb")
	}
}

// What finds no room is said in a note, with what it is of: a length or a size alone tells nobody
// anything. On paper where nothing has room the note of two-speed names the old pipe between its second
// bend and the first tee, which runs left, and the drain's pipe (its file).
func TestNotesSayOfWhat(t *testing.T) {
	in := input(t, "../../testdata/two-speed.toml")
	in.Units = quantity.InchSystem
	d := members.NewDrawing(in)
	p := picture.LayOut(d, d.Members(), 1)
	p.Paint()
	p.Label(scene.Box{MaxX: 1, MaxY: 1})
	p.Finish()
	for _, want := range []string{"length 1 ft 5-13/16 in left, pipe E1 to T2", "3/4 in pipe, pipe T4 to D1"} {
		if !strings.Contains(p.KeyNote(), want) {
			t.Errorf("nothing of %q in\n%s", want, p.KeyNote())
		}
	}
}
