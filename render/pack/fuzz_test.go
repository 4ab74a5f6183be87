package pack

import (
	"path"
	"reflect"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
	"dryfit/graph/lots"
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

// packed are files of compressed bytes, in which any three letters may stand.
var packed = map[string]bool{".pdf": true, ".xlsx": true, ".png": true}

// noNumber finds what was no number where one should stand.
var noNumber = regexp.MustCompile(`\b(NaN|[+-]?Inf)\b`)

// A demo with tokens changed either does not read, with an error at a place, or is planned,
// drawn and written in full: without a panic, within limits, with no NaN, no label on another,
// and twice in the same bytes. An input looks at one of these, picked by its seed: a whole pack
// twice over under a fuzzer's instruments outlasts the ten seconds Go gives an input.
func FuzzJob(f *testing.F) {
	for i := range lots.Count(len(demos), len(looks)) { // each look a demo, with -wide each demo one look
		f.Add(uint8(i), uint64(len(demos)*(i%len(looks))+i), uint8(i+1))
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
		looks[(seed/uint64(len(demos)))%uint64(len(looks))](t, name, source)
	})
}

// looks are what FuzzJob holds a job against, one for each input.
var looks = []func(t *testing.T, name string, source []byte){packIsSound, pagesAreClear, planIsTheSameTwice}

// packIsSound makes the whole pack once: within the memory a small job may take, no NaN in it.
func packIsSound(t *testing.T, name string, source []byte) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	out, err := Make(planOf(t, name, source), Options{})
	if err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	if n := after.TotalAlloc - before.TotalAlloc; n > mostAllocated {
		t.Errorf("%d MB allocated", n>>20)
	}
	for _, file := range out.Files {
		if packed[path.Ext(file.Name)] || file.Name == "description.toml" {
			continue
		}
		if at := noNumber.FindIndex(file.Data); at != nil {
			t.Errorf("%s: %q", file.Name, file.Data[max(0, at[0]-60):min(len(file.Data), at[1]+20)])
		}
	}
}

// pagesAreClear draws every sheet: few enough, and no label on another.
func pagesAreClear(t *testing.T, name string, source []byte) {
	t.Helper()
	pages, err := drawing.Pages(planOf(t, name, source), "all", sheet.Page{}, 0)
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
}

// planIsTheSameTwice plans and draws the job two times over, and wants the same sheets.
func planIsTheSameTwice(t *testing.T, name string, source []byte) {
	t.Helper()
	var first []*scene.Scene
	for i := range 2 {
		pages, err := drawing.Pages(planOf(t, name, source), "all", sheet.Page{}, 0)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = pages
		} else if !reflect.DeepEqual(first, pages) {
			t.Error("planned and drawn again, the sheets are not the same")
		}
	}
}

// onEachOther tells which upright labels of a page lie on each other.
func onEachOther(s *scene.Scene) []string {
	var out []string
	var seen []scene.Text
	for _, it := range s.Items {
		x, ok := it.(scene.Text)
		if !ok || !strings.HasPrefix(x.Name, "label:") || x.TurnDeg != 0 || x.SkewDeg != 0 || strings.TrimSpace(x.Text) == "" {
			continue
		}
		for _, o := range seen {
			if scene.Bounds(x).Grow(-0.25 * x.SizeMM).Overlaps(scene.Bounds(o).Grow(-0.25 * o.SizeMM)) {
				out = append(out, x.Name+" "+x.Text+" on "+o.Name+" "+o.Text)
			}
		}
		seen = append(seen, x)
	}
	return out
}
