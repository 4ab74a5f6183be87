package laying

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
)

var lengthAsked = regexp.MustCompile(`leg (\d+) of (\S+) (?:left|right|up|down|back|front) ([\d.]+) mm instead of [\d.]+ mm`)

// followAll does what all findings of a circuit together ask for on the lengths of legs, and returns how
// many it followed; a leg that is asked to be of two lengths is an error.
func followAll(t *testing.T, c *graph.Circuit, findings []graph.Diagnostic) int {
	t.Helper()
	asked := map[string]string{}
	for _, d := range findings {
		for _, m := range lengthAsked.FindAllStringSubmatch(d.Hint.In(0), -1) {
			leg := m[1] + " of " + m[2]
			if was := asked[leg]; was != "" && was != m[3] {
				t.Errorf("leg %s is to be %s mm, and %s mm", leg, was, m[3])
			}
			asked[leg] = m[3]
			k, _ := strconv.Atoi(m[1])
			mm, _ := strconv.ParseFloat(m[3], 64)
			r := c.Runs[slices.IndexFunc(c.Runs, func(r *graph.Run) bool { return r.ID == m[2] })]
			r.Legs[k-1].By = r.Legs[k-1].By.Unit().Scale(mm)
		}
	}
	return len(asked)
}

// However many loops hang together that no lengths close, no more legs are looked at than are allowed, but
// those of the last look; and with enough allowed all of them are told to stay open.
func TestMendingIsBounded(t *testing.T) {
	for _, most := range []int{1000, 100_000} {
		looked, loops := 0, 40
		c := &closing{missMM: make([]float64, loops), hose: make([]bool, loops), takes: func(legKey, float64) int { return nowLongEnough },
			looks: func(legs int) bool { looked += legs; return looked <= most }}
		for i := range loops {
			c.missMM[i] = float64(10 + i%7*i)
			c.missed = append(c.missed, i)
			if i > 0 { // one leg fewer than loops
				c.legs = append(c.legs, mendLeg{key: legKey{i, 0}, by: graph.Vec{X: 1000}, loops: map[int]float64{i - 1: 1, i: 1}})
			}
		}
		legs, open := c.close()
		if looked > most+len(c.legs) || looked < 1000 || len(legs) > 0 || len(open) != loops {
			t.Errorf("of %d: %d legs looked at, %d changed, %d loops open", most, looked, len(legs), len(open))
		}
	}
}

// Two loops share a leg, and each misses by a length of its own: what the two say is done together, and
// both close. Where a leg that one asks for is on another loop that closes, that one stays closed.
func TestLoopsThatShareALeg(t *testing.T) {
	for _, c := range []struct {
		name      string
		low, high float64 // the legs that only the first and only the second loop has
	}{
		{"both miss, each by its own", 1030, 1050},
		{"both miss by the same, as the shared leg does", 1030, 1030},
		{"one misses, the other closes", 1030, 1000},
	} {
		s := newSketch(catalog.PVCPN16, dn(50))
		a, b := s.part(graph.Manifold, "a", "one", "two", "three"), s.part(graph.Manifold, "b", "one", "two", "three")
		for _, p := range []*graph.Part{a, b} {
			p.Ports[1].At, p.Ports[2].At = &graph.Vec{Y: 300}, &graph.Vec{Y: 600}
		}
		for i, long := range []float64{c.low, 1000, c.high} {
			port := []string{"one", "two", "three"}[i]
			s.run("a."+port, "b."+port, right(long)).KeyPos = map[string]graph.Pos{}
		}
		before := Of(s.c).Findings
		if !strings.Contains(findings(before, graph.Error), "does not close") {
			t.Fatalf("%s: nothing misses: %s", c.name, told(before))
		}
		if n := followAll(t, s.c, before); n == 0 || n > 2 {
			t.Errorf("%s: %d legs are asked for:\n%s", c.name, n, told(before))
		}
		if after := findings(Of(s.c).Findings, graph.Error); after != "" {
			t.Errorf("%s: what was asked for is done, and then: %s\nasked:\n%s", c.name, after, told(before))
		}
	}
}

// Webs of pipe drawn by lot that close, some legs of which are then written wrong: everything the
// findings ask for is done once, all together, and every loop closes. Nothing outside the project.
func TestWebsAreMendedTogether(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 4))
	followed, nothing := 0, 0
	for trial := range 120 {
		s := newSketch(catalog.PVCPN16, dn(50))
		nodes := make([]graph.Vec, 4+random.IntN(3))
		for i := range nodes {
			nodes[i] = graph.Vec{X: float64(i%2) * 2400, Y: float64(i/2) * 1800, Z: float64(random.IntN(3)) * 700}
			p := s.part(graph.Manifold, fmt.Sprintf("n%d", i), "p0", "p1", "p2", "p3", "p4", "p5")
			for k := range p.Ports[1:] {
				p.Ports[k+1].At = &graph.Vec{Z: float64(k+1) * 130}
			}
		}
		used := make([]int, len(nodes))
		join := func(i, k int) {
			if i == k || used[i] > 5 || used[k] > 5 {
				return
			}
			by := nodes[k].Sub(nodes[i]).Add(graph.Vec{Z: float64(used[k]-used[i]) * 130})
			var legs []graph.Vec
			for _, leg := range []graph.Vec{right(by.X), back(by.Y), up(by.Z)} {
				if leg.Len() > 0 {
					legs = append(legs, leg)
				}
			}
			random.Shuffle(len(legs), func(i, k int) { legs[i], legs[k] = legs[k], legs[i] })
			s.run(fmt.Sprintf("n%d.p%d", i, used[i]), fmt.Sprintf("n%d.p%d", k, used[k]), legs...).KeyPos = map[string]graph.Pos{}
			used[i]++
			used[k]++
		}
		for i := 1; i < len(nodes); i++ {
			join(random.IntN(i), i)
		}
		for range 2 + random.IntN(3) {
			join(random.IntN(len(nodes)), random.IntN(len(nodes)))
		}
		if strings.Contains(told(Of(s.c).Findings), "the loop through") {
			t.Fatalf("trial %d: the web does not close before anything is wrong: %s", trial, told(Of(s.c).Findings))
		}
		for range 1 + random.IntN(3) {
			r := s.c.Runs[random.IntN(len(s.c.Runs))]
			leg := &r.Legs[random.IntN(len(r.Legs))]
			leg.By = leg.By.Add(leg.By.Unit().Scale(float64(random.IntN(90) - 40)))
		}
		before := Of(s.c).Findings
		if !strings.Contains(told(before), "the loop through") {
			continue // what is wrong is on no loop
		}
		if followAll(t, s.c, before) == 0 {
			nothing++
			continue
		}
		followed++
		if after := told(Of(s.c).Findings); strings.Contains(after, "the loop through") {
			t.Errorf("trial %d: what was asked for is done, and then:\n%s\nasked:\n%s", trial, after, told(before))
		}
	}
	t.Logf("%d followed, %d with nothing to follow", followed, nothing)
	if followed < 60 || nothing > followed/20 {
		t.Errorf("%d webs followed, in %d there was nothing to follow", followed, nothing)
	}
}
