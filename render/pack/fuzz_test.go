package pack

import (
	"bytes"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// What one small job may take, whatever was changed in it: the memory allocated in all counts
// the work, the same on every machine, where time does not.
const (
	mostAllocated = 3 << 30 // bytes
	mostPages     = 60
)

// noNumber finds what was no number where one should stand.
var noNumber = regexp.MustCompile(`\b(NaN|[+-]?Inf)\b`)

// A demo with tokens changed either does not read, with an error at a place, or is planned,
// drawn and written in full: without a panic, within limits, with no NaN, no label on another,
// and twice in the same bytes.
func FuzzJob(f *testing.F) {
	for i := range demos {
		f.Add(uint8(i), uint64(i), uint8(i))
	}
	f.Fuzz(func(t *testing.T, demo uint8, seed uint64, changes uint8) {
		name := demos[int(demo)%len(demos)]
		source := ladder.Mutate(readDemo(t, name), seed, int(changes)%6)
		c, ds := description.Read(name, source)
		if c == nil {
			if len(ds) == 0 || ds[0].Pos.Line == 0 {
				t.Fatalf("does not read, and says nothing of where: %v", ds)
			}
			return
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		first, p := packed(t, name, source)
		runtime.ReadMemStats(&after)
		if n := after.TotalAlloc - before.TotalAlloc; n > mostAllocated {
			t.Errorf("%d MB allocated", n>>20)
		}
		again, _ := packed(t, name, source)
		for i, file := range first.Files {
			if !bytes.Equal(file.Data, again.Files[i].Data) {
				t.Errorf("%s is not the same twice", file.Name)
			}
			if strings.HasSuffix(file.Name, ".pdf") || strings.HasSuffix(file.Name, ".xlsx") || file.Name == "description.toml" {
				continue
			}
			if at := noNumber.FindIndex(file.Data); at != nil {
				t.Errorf("%s: %q", file.Name, file.Data[max(0, at[0]-60):min(len(file.Data), at[1]+20)])
			}
		}
		pages, err := drawing.Pages(p, "all", sheet.Page{}, 0)
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) > mostPages {
			t.Errorf("%d pages", len(pages))
		}
		for n, s := range pages {
			for _, o := range onEachOther(s) {
				t.Errorf("page %d: %s", n+1, o)
			}
		}
	})
}

func packed(t *testing.T, name string, source []byte) (*Pack, *plan.Plan) {
	t.Helper()
	p := planOf(t, name, source)
	out, err := Make(p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return out, p
}

// onEachOther tells which upright labels of a page lie on each other.
func onEachOther(s *scene.Scene) []string {
	var out []string
	var seen []scene.Text
	for _, it := range s.Items {
		x, ok := it.(scene.Text)
		if !ok || !strings.HasPrefix(x.Tag, "label:") || x.TurnDeg != 0 || x.SkewDeg != 0 || strings.TrimSpace(x.Text) == "" {
			continue
		}
		for _, o := range seen {
			if scene.Bounds(x).Grow(-0.25 * x.SizeMM).Overlaps(scene.Bounds(o).Grow(-0.25 * o.SizeMM)) {
				out = append(out, x.Tag+" "+x.Text+" on "+o.Tag+" "+o.Text)
			}
		}
		seen = append(seen, x)
	}
	return out
}
