package retrofit

import (
	"os"
	"slices"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
)

// turned draws a run the other way round.
func turned(r *graph.Run) {
	slices.Reverse(r.Legs)
	for i := range r.Legs {
		r.Legs[i].By = r.Legs[i].By.Scale(-1)
	}
	r.From, r.To = r.To, r.From
}

// The check behind the second tee goes into every line: of the old pipe's size, bushed, of
// hose, drawn against the water, and with a slip coupling at that end. Each time it is the
// first thing behind the second tee in the way of the water, with its arrow that way, the terms
// add up to the room asked for, and what is old stays where it was. Geometry, no source needed.
func TestCheckBehindTheSecondTee(t *testing.T) {
	file := "../../testdata/plunge-pool.toml"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{"plain", "bushed", "hose", "slip coupling"} {
		for _, against := range []bool{false, true} {
			c, ds := description.Read(file, data)
			if c == nil {
				t.Fatal(ds)
			}
			old := c.Run(c.Retrofit.Cut.Run)
			switch line {
			case "bushed":
				c.Retrofit.BypassSize = catalog.Size{Metric: true, Nominal: 75}
			case "hose":
				old.Spec, old.Size = catalog.HosePipe, catalog.Size{Metric: true, Nominal: 38}
			case "slip coupling":
				c.Retrofit.SlipCoupling = true
			}
			lay := laying.Of(c.At(graph.Before))
			leg := longest(lay.Path(old.ID))
			if against {
				leg = len(old.Legs) + 1 - leg
				turned(old)
				lay = laying.Of(c.At(graph.Before))
			}
			choice := Choice{Bypass: "valve"}
			place, ok := NewSite(c, lay).PlaceAt(graph.Cut{Run: old.ID, Leg: leg, AtMM: -1}, choice)
			if !ok {
				t.Fatalf("%s: no place", line)
			}
			sum := 0.0
			for _, term := range place.Terms {
				sum += term.MM
			}
			if !agree.Within(sum, place.NeededMM, 1e-9) {
				t.Errorf("%s, against %v: the terms add up to %.2f mm, the whole is %.2f", line, against, sum, place.NeededMM)
			}
			p, ds := Build(c, lay, place, choice)
			if p == nil {
				t.Fatal(ds)
			}
			checks := p.Circuit.OfKind(graph.CheckValve)
			if len(checks) != 1 {
				t.Fatalf("%s, against %v: %d checks, want 1", line, against, len(checks))
			}
			after := laying.Of(p.Circuit.At(graph.After))
			net := after.Stage.Net()
			port, run := net.Inlet(checks[0])
			from, _ := net.Ends(run)
			if tee := net.Part(from.Part); port != graph.In || tee.Kind != graph.Tee || from.Port != graph.RunOut {
				t.Errorf("%s, against %v: the check hangs by %s on %s", line, against, port, from)
			}
			branch, _ := after.Stage.Branch()
			if branch == nil || branch.TeeOut.ID != from.Part {
				t.Errorf("%s, against %v: the check is not behind the unit's second tee", line, against)
			}
			was, is := lay.Path(old.ID), 0.0
			for i := range after.Paths {
				if after.Paths[i].Run.RemainsOf == old.ID {
					is += after.Paths[i].Points[0].Sub(after.Paths[i].Points[len(after.Paths[i].Points)-1]).Len()
				}
			}
			if is == 0 || is >= pathLength(was) {
				t.Errorf("%s, against %v: what is left of the old run is %.1f mm of %.1f", line, against, is, pathLength(was))
			}
			if n := len(after.Findings); n > len(lay.Findings) {
				t.Errorf("%s, against %v: %v", line, against, after.Findings[n-1].Message)
			}
		}
	}
}

func longest(path *route.Path) int {
	best, mm := 0, 0.0
	for k := 1; k < len(path.Points); k++ {
		if l := path.Points[k].Sub(path.Points[k-1]).Len(); l > mm {
			best, mm = k, l
		}
	}
	return best
}

func pathLength(path *route.Path) float64 {
	mm := 0.0
	for k := 1; k < len(path.Points); k++ {
		mm += path.Points[k].Sub(path.Points[k-1]).Len()
	}
	return mm
}
