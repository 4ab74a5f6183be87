package isometric

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/render/scene"
)

// ownTubs are tubs of kinds the demos do not have: a swim spa whose unit stands behind a garden
// wall, an octagonal tub with pipes along its slanted sides, a round one on hose, one in inches
// with a door to be kept clear, one sunk in a deck.
var ownTubs = []string{"swim-spa", "octagonal", "round-on-hose", "past-the-door", "sunk-in-deck"}

// inked are the lines of a name on a sheet, and the box round them.
type inkedAs struct {
	lines    [][2]scene.Point
	low, top scene.Point
}

func (k *inkedAs) centre() scene.Point {
	return scene.Point{X: (k.low.X + k.top.X) / 2, Y: (k.low.Y + k.top.Y) / 2}
}

// outOf is how far a point lies outside the box, mm.
func (k *inkedAs) outOf(p scene.Point) float64 {
	return math.Max(math.Max(k.low.X-p.X, p.X-k.top.X), math.Max(k.low.Y-p.Y, p.Y-k.top.Y))
}

// spread is how far the lines reach across the straight line that fits them best, mm.
func (k *inkedAs) spread() float64 {
	c, least := k.centre(), math.Inf(1)
	for deg := range 180 {
		n := scene.Point{X: math.Cos(float64(deg) * math.Pi / 180), Y: math.Sin(float64(deg) * math.Pi / 180)}
		most := 0.0
		for _, l := range k.lines {
			for _, p := range l {
				most = math.Max(most, math.Abs((p.X-c.X)*n.X+(p.Y-c.Y)*n.Y))
			}
		}
		least = math.Min(least, most)
	}
	return least
}

// namesOn are the shapes of a sheet by their names.
func namesOn(s *scene.Scene) map[string]*inkedAs {
	out := map[string]*inkedAs{}
	for _, it := range s.Items {
		shape, ok := it.(scene.Shape)
		if !ok || shape.Name == "" {
			continue
		}
		name := shape.Name
		if id, part := strings.CutPrefix(name, "part:"); part { // its pipe through the sign
			name = "symbol:" + id
		}
		k := out[name]
		if k == nil {
			k = &inkedAs{low: scene.Point{X: math.Inf(1), Y: math.Inf(1)}, top: scene.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
			out[name] = k
		}
		for _, l := range penLines(shape) {
			k.lines = append(k.lines, [2]scene.Point{l.a, l.b})
			for _, p := range []scene.Point{l.a, l.b} {
				k.low = scene.Point{X: math.Min(k.low.X, p.X), Y: math.Min(k.low.Y, p.Y)}
				k.top = scene.Point{X: math.Max(k.top.X, p.X), Y: math.Max(k.top.Y, p.Y)}
			}
		}
	}
	return out
}

// onPaper is the way of a real one on the paper: X to the upper right and Y to the upper left,
// both at 30 degrees, Z up. Source: ISO 5456-3 and ISO 6412-2 (from memory), written down anew.
func onPaper(v graph.Vec) scene.Point {
	const c, s = 0.8660254037844386, 0.5
	return scene.Point{X: c*v.X - c*v.Y, Y: -(s*v.X + s*v.Y + v.Z)}
}

func off(a, b scene.Point) float64 {
	return math.Abs(math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)) * 180 / math.Pi
}

// Every body of the plan that has a place, each leg of new pipe and each new part, stands on a
// sheet, and where it stands: a leg along an axis is drawn along it, a part touches the pipe that
// ends at it, and of two parts with one straight leg between them the second lies from the first
// as the legs say. What is on the sheet is read off its lines alone.
func TestBodiesStandAtTheirPlaces(t *testing.T) {
	legs, pairs := 0, 0
	for _, name := range ownTubs {
		file := "../../graph/plan/testdata/jobs/" + name + ".toml"
		in := input(t, file)
		var sheets []map[string]*inkedAs
		for _, s := range drawnFile(t, file) {
			if !strings.Contains(s.Name, "overview") { // there pipe runs through a sign under its own name
				sheets = append(sheets, namesOn(s))
			}
		}
		with := func(names ...string) map[string]*inkedAs {
			for _, s := range sheets {
				all := true
				for _, n := range names {
					all = all && s[n] != nil
				}
				if all {
					return s
				}
			}
			return nil
		}
		for _, p := range in.Layout.Circuit.Parts {
			if p.Existing {
				continue
			}
			s := with("symbol:" + p.ID)
			if s == nil {
				t.Errorf("%s: new part %s is on no sheet", name, p.ID)
				continue
			}
			if k := s["symbol:"+p.ID]; p.Kind != graph.Tee && k.spread() < 1 { // a tee's is its dot
				t.Errorf("%s: the sign of %s lies down on its pipe", name, p.ID)
			}
		}
		for i := range in.Layout.Paths {
			path := &in.Layout.Paths[i]
			if !path.Run.New() || !path.Located {
				continue
			}
			run := "run:" + path.Run.ID
			if with(run) == nil {
				t.Errorf("%s: %s is on no sheet", name, path.Run.ID)
				continue
			}
			for k := 1; k < len(path.Points); k++ {
				way := path.Points[k].Sub(path.Points[k-1])
				if !alongAxis(way) {
					continue
				}
				legs++
				found := false
				for _, s := range sheets {
					if s[run] == nil {
						continue
					}
					for _, l := range s[run].lines {
						d := scene.Point{X: l[1].X - l[0].X, Y: l[1].Y - l[0].Y}
						a := off(d, onPaper(way))
						found = found || math.Hypot(d.X, d.Y) > 0.5 && math.Min(a, 180-a) < 0.5
					}
				}
				if !found {
					t.Errorf("%s: leg %d of %s is drawn along no line of its axis", name, k, path.Run.ID)
				}
			}
			from, to := "symbol:"+path.Run.From.Part, "symbol:"+path.Run.To.Part
			for _, end := range []string{from, to} {
				s := with(run, end)
				if s == nil {
					continue
				}
				near := math.Inf(1)
				for _, l := range s[run].lines {
					near = math.Min(near, math.Min(s[end].outOf(l[0]), s[end].outOf(l[1])))
				}
				if near > 1.5 {
					t.Errorf("%s: %s ends %.1f mm from %s on the paper", name, path.Run.ID, near, strings.TrimPrefix(end, "symbol:"))
				}
			}
			if path.Run.From.Part == in.Asked.Unit || path.Run.To.Part == in.Asked.Unit {
				continue // its ports lie aside of its middle
			}
			if s := with(run, from, to); s != nil && len(path.Points) == 2 && alongAxis(path.Points[1].Sub(path.Points[0])) {
				a, b := s[from].centre(), s[to].centre()
				d := scene.Point{X: b.X - a.X, Y: b.Y - a.Y}
				pairs++
				if angle := off(d, onPaper(path.Points[1].Sub(path.Points[0]))); angle > 35 {
					t.Errorf("%s: %s lies %.0f degrees aside of where %s leads from %s", name, path.Run.To.Part, angle, path.Run.ID, path.Run.From.Part)
				}
			}
		}
	}
	if legs < 80 || pairs < 30 {
		t.Errorf("only %d legs and %d pairs of parts were looked at", legs, pairs)
	}
}
