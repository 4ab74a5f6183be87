package isometric

import (
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
	"dryfit/render/isometric/space"
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
		if p := space.Project(c.v); !agree.Within(p.X, c.x, 1e-6) || !agree.Within(p.Y, c.y, 1e-6) {
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
		before := members.NewDrawing(Input{Layout: layoutOf(t, file, text)})
		after := members.NewDrawing(Input{Layout: layoutOf(t, file, turnedText(text))})
		ms, ns := before.Members(), after.Members()
		if len(ms) != len(ns) {
			t.Errorf("%s: %d members, turned %d", file, len(ms), len(ns))
			continue
		}
		var grow [3]map[int]float64
		a, b := members.Show(ms, before.SpaceOf(ms, 1, grow))
		c, d := members.Show(ns, after.SpaceOf(ns, 1, grow))
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
		d := members.NewDrawing(input(t, file))
		ms := d.Members()
		for name, sp := range map[string]*space.Space{"plain": d.SpaceOf(ms, 1, [3]map[int]float64{}), "apart": d.Apart(ms, 1)} {
			a, b := members.Show(ms, sp)
			at := map[[3]int]graph.Vec{}
			loops := 0
			for left := len(ms); left > 0; {
				grown := false
				for i := range ms {
					p, okP := at[key(ms[i].A)]
					q, okQ := at[key(ms[i].B)]
					v := drawnWay(t, &ms[i], b[i].Sub(a[i]).Len(), b[i].Sub(a[i]))
					switch {
					case okP && okQ:
						if q.Sub(p).Sub(v).Len() > 1e-6 {
							t.Errorf("%s, %s: member %d misses by %v", file, name, i, q.Sub(p).Sub(v))
						}
						continue
					case okP:
						at[key(ms[i].B)] = p.Add(v)
					case okQ:
						at[key(ms[i].A)] = q.Sub(v)
					default:
						continue
					}
					grown = true
				}
				if !grown {
					seeded := false
					for i := range ms {
						if _, ok := at[key(ms[i].A)]; !ok {
							at[key(ms[i].A)] = a[i]
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
func drawnWay(t *testing.T, m *members.Member, length float64, shown graph.Vec) graph.Vec {
	t.Helper()
	axes := space.AxesOf(m.Way())
	if len(axes) != 1 {
		return shown
	}
	if length < 3 {
		t.Errorf("a member of %.0f mm is drawn %.1f mm long", m.Way().Len(), length)
	}
	u := axes[0].Unit()
	return u.Scale(math.Copysign(length, u.Dot(m.Way())))
}

// Longer gaps are not drawn shorter than shorter ones, and order is kept.
func TestLevelsRise(t *testing.T) {
	l := space.NewLevels([]float64{300, 0, 0.4, 1000, 20, 300.2, -5})
	if len(l.Real) != 5 {
		t.Fatalf("levels %v, want -5, 0, 20, 300, 1000", l.Real)
	}
	l = l.Spread(l.Gaps([]space.Span{{From: 0, To: 4, Want: 100}, {From: 3, To: 1, Want: 40}}, 1), nil)
	for i := 1; i < len(l.Show); i++ {
		if l.Show[i] <= l.Show[i-1] {
			t.Errorf("display %v does not rise", l.Show)
		}
	}
	if got := l.Show[4] - l.Show[0]; got < 100-1e-9 {
		t.Errorf("span of 100 is %.2f", got)
	}
	if got := l.Show[3] - l.Show[1]; got < 40-1e-9 {
		t.Errorf("span of 40 is %.2f", got)
	}
	if got, want := l.At(160), (l.Show[2]+l.Show[3])/2; !agree.Within(got, want, 1e-9) {
		t.Errorf("half way between levels is %.2f, want %.2f", got, want)
	}
}

// Of two pipes that cross on paper the one farther from the eye has a gap there. The eye is
// at the front, left and above.
func TestRearPipeHasGap(t *testing.T) {
	right := members.Member{Run: &graph.Run{ID: "right"}, IsNew: true, A: graph.Vec{X: -40}, B: graph.Vec{X: 40}}
	for _, c := range []struct {
		z    float64
		rear int
	}{{60, 0}, {-60, 1}} {
		// seen from the front above, a pipe to the back at the height z crosses the first at
		// the origin of the paper where x = y = -z
		back := members.Member{Run: &graph.Run{ID: "back"}, IsNew: true, A: graph.Vec{X: -c.z, Y: -c.z - 40, Z: c.z}, B: graph.Vec{X: -c.z, Y: -c.z + 40, Z: c.z}}
		p := &picture.Picture{Ms: []members.Member{right, back}}
		p.A, p.B = []graph.Vec{right.A, back.A}, []graph.Vec{right.B, back.B}
		for i := range p.Ms {
			gaps := p.Gaps(i)
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
			if !ok || !strings.HasPrefix(s.Name, "symbol:union") || len(s.Paths) != 1 || len(s.Paths[0].Segments) != 1 {
				continue
			}
			bars++
			if w := s.Paths[0].Segments[0].To.X - s.Paths[0].Start.X; !agree.Within(w, 0, 1e-9) {
				t.Errorf("a bar of %s leans by %.3f mm, want it upright", s.Name, w)
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
		u, v := space.Project(c.u), space.Project(c.v)
		text := space.Readable(u, v).Lay(scene.Text{Text: "1200", SizeMM: 3})
		corners := text.Corners()
		along, up := space.Unit(space.Sub(corners[1], corners[0])), space.Unit(space.Sub(corners[3], corners[0]))
		if !agree.Within(space.Cross(along, u), 0, 1e-6) {
			t.Errorf("%v %v: text runs along %v, want along %v", c.u, c.v, along, u)
		}
		if !agree.Within(space.Cross(up, v), 0, 1e-6) {
			t.Errorf("%v %v: letters stand along %v, want along %v", c.u, c.v, up, v)
		}
		if space.Cross(along, up) >= 0 || along.X < -1e-9 {
			t.Errorf("%v %v: text is mirrored or upside down", c.u, c.v)
		}
	}
}
