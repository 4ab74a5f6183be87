package schematic

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/render/scene"
)

// The size of every pipe can be told from the finished sheets by what their first note says, and how marks hold
// is said where a pipe wants it.
func TestEverySizeCanBeTold(t *testing.T) {
	wanted := 0
	for _, sheets := range everyDrawing(t) {
		if holdsAsSaid(t, sheets) {
			wanted++
		}
	}
	if wanted == 0 {
		t.Error("no drawing wants it told how marks hold")
	}
}

// Old pipe of the sheet's own size behind pipe of another is marked: that pipe's mark would hold on at it.
func TestBackAtTheSheetsPipe(t *testing.T) {
	c := read(t, "../../testdata/circulation.toml")
	r := c.Run("filter-line")
	if r == nil || r.Size != c.Pipe.Size {
		t.Fatal("the filter's pipe is not of the sheet's pipe any more")
	}
	r.Size = c.Run("jet-pump.out>jets.in").Size
	sheets := drawn{"circulation, wide before the tee", Input{Circuit: c}}
	holdsAsSaid(t, sheets)
	for _, page := range sheets.pages() {
		if slices.ContainsFunc(page.Items, func(it scene.Item) bool {
			x, ok := it.(scene.Text)
			return ok && x.Name == "label:run:circ-suction" && x.Text == c.Pipe.Size.String()
		}) {
			return
		}
	}
	t.Error("the pipe behind the tee has no mark")
}

// Two stages on one sheet have one pipe it is of, and one word of how marks hold, whatever most pipe of each is.
func TestBothStagesAreOfOnePipe(t *testing.T) {
	c := read(t, "../../testdata/plug-in.toml")
	c.Pipe.Size = catalog.Size{} // nothing says which pipe is the sheet's
	b := &both{was: newDrawing(Input{Circuit: c, Stage: graph.Before}), is: newDrawing(Input{Circuit: c})}
	if b.was.common == b.is.common {
		t.Fatal("most pipe is the same before and after the work")
	}
	b.share()
	said := slices.DeleteFunc(b.notes(), func(n string) bool { return !strings.HasPrefix(n, "Pipe is ") })
	if len(said) != 1 || !strings.Contains(said[0], held) {
		t.Errorf("of its pipe the sheet says %q", said)
	}
}

// holdsAsSaid complains of pipe whose size is told wrongly: by a mark, else by what is told of the pipe it goes
// on from, else by the sheet's first note. It reports whether some pipe is told by a mark before it.
func holdsAsSaid(t *testing.T, sheets drawn) bool {
	t.Helper()
	d := newDrawing(sheets.in)
	marks, note := map[string]string{}, ""
	for _, page := range sheets.pages() {
		for _, it := range page.Items {
			if it, ok := it.(scene.Text); ok {
				if run, is := strings.CutPrefix(it.Name, "label:run:"); is {
					marks[run] = strings.TrimSpace(strings.TrimPrefix(it.Text, "air"))
				} else if it.Name == "note" {
					note += it.Text + " "
				}
			}
		}
	}
	note = strings.Join(strings.Fields(note), " ")
	sheet, told := strings.CutPrefix(note, "1 Pipe is ")
	sheet, _, _ = strings.Cut(sheet, " unless marked")
	if !told {
		t.Fatalf("%s: the first note is no word of pipe: %s", sheets.name, note)
	}
	spec, _, _ := strings.Cut(sheet, " ")
	var read func(r *graph.Run, left int) string
	read = func(r *graph.Run, left int) string {
		if s := marks[r.ID]; s == r.Size.String()+" "+string(r.Spec) {
			return string(r.Spec) + " " + r.Size.String()
		} else if s != "" {
			return spec + " " + s
		}
		from, _ := d.net.Ends(r)
		if p := d.c.Part(from.Part); left > 0 {
			for _, b := range d.net.Coming(p) {
				if _, to := d.net.Ends(b); len(p.Ports) == 2 && p.Kind.Plumbing() || p.Kind == graph.Tee && to.Port != graph.Branch && from.Port != graph.Branch {
					return read(b, left-1)
				}
			}
		}
		return sheet
	}
	wants := false
	for _, r := range d.c.Runs {
		is := string(r.Spec) + " " + r.Size.String()
		if r.Direct() || r.Size.IsZero() {
			continue
		}
		if got := read(r, len(d.c.Runs)); got != is {
			t.Errorf("%s: %s is %s and is told as %s", sheets.name, r.ID, is, got)
		}
		wants = wants || marks[r.ID] == "" && is != sheet
	}
	if strings.Contains(note, held) != wants {
		t.Errorf("%s: how marks hold is wanted: %v; said: %v", sheets.name, wants, !wants)
	}
	return wants
}
