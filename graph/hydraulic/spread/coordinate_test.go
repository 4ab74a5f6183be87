package spread

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

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
	want, with := rangesOf(t, fitted), rangesOf(t, strings.Replace(strings.Replace(fitted, `["a", "b"]`, `["a", "b", "b2"]`, 1), "[[part]]", stub+"[[part]]", 1))
	delete(with, "aside")
	delete(with, "end-of-it")
	if d := cmp.Diff(want, with); d != "" {
		t.Errorf("without (-) and with what no water passes (+):\n%s", d)
	}
	if want["unit"].High-want["unit"].Low < 0.1*want["unit"].Middle {
		t.Errorf("%+v is hardly a range", want["unit"])
	}
}

// Which end of a run is written first moves no range: a suction's cover stands where its water comes from the
// tub, and none at a return, however either is written.
func TestRunsWrittenFromEitherEnd(t *testing.T) {
	want := rangesOf(t, fitted)
	for _, run := range []struct{ from, to string }{{"tub.a", "pump.in"}, {"v1.out", "tub.b"}, {"pump.out", "unit.in"}} {
		written := fmt.Sprintf("from = %q\nto = %q", run.from, run.to)
		if !strings.Contains(fitted, written) {
			t.Fatal(written)
		}
		turned := strings.Replace(fitted, written, fmt.Sprintf("from = %q\nto = %q", run.to, run.from), 1)
		if d := cmp.Diff(want, rangesOf(t, turned), cmpopts.EquateApprox(1e-9, 0)); d != "" {
			t.Errorf("the run from %s (-) written from %s (+):\n%s", run.from, run.to, d)
		}
	}
}

// rangesOf are those of the flows of a description's parts.
func rangesOf(t *testing.T, text string) map[string]Range {
	t.Helper()
	c, ds := description.Read("job.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	c = c.At(graph.After)
	r, out := Coarse(nil, laying.Of(c), "unit", 64), map[string]Range{}
	if len(r.Modes) != 1 || len(c.Parts) != len(r.Modes[0].Parts) {
		t.Fatalf("%d modes", len(r.Modes))
	}
	for i, p := range c.Parts {
		out[p.ID] = r.Modes[0].Parts[i]
	}
	return out
}

// Every number that may be off has a coordinate of its own, and what it is one of has a slot: of the demos, which
// have pumps of every kind, and of a line with old and new valves.
func TestEveryUnknownHasItsCoordinate(t *testing.T) {
	texts := []string{fitted}
	for _, name := range []string{"two-speed", "circulation", "large-circulation", "plug-in", "plunge-pool"} {
		data, err := os.ReadFile("../../../testdata/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	of := map[string]bool{}
	for _, text := range texts {
		c, ds := description.Read("job.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		seen := map[int]string{coordinateOf(depthSlot, 0): depthSlot, coordinateOf(readSlot, 0): readSlot, coordinateOf(openSlot, 0): openSlot}
		for _, u := range newSpread(nil, laying.Of(c.At(graph.After)), "unit").all {
			if !slices.Contains(slots, u.slot) || u.coordinate == 0 || seen[u.coordinate] != "" {
				t.Errorf("%s, one of %q: coordinate %d is that of %q", u.what, u.slot, u.coordinate, seen[u.coordinate])
			}
			seen[u.coordinate], of[u.slot] = u.what, true
		}
	}
	if len(of) < 20 {
		t.Errorf("only %d slots are taken", len(of))
	}
}
