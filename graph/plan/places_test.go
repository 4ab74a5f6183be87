package plan_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
	"dryfit/graph/plan/stage"
)

var demos = []string{"circulation", "large-circulation", "two-speed", "plunge-pool", "plug-in"}

// What cutin says of a place has to be true: a place it calls possible, written out in full
// and read back, passes check without an error, closes and has an order of assembly, and
// has the flows that were promised; one it rules out, asked for by name, gets the same
// reasons from check.
func TestEveryPlaceOfTheDemos(t *testing.T) {
	for _, i := range lots.Of(len(demos)-1, 2, 3) { // plug-in is drawn in full; circulation and large-circulation say no more than the others, and take longest
		name := demos[i]
		t.Run(name, func(t *testing.T) {
			c := readFile(t, "../../testdata/"+name+".toml")
			if placesHold(t, c) == 0 {
				t.Error("no place is possible")
			}
		})
	}
}

// The same over circuits drawn by lot: leg lengths, pipe, unit and surroundings.
func TestEveryPlaceOfDrawnCircuits(t *testing.T) {
	seeds, possible := lots.Of(16, 0, 6, 9, 12), 0
	for _, seed := range seeds {
		data := drawnJob(rand.New(rand.NewPCG(uint64(seed), 5)))
		c, ds := description.Read(fmt.Sprintf("drawn-%d.toml", seed), data)
		if c == nil || graph.HasErrors(ds) {
			t.Fatalf("seed %d: %v\n%s", seed, ds, data)
		}
		if !t.Run(fmt.Sprint(seed), func(t *testing.T) { possible += placesHold(t, c) }) {
			t.Logf("%s", data)
		}
	}
	if possible < len(seeds)/2 {
		t.Errorf("%d possible places in %d circuits: too few to prove anything", possible, len(seeds))
	}
}

// placesHold looks at every place of a circuit and returns how many are possible.
func placesHold(t *testing.T, c *graph.Circuit) int {
	t.Helper()
	open := asked(c, nil)
	all := work(t, open, plan.Findings|plan.Places|plan.Swift)
	possible := 0
	for _, v := range all.Places {
		cut := &graph.Cut{Run: v.Place.Run, Leg: v.Place.Leg, AtMM: v.Place.FromMM, Pos: c.Retrofit.Pos}
		p := work(t, asked(c, cut), plan.Findings|plan.Flows|plan.Swift)
		switch v.Verdict {
		case "best", "possible", "possible if":
			possible++
			holds(t, v, p)
		case "ruled out":
			for _, r := range v.Reasons {
				if !hasFinding(p.Findings, r) {
					t.Errorf("%s is ruled out: %s [%s]; asked for by name, check says %v", v.Place.Where(), r.Text, r.Rule, errorsOf(p.Findings))
				}
			}
			if !graph.HasErrors(p.Findings) {
				t.Errorf("%s is ruled out, but check finds no error there", v.Place.Where())
			}
		}
	}
	return possible
}

// asked returns the circuit with the cut asked for; nil leaves it open.
func asked(c *graph.Circuit, cut *graph.Cut) *graph.Circuit {
	out := *c
	r := *c.Retrofit
	r.Cut = cut
	out.Retrofit = &r
	return &out
}

// holds checks a possible place: as planned, and as written out and read back.
func holds(t *testing.T, v search.Verdict, planned *plan.Plan) {
	t.Helper()
	where := v.Place.Where()
	text := description.Write(planned.Circuit)
	c, ds := description.Read("written.toml", text)
	if c == nil || graph.HasErrors(ds) {
		t.Errorf("%s: the plan written out has errors: %v", where, errorsOf(ds))
		return
	}
	if again := description.Write(c); !bytes.Equal(again, text) {
		t.Errorf("%s: written, read and written again it is another text", where)
	}
	p := work(t, c, plan.Findings|plan.Flows)
	for _, d := range errorsOf(p.Findings) {
		t.Errorf("%s, written out: %s", where, d)
	}
	if !p.Assembly.OK {
		t.Errorf("%s, written out: no order of assembly", where)
	}
	for _, closure := range p.After.Layout.Closures {
		if miss := closure.ErrorMM.Len(); miss > 0.5 && slicesNew(p, closure.Runs) {
			t.Errorf("%s, written out: the loop of %v misses itself by %.2f mm", where, closure.Runs, miss)
		}
	}
	sameFlows(t, where+", before", planned.Before, p.Before)
	sameFlows(t, where+", after", planned.After, p.After)
	if a, b := cuts(planned.After), cuts(p.After); a != b {
		t.Errorf("%s: pieces to cut\n%s\nwritten out\n%s", where, a, b)
	}
}

// slicesNew reports whether a loop has new pipe in it: old pipe closes or not as it stands.
func slicesNew(p *plan.Plan, runs []string) bool {
	for _, id := range runs {
		if r := p.Circuit.Run(id); r != nil && r.New() {
			return true
		}
	}
	return false
}

// cuts lists the pieces of a stage.
func cuts(s *stage.Stage) string {
	var b strings.Builder
	for _, piece := range s.Layout.Pieces {
		fmt.Fprintf(&b, "%s %.9f\n", piece.Run.ID, piece.CutMM)
	}
	return b.String()
}

func sameFlows(t *testing.T, where string, a, b *stage.Stage) {
	t.Helper()
	if (a == nil) != (b == nil) {
		t.Errorf("%s: a stage is lost", where)
		return
	}
	if a == nil {
		return
	}
	if len(a.Solutions) != len(b.Solutions) {
		t.Errorf("%s: %d modes, written out %d", where, len(a.Solutions), len(b.Solutions))
		return
	}
	for i := range a.Solutions {
		for _, f := range a.Solutions[i].Parts {
			g := b.Solutions[i].Part(f.Part.ID)
			if g == nil || !agree.Within(g.Flow, f.Flow, 1e-9*math.Abs(f.Flow)+1e-12) {
				t.Errorf("%s, %s: %q passes %.4f m3/h, written out %v", where, a.Solutions[i].Mode.Name, f.Part.ID, f.Flow*3600, g)
			}
		}
	}
}

// newParts is what differs between two legs of a run that are ruled out for the same reason: how
// many parts the work there comes to.
var newParts = regexp.MustCompile(`^\d+ new parts \([^)]*\)`)

func hasFinding(ds []graph.Diagnostic, r search.Reason) bool {
	for _, d := range ds {
		if d.Rule == r.Rule && newParts.ReplaceAllString(d.Message.String(), "") == newParts.ReplaceAllString(r.Text.String(), "") && d.Severity == graph.Error {
			return true
		}
	}
	return false
}

func errorsOf(ds []graph.Diagnostic) []string {
	var out []string
	for _, d := range ds {
		if d.Severity == graph.Error {
			out = append(out, fmt.Sprintf("%s [%s]", d.Message, d.Rule))
		}
	}
	return out
}

// drawnJob is a tub drawn by lot: a pump of one or two speeds, a filter, an element, jets, and
// between them runs of one to four legs. All of it is invented.
func drawnJob(lot *rand.Rand) []byte {
	pick := func(words ...string) string { return words[lot.IntN(len(words))] }
	mm := func(least, most int) int { return least + 10*lot.IntN((most-least)/10+1) }
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	pipe := pick("pvc-sch40 2 in", "pvc-sch80 1 1/2 in", "pvc-sch40 1 1/2 in", "pvc-pn16 50 mm", "pvc-pn10 63 mm", "pvc-sch80 2 in", "flex-inch 1 1/2 in", "hose 38 mm")
	spec, size, _ := strings.Cut(pipe, " ")
	p("[job]\nunits = %q\n[pipe]\nspec = %q\nsize = %q\n", pick("metric", "inch"), spec, size)
	p("[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"drain\", \"jets\"]\n")
	p("[[part]]\nid = \"pump\"\nkind = \"pump\"\nexisting = true")
	if lot.IntN(2) == 0 {
		p(`speeds = [{ name = "low", curve = [["0 m3/h", "5 m"], ["8 m3/h", "4 m"], ["15 m3/h", "1 m"]] }, { name = "high", curve = [["0 m3/h", "16 m"], ["16 m3/h", "11 m"], ["30 m3/h", "3 m"]] }]`)
	} else {
		p(`speeds = [{ name = "on", curve = [["0 m3/h", "8 m"], ["8 m3/h", "6 m"], ["15 m3/h", "2 m"]] }]`)
	}
	p("[[part]]\nid = \"filter\"\nkind = \"filter\"\nexisting = true\nloss = { flow = \"10 m3/h\", drop = \"4 kPa\" }\n")
	p("[[part]]\nid = \"element\"\nkind = \"element-heater\"\nexisting = true\ndisconnected = true\nloss = { flow = \"10 m3/h\", drop = \"2 kPa\" }\n")
	p("[[part]]\nid = \"jets\"\nkind = \"jet-group\"\nexisting = true\ncount = 14\nbore = \"6.5 mm\"\n")
	feeder := lot.IntN(3) == 0
	if feeder {
		p("[[part]]\nid = \"feeder\"\nkind = \"feeder\"\nexisting = true\nloss = \"none\"\n")
	}
	p("[[part]]\nid = \"unit\"\nkind = \"heat-pump\"\nports-size = %q\nflow = { least = \"1.5 m3/h\", rated = %q, most = \"9 m3/h\" }\nloss = { flow = \"4 m3/h\", drop = \"5 kPa\" }\n",
		pick("1 1/2 in", "50 mm"), pick("3 m3/h", "4 m3/h"))

	ways := []string{"right", "up", "front", "left", "down", "back"}
	run := func(from, to string) {
		p("[[run]]\nfrom = %q\nto = %q\nexisting = true", from, to)
		if lot.IntN(6) == 0 {
			p("length = \"%d mm\"", mm(300, 2000))
			return
		}
		var legs []string
		last := lot.IntN(6)
		for range 1 + lot.IntN(4) {
			last = (last + 1 + lot.IntN(2)) % 6
			legs = append(legs, fmt.Sprintf("%q", fmt.Sprintf("%s %d mm", ways[last], mm(150, 1400))))
		}
		p("legs = [%s]", strings.Join(legs, ", "))
		if lot.IntN(3) == 0 {
			p("clear = \"%d mm\"", mm(60, 200))
		}
		if lot.IntN(8) == 0 {
			p("reachable = false")
		}
		if lot.IntN(3) == 0 {
			p("play = \"%d mm\"\nspring-aside = true", mm(10, 90))
		}
	}
	run("tub.drain", "pump.in")
	run("pump.out", "filter.in")
	run("filter.out", "element.in")
	if feeder {
		run("element.out", "feeder.in")
		run("feeder.out", "jets.in")
	} else {
		run("element.out", "jets.in")
	}
	p("[[run]]\nfrom = \"jets.out\"\nto = \"tub.jets\"\nexisting = true\nlength = \"0 mm\"\n")
	p("[retrofit]\nunit = \"unit\"")
	switch lot.IntN(4) {
	case 0:
		p("spec = %q", pick("pvc-sch40", "pvc-pn16", "pvc-sch80"))
	case 1:
		p("true-union = false")
	case 2:
		p("isolators = %q", pick("ball-valve", "gate-valve"))
	}
	return []byte(b.String())
}
