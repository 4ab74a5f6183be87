package schematic

import (
	"fmt"
	"math/rand"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/render/schematic/arrange"
)

// plausible is a tub as one meets them, put together by chance: one pump or two, each with
// suctions, equipment in a row, and diverters, manifolds and tees that share the water out
// to jets in the tub's wall, some by way of a valve.
func plausible(rnd *rand.Rand) *graph.Circuit {
	m := newMaker()
	m.c.Parts[0].Ports = nil
	n := 0
	port := func(prefix string) string {
		n++
		name := fmt.Sprintf("%s-%d", prefix, n)
		m.c.Parts[0].Ports = append(m.c.Parts[0].Ports, graph.Port{Name: name})
		return name
	}
	id := func(k graph.Kind) string {
		n++
		return m.part(fmt.Sprintf("%s-%d", k, n), k)
	}
	// share leads what comes out of a part's port back to the tub.
	var share func(from, fromPort string, depth int)
	share = func(from, fromPort string, depth int) {
		switch k := rnd.Intn(6); {
		case k < 2 && depth > 0:
			d := id(graph.DiverterValve)
			m.run(from, fromPort, d, "in")
			share(d, "one", depth-1)
			share(d, "two", depth-1)
		case k == 2 && depth > 0:
			d := id(graph.Manifold)
			m.run(from, fromPort, d, "in")
			for i := range 2 + rnd.Intn(3) {
				share(d, fmt.Sprint("out-", i), depth-1)
			}
		case k == 3 && depth > 0:
			d := id(graph.Tee)
			m.run(from, fromPort, d, "run-in")
			share(d, "run-out", depth-1)
			share(d, "branch", depth-1)
		case k == 4:
			v := id(graph.BallValve)
			m.run(from, fromPort, v, "in")
			share(v, "out", 0)
		default:
			j := id(graph.JetGroup)
			m.run(from, fromPort, j, "in")
			m.run(j, "out", "tub", port("jets"))
		}
	}
	for range 1 + rnd.Intn(2) {
		pump := id(graph.Pump)
		switch rnd.Intn(3) {
		case 0:
			m.run("tub", port("suction"), pump, "in")
		case 1:
			t := id(graph.Tee)
			m.run("tub", port("suction"), t, "run-in")
			m.run("tub", port("suction"), t, "branch")
			m.run(t, "run-out", pump, "in")
		default:
			t := id(graph.Manifold)
			for i := range 2 + rnd.Intn(2) {
				m.run("tub", port("suction"), t, fmt.Sprint("from-", i))
			}
			m.run(t, "to", pump, "in")
		}
		last := pump
		for _, k := range []graph.Kind{graph.Filter, graph.ElementHeater, graph.OzoneInjector} {
			if rnd.Intn(2) == 0 {
				p := id(k)
				m.run(last, "out", p, "in")
				last = p
			}
		}
		share(last, "out", 3)
	}
	return m.c
}

// No pipe of a plausible tub runs through a sign or along another pipe, however its water is
// shared out.
func TestPipesOfPlausibleTubsKeepApart(t *testing.T) {
	for seed := range int64(lots.Count(120, 40)) {
		d := newDrawing(Input{Circuit: plausible(rand.New(rand.NewSource(seed)))})
		for _, most := range []float64{0, 110} {
			diagram := arrange.New(d.c, d.net, arrange.Measure{Part: d.measurePart, Run: d.measureRun, MostRow: most, Order: d.order})
			d.order = diagram.Order
			checkPipes(t, fmt.Sprintf("seed %d, rows of %g", seed, most), diagram)
		}
	}
}
