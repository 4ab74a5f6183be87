package detail

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/render/scene"
)

// cutIn is a string in an old line of 1-1/2 in Schedule 80: tee, nipple, valve of 103.1 mm
// from stop to stop, nipple, tee, with nipples as short as they go, 2 x 34.925 + 5 = 74.85.
// Tee take-off 25.4 and sockets 34.925 are ASTM D2467's; the whole is the worked cut-in
// example of the trade's rule gap = stop-to-stop lengths + new pieces (computed by hand).
const cutIn = `
[pipe]
spec = "pvc-sch80"
size = "1-1/2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["out", "back"]

[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "6 m"], ["12 m3/h", "2 m"]]

[[part]]
id = "a"
kind = "tee"

[[part]]
id = "valve"
kind = "ball-valve"
length = "103.1 mm"

[[part]]
id = "b"
kind = "tee"

[[part]]
id = "unit"
kind = "heat-pump"

[[run]]
from = "tub.out"
to = "pump.in"
existing = true
length = "1 m"

[[run]]
id = "line-1"
from = "pump.out"
to = "a.run-in"
remains-of = "line"
existing = true
legs = ["right 600 mm"]

[[run]]
id = "line"
from = "pump.out"
to = "tub.back"
existing = true
removed = true
legs = ["right 2000 mm"]

[[run]]
id = "first"
from = "a.run-out"
to = "valve.in"
legs = ["right 100.25 mm"]

[[run]]
id = "second"
from = "b.run-in"
to = "valve.out"
legs = ["left 100.25 mm"]

[[run]]
id = "line-2"
from = "b.run-out"
to = "tub.back"
remains-of = "line"
existing = true
legs = ["right 900 mm"]

[[run]]
id = "to-unit"
from = "a.branch"
to = "unit.in"
legs = ["up 200 mm", "right 100 mm"]

[[run]]
id = "from-unit"
from = "unit.out"
to = "b.branch"
legs = ["down 180 mm"]
`

func layout(t *testing.T) *route.Layout {
	t.Helper()
	c, found := description.Read("cut-in.toml", []byte(cutIn))
	if c == nil {
		t.Fatalf("no circuit: %v", found)
	}
	return laying.Of(c.At(graph.After))
}

func near(got, want float64) bool { return math.Abs(got-want) < 0.02 }

func TestCutInExample(t *testing.T) {
	list := chains(layout(t))
	if len(list) != 1 {
		t.Fatalf("%d strings, want 1", len(list))
	}
	c := list[0]
	var ids []string
	for _, m := range c.members {
		ids = append(ids, m.part.ID)
	}
	if got := strings.Join(ids, " "); got != "a valve b" {
		t.Errorf("the string is %s, want a valve b", got)
	}
	if got := c.after.from - c.before.to; !near(got, 354.40) {
		t.Errorf("the gap is %.2f mm, want 354.40", got)
	}
	if got := c.after.from + c.after.depthFrom - (c.before.to - c.before.depthTo); !near(got, 424.25) {
		t.Errorf("from face to face %.2f mm, want 424.25", got)
	}
	for _, m := range c.members[:2] {
		if len(m.tubes) != 1 {
			t.Fatalf("%d pieces after %s, want 1", len(m.tubes), m.part.ID)
		}
		if got := m.tubes[0].to - m.tubes[0].from; !near(got, 74.85) {
			t.Errorf("the piece after %s is %.2f mm long, want 74.85", m.part.ID, got)
		}
	}
	// the second piece's run is written the other way: it still begins at the valve's stop
	if got := c.members[1].tubes[0].from - c.members[1].to; !near(got, 0) {
		t.Errorf("the second piece begins %.2f mm off the valve's stop", got)
	}
}

func TestLimbs(t *testing.T) {
	c := chains(layout(t))[0]
	if len(c.limbs) != 2 {
		t.Fatalf("%d branches, want 2", len(c.limbs))
	}
	up, down := c.limbs[0], c.limbs[1]
	if up.part != nil || up.next != (graph.Vec{X: 1}) || !near(up.end, 200) {
		t.Errorf("the first branch ends in part %v, turn %v at %.1f mm; want a bend along the line at 200", up.part, up.next, up.end)
	}
	// 200 less the tee's and the elbow's take-off, 25.4 each (ASTM D2467)
	if got := up.tubes[0].to - up.tubes[0].from; !near(got, 149.2) {
		t.Errorf("its piece is %.2f mm long, want 149.20", got)
	}
	if down.part == nil || down.part.ID != "unit" || !near(down.end, 180) {
		t.Errorf("the second branch ends at %v, %.1f mm; want the unit at 180", down.part, down.end)
	}
}

// The sheet has every piece of the figure once, both cuts and a scale bar that is true.
func TestSheet(t *testing.T) {
	pages := Draw(Input{Layout: layout(t)})
	if len(pages) != 1 {
		t.Fatalf("%d sheets, want 1", len(pages))
	}
	seen := map[string]int{}
	per := 0.0
	var bar []scene.Box
	for _, it := range pages[0].Items {
		switch it := it.(type) {
		case scene.Text:
			seen[it.Name+"="+it.Text]++
			if it.Name == "title:Scale" {
				fmt.Sscanf(it.Text, "1:%g", &per)
			}
		case scene.Shape:
			if it.Name == "scale-bar" {
				it.Style.StrokeMM = 0
				bar = append(bar, scene.Bounds(it))
			}
		}
	}
	for _, want := range []string{"cut=X1", "cut=X2", "piece:1=1", "piece:2=2", "piece:3=3"} {
		if seen[want] != 1 {
			t.Errorf("%q is on the sheet %d times", want, seen[want])
		}
	}
	if len(bar) != 2 || bar[0].W() < 15 {
		t.Fatalf("the scale bar is %v, want two parts well seen", bar)
	}
	for n, b := range bar {
		if mm := math.Round(b.W() * per * float64(n+1)); !near(b.W()*per, mm/float64(n+1)) || seen[fmt.Sprintf("scale=%.0f", mm)] != 1 {
			t.Errorf("part %d of the scale bar ends at %.2f mm of pipe, and no text says so", n+1, b.W()*per*float64(n+1))
		}
	}
}

func TestNothingToDraw(t *testing.T) {
	if got := Draw(Input{}); got != nil {
		t.Errorf("%d sheets of nothing", len(got))
	}
}

// shapes are what a sheet shows of the assembly, by tag and place about the middle of the
// frame; mirrored turns left and right about.
func shapes(s *scene.Scene, mirrored bool) []string {
	const middle = (20 + 287) / 2.0 // of the frame, mm
	var out []string
	for _, it := range s.Items {
		sh, ok := it.(scene.Shape)
		if !ok || !slices.Contains([]string{"fitting", "pipe", "insertion", "near", "away", "cut-line:X1", "cut-line:X2"}, sh.Name) {
			continue
		}
		b := scene.Bounds(sh)
		x0, x1 := b.MinX-middle, b.MaxX-middle
		if mirrored {
			x0, x1 = -x1, -x0
		}
		out = append(out, fmt.Sprintf("%s %.1f %.1f %.1f %.1f", sh.Name, x0+0.01, b.MinY, x1+0.01, b.MaxY))
	}
	slices.Sort(out)
	return out
}

func drawn(t *testing.T, toml string) []*scene.Scene {
	t.Helper()
	c, found := description.Read("cut-in.toml", []byte(toml))
	if c == nil {
		t.Fatalf("no circuit: %v", found)
	}
	return Draw(Input{Layout: laying.Of(c.At(graph.After))})
}

// swap exchanges two words.
func swap(s, a, b string) string { return strings.NewReplacer(a, b, b, a).Replace(s) }

// A job seen in a mirror is drawn as seen in a mirror: what is right is left.
func TestMirrorImages(t *testing.T) {
	for name, toml := range map[string]string{
		"branches up":              cutIn,
		"one branch forward":       strings.Replace(cutIn, `legs = ["up 200 mm", "right 100 mm"]`, `legs = ["front 200 mm", "right 100 mm"]`, 1),
		"elbow towards the reader": strings.Replace(cutIn, `legs = ["up 200 mm", "right 100 mm"]`, `legs = ["up 200 mm", "front 100 mm"]`, 1),
	} {
		a, b := drawn(t, toml), drawn(t, swap(toml, "right", "left"))
		if len(a) == 0 || len(a) != len(b) {
			t.Fatalf("%s: %d and %d sheets", name, len(a), len(b))
		}
		for i := range a {
			if got, want := shapes(b[i], false), shapes(a[i], true); !slices.Equal(got, want) {
				t.Errorf("%s, sheet %d: the mirror's drawing is\n%s\nwant\n%s", name, i+1, strings.Join(got, "\n"), strings.Join(want, "\n"))
			}
		}
		if slices.Equal(shapes(a[0], false), shapes(b[0], false)) {
			t.Errorf("%s: one drawing for two assemblies", name)
		}
	}
}

// An elbow towards the reader is a filled ring, one away from him an open ring, and one along
// the line neither; the notes name those that are drawn and no other.
func TestElbowsTellTheirWay(t *testing.T) {
	for way, want := range map[string][2]bool{"front": {true, false}, "back": {false, true}, "right": {}, "left": {}} {
		pages := drawn(t, strings.Replace(cutIn, `legs = ["up 200 mm", "right 100 mm"]`, `legs = ["up 200 mm", "`+way+` 100 mm"]`, 1))
		tags := map[string]bool{}
		for _, s := range shapes(pages[0], false) {
			tag, _, _ := strings.Cut(s, " ")
			tags[tag] = true
		}
		if got := [2]bool{tags["near"], tags["away"]}; got != want {
			t.Errorf("an elbow to the %s: filled and open rings %v, want %v", way, got, want)
		}
		said := ""
		for _, it := range pages[0].Items {
			if x, ok := it.(scene.Text); ok && x.Name == "note" {
				said += x.Text + " "
			}
		}
		if got := [2]bool{strings.Contains(said, "Filled ring: comes towards you."), strings.Contains(said, "Open ring: goes away from you.")}; got != want {
			t.Errorf("an elbow to the %s: the notes name filled and open rings %v, want %v: %s", way, got, want, said)
		}
	}
}

// The sheet says from where it is seen, and takes the view that shows the branches.
func TestViewIsStated(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"up 200 mm", "up 200 mm", "Seen from the front"},
		{"up 200 mm", "front 200 mm", "Seen from the front"}, // the other branch comes down
		{`legs = ["down 180 mm"]`, `legs = ["back 180 mm"]`, "Seen from the front"},
	} {
		pages := drawn(t, strings.Replace(cutIn, c.from, c.to, 1))
		said := ""
		for _, it := range pages[0].Items {
			if x, ok := it.(scene.Text); ok && x.Name == "note" {
				said += x.Text + " "
			}
		}
		if !strings.Contains(said, c.want) {
			t.Errorf("%s: the notes are %q, want %q", c.to, said, c.want)
		}
	}
	both := strings.Replace(cutIn, "up 200 mm", "front 200 mm", 1)
	if n := len(drawn(t, both)); n != 2 {
		t.Errorf("branches in two planes are shown on %d sheets, want 2", n)
	}
}
