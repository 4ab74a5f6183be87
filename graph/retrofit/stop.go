package retrofit

import (
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route/laying"
)

// stop returns where pipe of a spec and size stops that ends at a part's port, with the
// bushes, transitions or barbs between them: as package route lays them, for there they are
// drawn, cut and ordered.
func (w work) stop(part *graph.Part, port string, spec catalog.Spec, size catalog.Size) end {
	e, _ := w.stopWith(part, port, spec, size)
	return e
}

// oldEnd is stop for the old pipe at a part of the string let into it, with the words for
// what stands between them.
func (w work) oldEnd(part *graph.Part, port string) (end, string) {
	return w.stopWith(part, port, w.oldSpec, w.oldSize)
}

// stopWith is stop, with the words for what stands between part and pipe.
func (w work) stopWith(part *graph.Part, port string, spec catalog.Spec, size catalog.Size) (end, string) {
	far := &graph.Part{ID: part.ID + " far end", Kind: graph.Coupling, Existing: true, Spec: spec, Size: size,
		Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}, Place: graph.NoPlace()}
	run := &graph.Run{ID: "stop", From: at(part.ID, port), To: at(far.ID, graph.In), Spec: spec, Size: size, RoughnessMM: -1,
		Legs: []graph.Leg{leg(graph.Vec{X: 10000})}, Place: graph.NoPlace()}
	lay := laying.Of(&graph.Circuit{Catalog: w.cat, Parts: []*graph.Part{part, far}, Runs: []*graph.Run{run}})
	if len(lay.Paths) == 0 || len(lay.Paths[0].Stops) == 0 {
		return end{}, ""
	}
	s := lay.Paths[0].Stops[0]
	var names []string
	for _, f := range lay.Paths[0].Fittings {
		if f.Point == 0 {
			names = append(names, strings.TrimPrefix(f.Kind, "reducing-"))
		}
	}
	between := strings.Join(names, " and ")
	if len(lay.Pieces) > 1 {
		between += ", with the nipple it stands on"
	}
	return end{takeOff: s.TakeOffMM, depth: s.DepthMM, name: s.Fitting}, between
}

// lineTee is a tee of the line as it will be built in.
func (w work) lineTee() *graph.Part {
	p := &graph.Part{ID: "tee", Kind: graph.Tee, Spec: w.lineSpec, Size: w.lineSize, Place: graph.NoPlace()}
	for _, name := range graph.Tee.PortNames() {
		p.Ports = append(p.Ports, graph.Port{Name: name})
	}
	return p
}

// lineOpening is a union or valve of the line as it will be built in.
func (w work) lineOpening(kind graph.Kind, b body) *graph.Part {
	p := &graph.Part{ID: "opens", Kind: kind, Spec: w.lineSpec, Size: w.lineSize, Place: graph.NoPlace(),
		Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}}
	if kind != graph.Union {
		p.Type, p.Valve = b.row.Name, &graph.ValveData{Position: 1}
	}
	return p
}
