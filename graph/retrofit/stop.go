package retrofit

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

// stop returns where pipe of a spec and size stops that ends at a part's port, with the
// bushes, transitions or barbs between them: as package route lays them, for there they are
// drawn, cut and ordered.
func (w work) stop(part *graph.Part, port string, spec catalog.Spec, size catalog.Size) end {
	far := &graph.Part{ID: part.ID + " far end", Kind: graph.Coupling, Existing: true, Spec: spec, Size: size,
		Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}, Place: graph.NoPlace()}
	run := &graph.Run{ID: "stop", From: at(part.ID, port), To: at(far.ID, graph.In), Spec: spec, Size: size, RoughnessMM: -1,
		Legs: []graph.Leg{leg(graph.Vec{X: 10000})}, Place: graph.NoPlace()}
	lay := route.Lay(&graph.Circuit{Catalog: w.cat, Parts: []*graph.Part{part, far}, Runs: []*graph.Run{run}})
	if len(lay.Paths) == 0 || len(lay.Paths[0].Stops) == 0 {
		return end{}
	}
	s := lay.Paths[0].Stops[0]
	return end{takeOff: s.TakeOffMM, depth: s.DepthMM, name: s.Fitting}
}

// lineTee is a tee of the line as it will be built in.
func (w work) lineTee() *graph.Part {
	p := &graph.Part{ID: "tee", Kind: graph.Tee, Spec: w.lineSpec, Size: w.lineSize, Place: graph.NoPlace()}
	for _, name := range graph.Tee.PortNames() {
		p.Ports = append(p.Ports, graph.Port{Name: name})
	}
	return p
}
