package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/graph/route/laying"
	"dryfit/graph/route/solid"
)

// In cabinets drawn by lot no plan that is called possible has one thing inside another, and
// every one can be put together. Held against points sampled in each body by a test of their
// own, which knows no distances; and against the replay.
func TestDrawnCabinets(t *testing.T) {
	seeds, possible := lots.Of(10, 3, 8), 0
	for _, seed := range seeds {
		c := cabinet(t, seed)
		p := work(t, c, plan.Findings|plan.Places|plan.Swift)
		n := 0
		for _, v := range p.Places {
			if (v.Verdict == "best" || strings.HasPrefix(v.Verdict, "possible")) && n < 2 {
				n++
				q := work(t, asked(c, &graph.Cut{Run: v.Place.Run, Leg: v.Place.Leg, AtMM: v.Place.FromMM, Pos: c.Retrofit.Pos}), plan.Findings|plan.Flows)
				for _, d := range errorsOf(q.Findings) {
					t.Errorf("seed %d, %s: %s", seed, v.Place.Where(), d)
				}
				for _, block := range q.After.Bodies.Replay() {
					t.Errorf("seed %d, %s: joint %d can't be made", seed, v.Place.Where(), block.Joint)
				}
				for _, both := range inside(q.After.Bodies) {
					t.Errorf("seed %d, %s: %s", seed, v.Place.Where(), both)
				}
			}
		}
		possible += n
	}
	if possible < len(seeds)/2 {
		t.Errorf("%d possible places in %d cabinets: too few to prove anything", possible, len(seeds))
	}
}

// A pair of pipes that is refused is not built again at its place, what comes instead is
// whole, and the first can be gone back to.
func TestAnotherPairIsBuilt(t *testing.T) {
	c := cabinet(t, 8)
	before := laying.Of(c.At(graph.Before))
	site := retrofit.NewSite(c, before)
	tried := 0
	for _, place := range retrofit.NewSite(c, before).Places() {
		if place.TooShort() || place.MeasureFirst {
			continue
		}
		choice := site.FirstChoice(place.Run)
		first, _ := site.Build(place, choice)
		if first == nil || !first.Led() {
			continue
		}
		tried++
		found := first.Found()
		first.Refuse(true, false)
		second, _ := site.Build(place, choice)
		if second == nil || !second.Led() {
			t.Errorf("%s: no other pair", place.Where())
			continue
		}
		if a, b := legsOf(first, 0), legsOf(second, 0); a == b {
			t.Errorf("%s: the pipe to the unit is built again: %s", place.Where(), a)
		}
		if ds := laying.Of(second.Circuit.At(graph.After)).Findings; graph.HasErrors(ds) {
			t.Errorf("%s: the other pair: %v", place.Where(), ds)
		}
		first.Keep(found)
		if third, _ := site.Build(place, choice); third == nil || third.Led() || legsOf(third, 0) != legsOf(first, 0) || legsOf(third, 1) != legsOf(first, 1) {
			t.Errorf("%s: the first pair can't be gone back to", place.Where())
		}
	}
	if tried == 0 {
		t.Error("nothing was tried")
	}
}

// legsOf are the legs of one of the unit's two pipes.
func legsOf(p *retrofit.Proposal, strand int) string {
	var out []string
	for _, id := range p.Strands[strand] {
		if r := p.Circuit.Run(id); r != nil {
			for _, l := range r.Legs {
				out = append(out, fmt.Sprint(l.By))
			}
		}
	}
	return strings.Join(out, ", ")
}

func cabinet(t *testing.T, seed int) *graph.Circuit {
	t.Helper()
	return read(t, fmt.Sprintf("cabinet-%d.toml", seed), drawnCabinet(rand.New(rand.NewPCG(uint64(seed), 5))))
}

// inside lists the pairs of bodies, one of them new, of which a point of one, 2 mm below its
// skin, lies 1 mm below that of the other.
func inside(s *solid.Bodies) []string {
	var out []string
	for i := range s.All {
		for j := range s.All {
			a, b := &s.All[i], &s.All[j]
			if i == j || !a.New && !b.New || a.Group != b.Group || a.Group < 0 || s.Joined(i, j) {
				continue
			}
			if len(a.Core) > 0 && len(b.Core) > 0 && anyInside(a.Core, b.Core) {
				out = append(out, a.Name+" stands in "+b.Name)
			}
		}
	}
	return out
}

func anyInside(a, b []solid.Shape) bool {
	for _, p := range a {
		for _, q := range b {
			if boundsMeet(p, q) && slices.ContainsFunc(sampled(p), func(at graph.Vec) bool { return holdsPoint(q, at) }) {
				return true
			}
		}
	}
	return false
}

// boundsMeet reports whether there is a box with points of both solids.
func boundsMeet(p, q solid.Shape) bool {
	low, high := p.Bounds()
	from, to := q.Bounds()
	return low.X < to.X && from.X < high.X && low.Y < to.Y && from.Y < high.Y && low.Z < to.Z && from.Z < high.Z
}

// sampled are points of a solid, 2 mm below its skin.
func sampled(s solid.Shape) []graph.Vec {
	var out []graph.Vec
	if s.Radius() == 0 {
		low, high := s.Bounds()
		for n := range 7 * 7 * 7 {
			f := graph.Vec{X: float64(n%7) / 6, Y: float64(n/7%7) / 6, Z: float64(n/49) / 6}
			size := high.Sub(low).Sub(graph.Vec{X: 4, Y: 4, Z: 4})
			out = append(out, low.Add(graph.Vec{X: 2 + f.X*size.X, Y: 2 + f.Y*size.Y, Z: 2 + f.Z*size.Z}))
		}
		return out
	}
	from, to := s.Axis()
	way := to.Sub(from)
	u := way.Unit().Cross(graph.Vec{X: 1}).Unit()
	if u.Len() < 0.5 {
		u = way.Unit().Cross(graph.Vec{Y: 1}).Unit()
	}
	v := way.Unit().Cross(u)
	steps := max(2, int(way.Len()/8))
	for k := 1; k < steps; k++ {
		mid := from.Add(way.Scale(float64(k) / float64(steps)))
		out = append(out, mid)
		for n := range 12 {
			angle := float64(n) * math.Pi / 6
			out = append(out, mid.Add(u.Scale((s.Radius()-2)*math.Cos(angle))).Add(v.Scale((s.Radius()-2)*math.Sin(angle))))
		}
	}
	return out
}

// holdsPoint reports whether a point lies in a solid, 1 mm below its skin.
func holdsPoint(s solid.Shape, at graph.Vec) bool {
	if s.Radius() == 0 {
		low, high := s.Bounds()
		return at.X > low.X+1 && at.X < high.X-1 && at.Y > low.Y+1 && at.Y < high.Y-1 && at.Z > low.Z+1 && at.Z < high.Z-1
	}
	from, to := s.Axis()
	way := to.Sub(from)
	along := at.Sub(from).Dot(way.Unit())
	if along < 1 || along > way.Len()-1 {
		return false
	}
	return at.Sub(from.Add(way.Unit().Scale(along))).Len() < s.Radius()-1
}

// drawnCabinet is a cabinet drawn by lot: two pumps and their lines measured leg by leg, the
// equipment with its ports and boxes, walls or none, things to be kept clear, and a unit
// somewhere. All of it is invented.
func drawnCabinet(lot *rand.Rand) []byte {
	pick := func(words ...string) string { return words[lot.IntN(len(words))] }
	mm := func(least, most int) int { return least + 10*lot.IntN((most-least)/10+1) }
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	spec, size, _ := strings.Cut(pick("pvc-sch40 2 in", "pvc-sch40 1 1/2 in", "pvc-sch80 2 in", "pvc-pn10 63 mm", "pvc-pn16 50 mm"), " ")
	p("[job]\nunits = %q\n[pipe]\nspec = %q\nsize = %q\n", pick("metric", "inch"), spec, size)
	p("[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"skimmer\", \"footwell\", \"jets\", \"more\"]\nport.footwell = { at = [\"right %d mm\", \"down %d mm\"] }\n", mm(300, 900), mm(100, 400))
	boxed := lot.IntN(3) > 0
	part := func(id, kind, rest string, box string) {
		p("[[part]]\nid = %q\nkind = %q\nexisting = true\n%s", id, kind, rest)
		if boxed {
			p("box = %s", box)
		}
	}
	part("pump", "pump", "speeds = [{ name = \"low\", curve = [[\"0 m3/h\", \"5 m\"], [\"8 m3/h\", \"4 m\"], [\"15 m3/h\", \"1 m\"]] }, { name = \"high\", curve = [[\"0 m3/h\", \"16 m\"], [\"16 m3/h\", \"11 m\"], [\"30 m3/h\", \"3 m\"]] }]\nport.in = { faces = \"left\" }\nport.out = { at = [\"right 110 mm\", \"up 150 mm\"], faces = \"up\" }",
		`{ from = ["front 110 mm", "down 110 mm"], to = ["right 420 mm", "back 110 mm", "up 150 mm"] }`)
	part("filter", "filter", "loss = { flow = \"10 m3/h\", drop = \"4 kPa\" }\nport.in = { faces = \"left\" }\nport.out = { at = [\"right 180 mm\", \"down 140 mm\"], faces = \"right\" }",
		`{ from = ["front 90 mm", "down 300 mm"], to = ["right 180 mm", "back 90 mm", "up 200 mm"] }`)
	part("element", "element-heater", "disconnected = true\nloss = { flow = \"10 m3/h\", drop = \"2 kPa\" }\nport.in = { faces = \"left\" }\nport.out = { at = [\"right 330 mm\"], faces = \"right\" }",
		`{ from = ["front 70 mm", "down 60 mm"], to = ["right 330 mm", "back 60 mm", "up 110 mm"] }`)
	p("[[part]]\nid = \"jets\"\nkind = \"jet-group\"\nexisting = true\ncount = 14\nbore = \"6.5 mm\"\n")
	p("[[part]]\nid = \"jet-pump\"\nkind = \"pump\"\nexisting = true\ncurve = [[\"0 m3/h\", \"15 m\"], [\"20 m3/h\", \"8 m\"], [\"30 m3/h\", \"2 m\"]]\nport.in = { faces = \"left\" }\nport.out = { at = [\"right 110 mm\", \"up 150 mm\"], faces = \"up\" }\n")
	p("[[part]]\nid = \"more-jets\"\nkind = \"jet-group\"\nexisting = true\ncount = 10\n")
	ports := pick("1 1/2 in", "50 mm", "2 in")
	faces, apart := pick("left", "right"), pick("up 220 mm", "up 300 mm", "front 250 mm", "back 260 mm", "down 240 mm")
	if lot.IntN(2) == 0 {
		faces, apart = pick("back", "front"), pick("up 220 mm", "up 300 mm", "left 250 mm", "right 260 mm", "down 240 mm")
	}
	p("[[part]]\nid = \"unit\"\nkind = \"heat-pump\"\nports-size = %q\nflow = { least = \"1.5 m3/h\", rated = \"3 m3/h\", most = \"12 m3/h\" }\nloss = { flow = \"4 m3/h\", drop = \"5 kPa\" }\nport.out.at = [%q]\n",
		ports, apart)
	run := func(id, from, to string, legs ...string) {
		p("[[run]]\nid = %q\nfrom = %q\nto = %q\nexisting = true\nlegs = [\"%s\"]", id, from, to, strings.Join(legs, "\", \""))
		if lot.IntN(3) == 0 {
			p("play = \"%d mm\"", mm(10, 90))
		}
	}
	run("suction", "tub.skimmer", "pump.in", fmt.Sprintf("down %d mm", mm(300, 500)), fmt.Sprintf("front %d mm", mm(200, 320)), fmt.Sprintf("right %d mm", mm(300, 700)))
	run("discharge", "pump.out", "filter.in", fmt.Sprintf("up %d mm", mm(130, 250)), fmt.Sprintf("right %d mm", mm(240, 500)))
	run("heated", "filter.out", "element.in", fmt.Sprintf("right %d mm", mm(150, 700)))
	turn := pick("up", "down", "back", "front")
	run("return-line", "element.out", "jets.in", fmt.Sprintf("right %d mm", mm(160, 1300)), fmt.Sprintf("%s %d mm", turn, mm(200, 700)), fmt.Sprintf("left %d mm", mm(300, 1500)), fmt.Sprintf("up %d mm", mm(120, 300)))
	p("[[run]]\nfrom = \"jets.out\"\nto = \"tub.jets\"\nexisting = true\nlength = \"0 mm\"\n")
	run("jet-suction", "tub.footwell", "jet-pump.in", fmt.Sprintf("down %d mm", mm(200, 400)), fmt.Sprintf("front %d mm", mm(100, 700)), fmt.Sprintf("right %d mm", mm(200, 1500)))
	run("jet-line", "jet-pump.out", "more-jets.in", fmt.Sprintf("up %d mm", mm(150, 500)), fmt.Sprintf("%s %d mm", pick("left", "right"), mm(200, 1200)), fmt.Sprintf("back %d mm", mm(150, 400)))
	p("[[run]]\nfrom = \"more-jets.out\"\nto = \"tub.more\"\nexisting = true\nlength = \"0 mm\"\n")
	if lot.IntN(2) == 0 {
		p("[cabinet]\nat-from = \"tub.skimmer\"\nfrom = [\"left %d mm\", \"front %d mm\", \"down %d mm\"]\nto = [\"right %d mm\", \"back 400 mm\", \"up %d mm\"]\n", mm(300, 900), mm(500, 1200), mm(600, 950), mm(2400, 4200), mm(300, 700))
	}
	p("[retrofit]\nunit = \"unit\"\nat = [\"front %d mm\", %q, %q]\nat-from = %q\nports-face = %q", mm(300, 1500), fmt.Sprintf("%s %d mm", pick("left", "right"), mm(300, 3200)), fmt.Sprintf("%s %d mm", pick("up", "down", "down"), mm(0, 600)),
		pick("tub.skimmer", "element.out"), faces)
	if lot.IntN(3) == 0 {
		x := mm(600, 2200)
		p("keep-clear = [{ from = [\"right %d mm\", \"front 200 mm\", \"down 800 mm\"], to = [\"right %d mm\", \"front 900 mm\", \"up 200 mm\"], what = \"door\" }]", x, x+mm(100, 500))
	}
	switch lot.IntN(8) {
	case 0:
		p("true-union = false")
	case 1:
		p("isolators = %q", pick("gate-valve", "butterfly-valve"))
	case 2:
		p("slip-coupling = true")
	case 3:
		p("along = [\"%s %d mm\"]", pick("down", "front", "up"), mm(200, 500))
	}
	return []byte(b.String())
}
