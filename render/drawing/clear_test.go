package drawing

import (
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// made turns a demo into a job of another kind, by edits of its text.
type made struct {
	name, demo string
	edit       func(string) string
}

// generated are jobs nobody wrote down: jets in three groups behind a diverter with a blower and
// ozone, an old salt cell that goes, and the mirror images of demos and of both.
func generated() []made {
	three := func(s string) string {
		s = strings.Replace(s, `ports = ["skimmer", "footwell", "jets"]`, `ports = ["skimmer", "footwell", "jets", "foot", "wall"]`, 1)
		s = strings.Replace(s, `to = "jets.in"`, `to = "diverter.in"`, 1)
		return s + threeGroups
	}
	gone := func(s string) string {
		a, b := strings.Index(s, "[[run]]\nid = \"heater-line\""), strings.Index(s, "# The long leg to the left")
		return s[:a] + saltGoes + s[b:]
	}
	out := []made{
		{"three groups, salt cell goes", "two-speed", func(s string) string { return gone(three(s)) }},
		{"three groups mirrored", "two-speed", func(s string) string { return mirrored(three(s)) }},
	}
	for _, demo := range []string{"circulation", "large-circulation", "plug-in", "plunge-pool"} {
		out = append(out, made{demo + " mirrored", demo, mirrored})
	}
	return out
}

var side = regexp.MustCompile(`\b(left|right)\b`)

func mirrored(s string) string {
	return side.ReplaceAllStringFunc(s, func(w string) string { return map[string]string{"left": "right", "right": "left"}[w] })
}

func part(id, kind, more string) string {
	return fmt.Sprintf("\n[[part]]\nid = %q\nkind = %q\nexisting = true\n%s\n", id, kind, more)
}

func run(from, to, more string) string {
	return fmt.Sprintf("\n[[run]]\nfrom = %q\nto = %q\nexisting = true\n%s\n", from, to, more)
}

var threeGroups = part("diverter", "diverter-valve", `ports = ["in", "a", "b"]`) + part("jet-tee", "tee", "") +
	part("foot-jets", "jet-group", "count = 6\nbore = \"5.9 mm\"") + part("wall-jets", "jet-group", "count = 8\nbore = \"5.9 mm\"") +
	part("blower", "blower", "") + part("air-check", "check-valve", `style = "swing"`) + part("air-knob", "air-control", "") + part("ozone", "ozone-injector", "") +
	run("diverter.a", "jets.in", `length = "600 mm"`) + run("diverter.b", "jet-tee.run-in", `length = "500 mm"`) +
	run("jet-tee.run-out", "foot-jets.in", `length = "500 mm"`) + run("jet-tee.branch", "ozone.in", `length = "400 mm"`) +
	run("ozone.out", "wall-jets.in", `length = "400 mm"`) + run("foot-jets.out", "tub.foot", `length = "0 mm"`) + run("wall-jets.out", "tub.wall", `length = "0 mm"`) +
	run("blower.in", "air-check.in", "size = \"1 in\"\nlength = \"300 mm\"") + run("air-check.out", "jets.air", "size = \"1 in\"\nlength = \"700 mm\"") +
	run("air-knob.in", "foot-jets.air", "size = \"1 in\"\nlength = \"900 mm\"")

var saltGoes = part("old-salt", "salt-cell", "removed = true\nlength = \"260 mm\"") +
	run("filter.out", "old-salt.in", "removed = true\nlegs = [\"right 160 mm\"]") + run("old-salt.out", "element.in", "removed = true\nlegs = [\"right 160 mm\"]") +
	"\n[[run]]\nid = \"heater-line\"\nfrom = \"filter.out\"\nto = \"element.in\"\nlegs = [\"right 580 mm\"]\n\n"

// fewJobs stand for all of them where not all are tried: what comes out, a second unit, hose with
// barbs that stay, a deck, a place that none can take, and one that is generated.
var fewJobs = []string{"job unit-out.toml", "job second-unit.toml", "job barb-kept.toml", "job sunk-in-deck.toml", "job no-place.toml",
	"three groups, salt cell goes"}

// everyPlan is the plan of every demo, and of the jobs of the house and those generated all, or
// the few, worked out once.
func everyPlan(t *testing.T) map[string]*plan.Plan {
	t.Helper()
	jobs, err := everyJob()
	if err != nil {
		t.Fatal(err)
	}
	out := maps.Clone(demos(t))
	maps.Copy(out, jobs)
	return out
}

// everySheet calls do with the finished sheets of every view of every plan, in inches, in which texts
// are longer; the two-speed demo (with -wide all of them) in metric too. What is drawn
// of its ranges and its year alone is looked at in the demos.
func everySheet(t *testing.T, do func(name string, p *plan.Plan, view string, sheets []*scene.Scene)) {
	t.Helper()
	own := demos(t)
	for name, p := range everyPlan(t) {
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			if units == quantity.MetricSystem && (own[name] == nil || !lots.Named(name, "two-speed")) {
				continue
			}
			for _, view := range Views() {
				sheets := drawn(t, p, view, units)
				finish(sheets, p, units)
				do(fmt.Sprintf("%s (%v)", name, units), p, view, sheets)
			}
		}
	}
}

var everyJob = sync.OnceValues(func() (map[string]*plan.Plan, error) {
	out := map[string]*plan.Plan{}
	add := func(name string, text []byte) error {
		if !lots.Named(name, fewJobs...) {
			return nil
		}
		c, ds := description.Read(name, text)
		if c == nil {
			return fmt.Errorf("%s: %v", name, ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Lists|plan.Flows)
		out[name] = p
		return err
	}
	files, err := filepath.Glob("../../graph/plan/testdata/jobs/*.toml")
	if err != nil || len(files) < 5 {
		return nil, fmt.Errorf("%d jobs: %w", len(files), err)
	}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		if err := add("job "+filepath.Base(f), text); err != nil {
			return nil, err
		}
	}
	for _, g := range generated() {
		text, err := os.ReadFile("../../testdata/" + g.demo + ".toml")
		if err != nil {
			return nil, err
		}
		if err := add(g.name, []byte(g.edit(string(text)))); err != nil {
			return nil, err
		}
	}
	for _, name := range fewJobs {
		if out[name] == nil {
			return nil, fmt.Errorf("there is no %s", name)
		}
	}
	return out, nil
})

// On every sheet of every job, metric and inch: no two texts touch or come nearer than nearMM,
// no line that can be seen runs through a text, no capital is lower than 1.8 mm (ISO 3098-1's
// least height, from memory), and all is on the page. It reads the finished sheets alone.
func TestEverySheetIsClear(t *testing.T) {
	count := map[string]int{}
	everySheet(t, func(name string, p *plan.Plan, view string, sheets []*scene.Scene) {
		count[name] += len(sheets)
		for _, s := range sheets {
			for _, fault := range slices.Concat(unclear(s), misread(s, view, p)) {
				t.Errorf("%s, %s: %s", name, s.Name, fault)
			}
		}
	})
	for name, n := range count {
		if n < 2 {
			t.Errorf("%s: %d sheets", name, n)
		}
	}
}

// A tag on a sheet names a part of the job, a joint or a cut, and every part stands on the
// schematic by its tag; every piece of the cut list has its number in a circle on a sheet of the
// isometric.
func TestTagsAndPiecesAreFoundBothWays(t *testing.T) {
	word := regexp.MustCompile(`^[A-Z]{1,3}\d+$`)
	for name, p := range everyPlan(t) {
		names, ringed := tag.Of(p.Circuit, p.Net()), map[string]bool{}
		known := map[string]bool{}
		for _, part := range p.Circuit.Parts {
			known[names.Tag(part.ID)] = true
		}
		lay := p.After.Layout
		for _, j := range lay.Joints {
			known[tag.Joint(j.Number)] = true
		}
		for n := range 2 * (1 + len(lay.Circuit.Runs)) {
			known[fmt.Sprintf("X%d", n+1)] = true
		}
		words := map[string]map[string]bool{}
		for _, view := range []string{"schematic", "isometric", "detail", "labels"} {
			sheets := drawn(t, p, view, quantity.InchSystem)
			finish(sheets, p, quantity.InchSystem)
			words[view] = map[string]bool{}
			for _, s := range sheets {
				for _, it := range s.Items {
					x, ok := it.(scene.Text)
					if !ok || x.Name == "title-block" || x.Name == "head" {
						continue
					}
					if x.Name == "label:piece" && view == "isometric" {
						ringed[x.Text] = true
					}
					for _, w := range strings.FieldsFunc(x.Text, func(r rune) bool { return strings.ContainsRune(" ,.;:()", r) }) {
						words[view][w] = true
						if word.MatchString(w) && !known[w] && !strings.HasPrefix(x.Name, "note") && !strings.Contains(p.Circuit.Job.Name+p.Circuit.Job.Reference, w) {
							t.Errorf("%s, %s: %q names nothing (%s %q)", name, view, w, x.Name, x.Text)
						}
					}
				}
			}
		}
		for _, part := range lay.Circuit.Parts {
			if w := names.Tag(part.ID); part.Kind != graph.Tub && !words["schematic"][w] {
				t.Errorf("%s: %s (%s) is not on the schematic", name, w, part.ID)
			}
		}
		if len(words["isometric"]) == 0 {
			continue
		}
		for _, piece := range lay.Pieces {
			if !ringed[fmt.Sprint(piece.Number)] {
				t.Errorf("%s: piece %d has its circle on no sheet of the isometric", name, piece.Number)
			}
		}
	}
}

// The check sees what it is there for, and nothing where nothing is.
func TestUnclearSees(t *testing.T) {
	text := func(x, y float64, words string) scene.Text {
		return scene.Text{At: scene.Point{X: x, Y: y}, Text: words, SizeMM: 3, Name: words}
	}
	line := scene.Line(scene.Point{X: 10, Y: 19}, scene.Point{X: 40, Y: 19}, scene.Stroke(0.2))
	cover := scene.Rect(5, 10, 50, 15, scene.Style{Fill: true, FillGrey: 1})
	wide := scene.TextWidth("HHH", 3, false)
	for _, c := range []struct {
		what  string
		items []scene.Item
		want  int
	}{
		{"apart", []scene.Item{text(10, 20, "HHH"), text(10+wide+0.5, 20, "AAA")}, 0},
		{"a near miss", []scene.Item{text(10, 20, "HHH"), text(10+wide+0.2, 20, "AAA")}, 1},
		{"one above the other", []scene.Item{text(10, 20, "HHH"), text(10, 20-0.729*3-0.2, "AAA")}, 1},
		{"a line through", []scene.Item{line, text(10, 20, "HHH")}, 1},
		{"a line over", []scene.Item{text(10, 20, "HHH"), line}, 1},
		{"a line covered", []scene.Item{line, cover, text(10, 20, "HHH")}, 0},
		{"a line above", []scene.Item{line, text(10, 22, "HHH")}, 0},
		{"small", []scene.Item{scene.Text{At: scene.Point{X: 10, Y: 20}, Text: "HHH", SizeMM: 2.4}}, 1},
		{"off the page", []scene.Item{text(95, 20, "HHHHH")}, 1},
		{"turned, apart", []scene.Item{scene.Text{At: scene.Point{X: 50, Y: 50}, Text: "HHH", SizeMM: 3, TurnDeg: 90}, text(51, 48, "AAA")}, 0},
	} {
		if got := unclear(&scene.Scene{WidthMM: 100, HeightMM: 100, Items: c.items}); len(got) != c.want {
			t.Errorf("%s: %v, want %d", c.what, got, c.want)
		}
	}
}

// What may come how near, mm on paper.
const (
	nearMM  = 0.3  // two texts, but the lines of one
	grazeMM = 0.07 // how far a line's edge may reach into a letter's box
	seenMM  = 0.3  // of a line inside letters
)

// inkOf is the corners of the capitals and figures of a text, grown by so much.
func inkOf(x scene.Text, grow float64) []scene.Point {
	c := x.Corners() // from descenders to ascenders
	const low, high = 0.236 / 0.996, (0.236 + 0.729) / 0.996
	at := func(a, b scene.Point, t float64) scene.Point {
		return scene.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
	}
	q := []scene.Point{at(c[0], c[3], low), at(c[1], c[2], low), at(c[1], c[2], high), at(c[0], c[3], high)}
	long, tall := math.Hypot(q[1].X-q[0].X, q[1].Y-q[0].Y), math.Hypot(q[3].X-q[0].X, q[3].Y-q[0].Y)
	u := scene.Point{X: grow * (q[1].X - q[0].X) / long, Y: grow * (q[1].Y - q[0].Y) / long}
	v := scene.Point{X: grow * (q[3].X - q[0].X) / tall, Y: grow * (q[3].Y - q[0].Y) / tall}
	for i, k := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		q[i].X += k[0]*u.X + k[1]*v.X
		q[i].Y += k[0]*u.Y + k[1]*v.Y
	}
	return q
}

// written is a text of a sheet, and where its letters are.
type written struct {
	scene.Text
	at  int // among the sheet's items
	ink []scene.Point
	box scene.Box // round them, grown by nearMM
}

// unclear lists what a reader of the sheet would stumble over.
func unclear(s *scene.Scene) []string {
	var out []string
	var texts []written
	for i, it := range s.Items {
		x, ok := it.(scene.Text)
		if !ok || strings.TrimSpace(x.Text) == "" || x.Grey > 0.5 { // what is written across is pale
			continue
		}
		w := written{x, i, inkOf(x, 0), scene.Empty()}
		for _, c := range w.ink {
			w.box = w.box.Add(c)
		}
		if w.box.MinX < 0 || w.box.MinY < 0 || w.box.MaxX > s.WidthMM || w.box.MaxY > s.HeightMM {
			out = append(out, fmt.Sprintf("%q leaves the page", x.Text))
		}
		if x.SizeMM < sheet.LeastEm-1e-6 {
			out = append(out, fmt.Sprintf("%q has capitals %.2f mm high", x.Text, 0.729*x.SizeMM))
		}
		w.box = w.box.Grow(nearMM)
		for _, o := range texts {
			near := nearMM / 2
			if o.Name == x.Name { // lines of one text
				near = 0
			}
			if w.box.Overlaps(o.box) && meets(inkOf(x, near), inkOf(o.Text, near)) {
				out = append(out, fmt.Sprintf("%q (%s) and %q (%s) touch", x.Text, x.Name, o.Text.Text, o.Name))
			}
		}
		texts = append(texts, w)
	}
	for k, it := range s.Items {
		sh, ok := it.(scene.Shape)
		if !ok || sh.Style.StrokeMM <= 0 || sh.Style.Grey > 0.5 {
			continue
		}
		box := scene.Bounds(sh)
		for _, w := range texts {
			if !box.Overlaps(w.box) || k < w.at && (w.Halo || coveredBetween(s.Items[k+1:w.at], w.ink)) {
				continue
			}
			letters := inkOf(w.Text, -grazeMM)
			for _, l := range straightsOf(sh) {
				if inside := within(letters, l[0], l[1]); inside > seenMM {
					out = append(out, fmt.Sprintf("a line (%s) runs %.1f mm through %q (%s)", sh.Name, inside, w.Text.Text, w.Name))
					break
				}
			}
		}
	}
	return out
}

// coveredBetween reports whether one of some items is white and lies under all of a text.
func coveredBetween(items []scene.Item, letters []scene.Point) bool {
	return slices.ContainsFunc(items, func(it scene.Item) bool {
		sh, ok := it.(scene.Shape)
		if !ok || !sh.Style.Fill || sh.Style.FillGrey < 0.99 {
			return false
		}
		b := scene.Bounds(sh)
		for _, c := range letters {
			if c.X < b.MinX || c.X > b.MaxX || c.Y < b.MinY || c.Y > b.MaxY {
				return false
			}
		}
		return true
	})
}

// straightsOf is a shape's outline in straight pieces.
func straightsOf(s scene.Shape) [][2]scene.Point {
	var out [][2]scene.Point
	for _, p := range s.Paths {
		at := p.Start
		to := func(q scene.Point) { out, at = append(out, [2]scene.Point{at, q}), q }
		for _, g := range p.Segments {
			if !g.Curve {
				to(g.To)
				continue
			}
			from := at
			for k := 1; k <= 6; k++ {
				t := float64(k) / 6
				r := 1 - t
				f := func(a, b, c, d float64) float64 { return r*r*r*a + 3*r*r*t*b + 3*r*t*t*c + t*t*t*d }
				to(scene.Point{X: f(from.X, g.C1.X, g.C2.X, g.To.X), Y: f(from.Y, g.C1.Y, g.C2.Y, g.To.Y)})
			}
		}
		if p.Closed {
			to(p.Start)
		}
	}
	return out
}

// within is how much of a line lies in a convex figure, mm.
func within(poly []scene.Point, a, b scene.Point) float64 {
	lo, hi := 0.0, 1.0
	turn := 0.0
	for k := range poly {
		p, q, r := poly[k], poly[(k+1)%len(poly)], poly[(k+2)%len(poly)]
		turn += (q.X-p.X)*(r.Y-q.Y) - (q.Y-p.Y)*(r.X-q.X)
	}
	for k := range poly {
		p, q := poly[k], poly[(k+1)%len(poly)]
		side := func(x scene.Point) float64 {
			return math.Copysign(1, turn) * ((q.X-p.X)*(x.Y-p.Y) - (q.Y-p.Y)*(x.X-p.X))
		}
		f, g := side(a), side(b)
		switch {
		case f < 0 && g < 0:
			return 0
		case f < 0:
			lo = math.Max(lo, f/(f-g))
		case g < 0:
			hi = math.Min(hi, f/(f-g))
		}
	}
	return math.Max(0, hi-lo) * math.Hypot(b.X-a.X, b.Y-a.Y)
}

// meets reports whether two convex figures share a place.
func meets(p, q []scene.Point) bool {
	for _, f := range [][2][]scene.Point{{p, q}, {q, p}} {
		for k := range f[0] {
			a, b := f[0][k], f[0][(k+1)%len(f[0])]
			n := scene.Point{X: b.Y - a.Y, Y: a.X - b.X}
			reach := func(poly []scene.Point) (lo, hi float64) {
				lo, hi = math.Inf(1), math.Inf(-1)
				for _, c := range poly {
					d := c.X*n.X + c.Y*n.Y
					lo, hi = math.Min(lo, d), math.Max(hi, d)
				}
				return lo, hi
			}
			l0, h0 := reach(p)
			l1, h1 := reach(q)
			if h0 <= l1 || h1 <= l0 {
				return false
			}
		}
	}
	return true
}
