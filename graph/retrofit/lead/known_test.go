package lead

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/graph"
)

// What is known from problems before changes no answer, whatever was done with the answers and
// the problems since, and a problem that differs in a little is another one.
func TestKnownChangesNothing(t *testing.T) {
	known := &Known{}
	jobs := []func(p *Problem){
		func(*Problem) {},
		func(p *Problem) { p.To.Tap = Item{LengthMM: 120, DepthMM: 28, RadiusMM: 40} },
		func(p *Problem) { // a door and a shelf in the way
			p.Boxes = append(p.Boxes, Box{Low: graph.Vec{X: 1000, Y: -700, Z: -500}, High: graph.Vec{X: 1100, Y: 300, Z: 100}, Name: "the door"},
				Box{Low: graph.Vec{X: 300, Y: -700, Z: -900}, High: graph.Vec{X: 1000, Y: 100, Z: -100}, Name: "the shelf"})
		},
		func(p *Problem) { // walled in: nothing is found
			p.Roughly = true
			for k, axis := range []graph.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
				for _, sign := range []float64{-1, 1} {
					middle, half := p.To.End.Add(axis.Scale(700*sign)), [3]float64{800, 800, 800}
					half[k] = 20
					h := graph.Vec{X: half[0], Y: half[1], Z: half[2]}
					p.Boxes = append(p.Boxes, Box{Low: middle.Sub(h), High: middle.Add(h), Name: "wall"})
				}
			}
		},
		func(p *Problem) {
			alone, _ := Find(*p)
			p.Refused = []Refused{{To: alone.To, From: alone.From}}
		},
	}
	kept := 0
	for range 2 {
		for n, change := range jobs {
			p := job()
			change(&p)
			wantPair, wantMet := Find(p)
			p.Known = known
			pair, met := Find(p)
			if d := cmp.Diff(wantPair, pair) + cmp.Diff(wantMet, met); d != "" {
				t.Errorf("problem %d: %s", n, d)
			}
			// whoever asked does what he likes with it
			if pair != nil {
				pair.To[0] = graph.Vec{X: 1}
				pair.From = slices.Delete(pair.From, 0, 1)
			}
			p.Boxes[0].Name, p.Ways[0] = "another", graph.Vec{X: 7}
			clear(met)
		}
		if kept > 0 && len(known.answers) != kept {
			t.Errorf("%d answers are kept after %d", len(known.answers), kept)
		}
		kept = len(known.answers)
	}
	if kept < 1 {
		t.Errorf("%d answers are kept: too few to prove anything", kept)
	}
}

// That none leads there is known only where every way was tried: a search that stops at its bound
// says so, one whose ports face a wall does not.
func TestCutShort(t *testing.T) {
	p := job()
	if pair, _ := Find(p); pair == nil {
		t.Fatal("the job has no pair")
	}
	f := newFinder(p)
	f.steps = 3
	if pair, _ := f.find(); pair != nil || !f.cut {
		t.Errorf("after three steps: pair %v, cut short %v", pair, f.cut)
	}
	p.Boxes = append(p.Boxes, Box{Low: graph.Vec{X: 2200, Y: -900, Z: -600}, High: graph.Vec{X: 2390, Y: -100, Z: 400}, Name: "wall"})
	p.Known = &Known{}
	for range 2 { // the second time it may be remembered
		if pair, _ := Find(p); pair != nil || p.Known.Cut() {
			t.Errorf("walled in: pair %v, cut short %v", pair, p.Known.Cut())
		}
	}
	long := answer{cut: true}
	p.Known.keep(&p, long, longSteps+1)
	if _, _ = Find(p); !p.Known.Cut() {
		t.Error("an answer that is remembered forgets that it was cut short")
	}
}
