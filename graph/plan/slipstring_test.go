package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// A string between two slip couplings is 2 mm shorter than the gap between the saw's two lines, so
// that it drops in, and of one at one coupling 1 mm: rebuilt from the pieces' own lengths and those
// of the bodies between them. 1 mm for each is common practice, no source. It stays that when the
// plan is written out and read back.
func TestStringDropsIn(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		bypass string
		slips  int
		short  float64
	}{{"none", 2, 2}, {"auto", 1, 1}} {
		text := replaced(t, string(data), []string{`bypass = "auto"`, "slip-coupling = true\ntrue-union = false\nbypass = \"" + c.bypass + `"`,
			"play = \"45 mm\"", "#", "pushes-aside = true", "", "disconnected = true", "disconnected = true"})
		first := work(t, read(t, "slip.toml", []byte(text)), plan.Findings|plan.Lists)
		if first.Proposal == nil {
			t.Fatalf("%s: nothing proposed: %v", c.bypass, first.Findings)
		}
		gap := first.Proposal.Place.ToMM - first.Proposal.Place.FromMM
		for name, p := range map[string]*plan.Plan{"planned": first, "read back": rewritten(t, first)} {
			lay := p.After.Layout
			slips, stringMM := 0, 0.0
			for _, part := range lay.Circuit.Parts {
				switch {
				case !part.New():
				case part.Kind == graph.SlipCoupling:
					slips++
				case part.Kind == graph.Tee && strings.HasPrefix(part.ID, "tee-"):
					row, _ := lay.Circuit.Catalog.Fitting("tee", "pvc-sch40", lay.Stage.Part(part.ID).Size.V)
					stringMM += 2 * row.TakeOffMM // stop to stop
				case part.ID == "bypass":
					stringMM += lay.Stage.Part(part.ID).Row.V.LengthMM
				}
			}
			words := 0
			for _, piece := range lay.Pieces {
				line := func(ref graph.PortRef) bool {
					part := lay.Circuit.Part(ref.Part)
					return part.Kind == graph.SlipCoupling || part.ID == "bypass" || strings.HasPrefix(part.ID, "tee-") && ref.Port != graph.Branch
				}
				if line(piece.Run.From) && line(piece.Run.To) {
					stringMM += piece.CutMM
					if piece.ShortWords() != "" {
						words++
					}
				}
			}
			if slips != c.slips || words != c.slips {
				t.Errorf("%s, %s: %d slip couplings and %d pieces said to be short, want %d", c.bypass, name, slips, words, c.slips)
			}
			// at the other end of a string with one coupling the old pipe goes to the stop of its tee
			if !agree.Within(stringMM, gap-c.short, exactMM) {
				t.Errorf("%s, %s: a string of %.2f mm in a gap of %.2f, want it %.0f mm shorter", c.bypass, name, stringMM, gap, c.short)
			}
		}
	}
}

// The same is said of a piece that comes to its slip coupling by a bush, where the new pipe is smaller
// than the old: the bush takes more off it, but what it is cut short by stays 1 mm.
func TestShortBehindAnAdaptor(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["out", "ret"]
[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "9 m"], ["12 m3/h", "2 m"]]
[[run]]
from = "tub.out"
to = "pump.in"
existing = true
length = "500 mm"
[[run]]
id = "old"
from = "pump.out"
to = "tub.ret"
existing = true
removed = true
legs = ["right 2000 mm"]
[[run]]
from = "pump.out"
to = "slip.in"
existing = true
remains-of = "old"
legs = ["right 500 mm"]
[[part]]
id = "slip"
kind = "slip-coupling"
size = "2 in"
[[run]]
from = "slip.out"
to = "valve.in"
size = "1 1/2 in"
legs = ["right 500 mm"]
[[part]]
id = "valve"
kind = "ball-valve"
size = "2 in"
[[run]]
from = "valve.out"
to = "tub.ret"
existing = true
remains-of = "old"
legs = ["right 1000 mm"]
`
	p := work(t, read(t, "bush.toml", []byte(text)), plan.Findings|plan.Lists)
	if len(p.After.Layout.Pieces) != 1 {
		t.Fatalf("%d pieces: %v", len(p.After.Layout.Pieces), p.Findings)
	}
	piece := &p.After.Layout.Pieces[0]
	if piece.From.Kind == string(graph.SlipCoupling) || piece.From.TakeOffMM <= 1 {
		t.Fatalf("the piece begins at %+v: no bush stands there", piece.From)
	}
	if got, want := piece.ShortWords().String(), "cut 1 mm short of the old pipe"; !strings.HasPrefix(got, want) {
		t.Errorf("%q is said of it, want %q", got, want)
	}
}
