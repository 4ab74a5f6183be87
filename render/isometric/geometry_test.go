package isometric

import (
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/scene"
)

// The axes of an isometric stand at 30° to the horizontal, X to the right, Y to the left, and
// are drawn without foreshortening. Source: ISO 5456-3, isometric axonometry (from memory).
func TestProject(t *testing.T) {
	for _, c := range []struct {
		v    graph.Vec
		x, y float64
	}{
		{graph.Vec{X: 10}, 8.660254, -5}, {graph.Vec{Y: 10}, -8.660254, -5}, {graph.Vec{Z: 10}, 0, -10},
		{graph.Vec{X: 7, Y: 7, Z: -7}, 0, 0}, // along the sight line
	} {
		if p := project(c.v); math.Abs(p.X-c.x) > 1e-6 || math.Abs(p.Y-c.y) > 1e-6 {
			t.Errorf("project(%v) = %v, want %g, %g", c.v, p, c.x, c.y)
		}
	}
}

// turned returns a description turned a quarter to the left, seen from above: what pointed
// right points to the back.
func turnedText(text string) string {
	next := map[string]string{"right": "back", "back": "left", "left": "front", "front": "right"}
	words := regexp.MustCompile(`\b(right|back|left|front)( \d| \?|")`)
	return words.ReplaceAllStringFunc(text, func(s string) string {
		m := words.FindStringSubmatch(s)
		return next[m[1]] + m[2]
	})
}

func layoutOf(t *testing.T, file, text string) *route.Layout {
	t.Helper()
	c, _ := description.Read(file, []byte(text))
	if c == nil {
		t.Fatalf("%s is not read", file)
	}
	p, err := plan.Make(c, plan.Findings)
	if err != nil {
		t.Fatal(err)
	}
	return p.After.Layout
}

// Turning a description a quarter about Z turns the display alike: every leg is drawn as long
// as before, and along the turned axis.
func TestTurnedAboutZ(t *testing.T) {
	for _, file := range demos(t) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		before := newDrawing(Input{Layout: layoutOf(t, file, text)})
		after := newDrawing(Input{Layout: layoutOf(t, file, turnedText(text))})
		ms, ns := before.members(), after.members()
		if len(ms) != len(ns) {
			t.Errorf("%s: %d members, turned %d", file, len(ms), len(ns))
			continue
		}
		var grow [3]map[int]float64
		a, b := show(ms, before.spaceOf(ms, 1, grow))
		c, d := show(ns, after.spaceOf(ns, 1, grow))
		for i := range ms {
			v, w := b[i].Sub(a[i]), d[i].Sub(c[i])
			if want := (graph.Vec{X: -v.Y, Y: v.X, Z: v.Z}); w.Sub(want).Len() > 1e-6 {
				t.Errorf("%s: member %d is drawn %v, turned %v, want %v", file, i, v, w, want)
			}
		}
	}
}

// Along the axes every member is drawn in its own direction, long enough to be read, and the
// drawn members of every loop sum to nothing: walking any way from a place to another ends at
// the same point of the paper.
func TestLoopsClose(t *testing.T) {
	for _, file := range demos(t) {
		d := newDrawing(input(t, file))
		ms := d.members()
		for name, sp := range map[string]*space{"plain": d.spaceOf(ms, 1, [3]map[int]float64{}), "apart": d.apart(ms, 1)} {
			a, b := show(ms, sp)
			at := map[[3]int]graph.Vec{}
			loops := 0
			for left := len(ms); left > 0; {
				grown := false
				for i := range ms {
					p, okP := at[key(ms[i].a)]
					q, okQ := at[key(ms[i].b)]
					v := drawnWay(t, &ms[i], b[i].Sub(a[i]).Len(), b[i].Sub(a[i]))
					switch {
					case okP && okQ:
						if q.Sub(p).Sub(v).Len() > 1e-6 {
							t.Errorf("%s, %s: member %d misses by %v", file, name, i, q.Sub(p).Sub(v))
						}
						continue
					case okP:
						at[key(ms[i].b)] = p.Add(v)
					case okQ:
						at[key(ms[i].a)] = q.Sub(v)
					default:
						continue
					}
					grown = true
				}
				if !grown {
					seeded := false
					for i := range ms {
						if _, ok := at[key(ms[i].a)]; !ok {
							at[key(ms[i].a)] = a[i]
							seeded = true
							loops++
							break
						}
					}
					if !seeded {
						left = 0
					}
				}
			}
			if loops == 0 {
				t.Errorf("%s: nothing walked", file)
			}
		}
	}
}

func key(v graph.Vec) [3]int {
	return [3]int{int(math.Round(v.X / 2)), int(math.Round(v.Y / 2)), int(math.Round(v.Z / 2))}
}

// drawnWay is the display way of a member from its length and its real direction alone; of a
// slanting one as displayed.
func drawnWay(t *testing.T, m *member, length float64, shown graph.Vec) graph.Vec {
	t.Helper()
	axes := axesOf(m.way())
	if len(axes) != 1 {
		return shown
	}
	if length < 3 {
		t.Errorf("a member of %.0f mm is drawn %.1f mm long", m.way().Len(), length)
	}
	u := axes[0].unit()
	return u.Scale(math.Copysign(length, u.Dot(m.way())))
}

// Longer gaps are not drawn shorter than shorter ones, and order is kept.
func TestLevelsRise(t *testing.T) {
	l := newLevels([]float64{300, 0, 0.4, 1000, 20, 300.2, -5})
	if len(l.real) != 5 {
		t.Fatalf("levels %v, want -5, 0, 20, 300, 1000", l.real)
	}
	l.spread([]span{{0, 4, 100}, {3, 1, 40}}, 1, nil)
	for i := 1; i < len(l.show); i++ {
		if l.show[i] <= l.show[i-1] {
			t.Errorf("display %v does not rise", l.show)
		}
	}
	if got := l.show[4] - l.show[0]; got < 100-1e-9 {
		t.Errorf("span of 100 is %.2f", got)
	}
	if got := l.show[3] - l.show[1]; got < 40-1e-9 {
		t.Errorf("span of 40 is %.2f", got)
	}
	if got, want := l.at(160), (l.show[2]+l.show[3])/2; math.Abs(got-want) > 1e-9 {
		t.Errorf("half way between levels is %.2f, want %.2f", got, want)
	}
}

// Of two pipes that cross on paper the one farther from the eye has a gap there. The eye is
// at the front, left and above.
func TestRearPipeHasGap(t *testing.T) {
	right := member{run: &graph.Run{ID: "right"}, isNew: true, a: graph.Vec{X: -40}, b: graph.Vec{X: 40}}
	for _, c := range []struct {
		z    float64
		rear int
	}{{60, 0}, {-60, 1}} {
		// seen from the front above, a pipe to the back at the height z crosses the first at
		// the origin of the paper where x = y = -z
		back := member{run: &graph.Run{ID: "back"}, isNew: true, a: graph.Vec{X: -c.z, Y: -c.z - 40, Z: c.z}, b: graph.Vec{X: -c.z, Y: -c.z + 40, Z: c.z}}
		p := &picture{ms: []member{right, back}}
		p.a, p.b = []graph.Vec{right.a, back.a}, []graph.Vec{right.b, back.b}
		for i := range p.ms {
			gaps := p.gaps(i)
			if i != c.rear && len(gaps) != 0 {
				t.Errorf("z %g: the front pipe has gaps %v", c.z, gaps)
			}
			if i == c.rear && (len(gaps) != 1 || gaps[0][0] >= 0.5 || gaps[0][1] <= 0.5) {
				t.Errorf("z %g: the rear pipe has gaps %v, want one about its middle", c.z, gaps)
			}
		}
	}
}

// Bars across a pipe are parallel to an axis: to Z on level pipe, to X on upright.
func TestSignsAreSkewed(t *testing.T) {
	bars := 0
	for _, page := range drawnFile(t, "../../testdata/two-speed.toml") {
		for _, it := range page.Items {
			s, ok := it.(scene.Shape)
			if !ok || !strings.HasPrefix(s.Tag, "symbol:union") || len(s.Paths) != 1 || len(s.Paths[0].Segments) != 1 {
				continue
			}
			bars++
			if w := s.Paths[0].Segments[0].To.X - s.Paths[0].Start.X; math.Abs(w) > 1e-9 {
				t.Errorf("a bar of %s leans by %.3f mm, want it upright", s.Tag, w)
			}
		}
	}
	if bars < 6 {
		t.Errorf("%d bars of two unions, want 6", bars)
	}
}

// A text in a plane lies along the pipe and leans with the plane's other axis.
func TestTextInPlane(t *testing.T) {
	for _, c := range []struct{ u, v graph.Vec }{
		{graph.Vec{X: 1}, graph.Vec{Z: 1}}, {graph.Vec{X: -1}, graph.Vec{Y: 1}}, {graph.Vec{Z: -1}, graph.Vec{Y: -1}}, {graph.Vec{Y: 1}, graph.Vec{Z: -1}},
	} {
		u, v := project(c.u), project(c.v)
		text := readable(u, v).lay(scene.Text{Text: "1200", SizeMM: 3})
		corners := text.Corners()
		along, up := unit(sub(corners[1], corners[0])), unit(sub(corners[3], corners[0]))
		if math.Abs(cross(along, u)) > 1e-6 {
			t.Errorf("%v %v: text runs along %v, want along %v", c.u, c.v, along, u)
		}
		if math.Abs(cross(up, v)) > 1e-6 {
			t.Errorf("%v %v: letters stand along %v, want along %v", c.u, c.v, up, v)
		}
		if cross(along, up) >= 0 || along.X < -1e-9 {
			t.Errorf("%v %v: text is mirrored or upside down", c.u, c.v)
		}
	}
}
