package spread

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// fitted is what hangs on the line of readText with a valve in the new pipe back, so that numbers of old and
// new parts of one kind are off.
var fitted = strings.Replace(readText, `id = "return"
from = "unit.out"
to = "tub.b"
length = "3 m"
existing = true`, `id = "return"
from = "unit.out"
to = "v1.in"
length = "2 m"
[[part]]
id = "v1"
kind = "ball-valve"
position = "60 %"
[[run]]
id = "end"
from = "v1.out"
to = "tub.b"
length = "1 m"`, 1)

// stub is an old valve and its pipe at an opening of the tub from which no water comes, in front of all else.
const stub = `[[part]]
id = "aside"
kind = "ball-valve"
existing = true
position = "50 %"
[[part]]
id = "end-of-it"
kind = "cap"
existing = true
[[run]]
id = "a-stub"
from = "tub.b2"
to = "aside.in"
length = "4 m"
existing = true
[[run]]
id = "a-stub-2"
from = "aside.out"
to = "end-of-it.in"
length = "4 m"
existing = true
`

// What no water passes moves no range, wherever it stands in the file: its numbers take the coordinates of
// none that count.
func TestWhatNoWaterPassesMovesNoRange(t *testing.T) {
	of := func(text string) map[string]Range {
		c, ds := description.Read("job.toml", []byte(text))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		r, out := Coarse(nil, laying.Of(c.At(graph.After)), "unit", 64), map[string]Range{}
		for i, p := range c.At(graph.After).Parts {
			out[p.ID] = r.Modes[0].Parts[i]
		}
		if len(r.Modes) != 1 || len(out) != len(r.Modes[0].Parts) {
			t.Fatalf("%d modes, %d parts", len(r.Modes), len(out))
		}
		return out
	}
	want, with := of(fitted), of(strings.Replace(strings.Replace(fitted, `["a", "b"]`, `["a", "b", "b2"]`, 1), "[[part]]", stub+"[[part]]", 1))
	delete(with, "aside")
	delete(with, "end-of-it")
	if d := cmp.Diff(want, with); d != "" {
		t.Errorf("without (-) and with what no water passes (+):\n%s", d)
	}
	if want["unit"].High-want["unit"].Low < 0.1*want["unit"].Middle {
		t.Errorf("%+v is hardly a range", want["unit"])
	}
}

// Every number that may be off has a coordinate of its own, and what it is one of has a slot.
func TestEveryUnknownHasItsCoordinate(t *testing.T) {
	c, ds := description.Read("job.toml", []byte(fitted))
	if c == nil {
		t.Fatal(ds)
	}
	s := newSpread(nil, laying.Of(c.At(graph.After)), "unit")
	seen := map[int]string{coordinateOf(depthSlot, 0): depthSlot, coordinateOf(readSlot, 0): readSlot, coordinateOf(openSlot, 0): openSlot}
	for _, u := range s.all {
		if !slices.Contains(slots, u.slot) || seen[u.coordinate] != "" {
			t.Errorf("%s, one of %q: coordinate %d is that of %q", u.what, u.slot, u.coordinate, seen[u.coordinate])
		}
		seen[u.coordinate] = u.what
	}
	if len(s.all) < 12 {
		t.Errorf("%d unknowns", len(s.all))
	}
}
