package retrofit

import (
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route/laying"
)

// stop returns where pipe of a spec and size stops that ends at a part's port, with the
// bushes, transitions or barbs between them: as package laying lays them, for there they are
// drawn, cut and ordered.
func (w work) stop(part *graph.Part, port string, spec catalog.Spec, size catalog.Size) draft.End {
	e, _ := w.stopWith(part, port, spec, size)
	return e
}

// oldEnd is stop for the old pipe at a part of the string let into it, with the words for
// what stands between them.
func (w work) oldEnd(part *graph.Part, port string) (draft.End, string) {
	return w.stopWith(part, port, w.oldSpec, w.oldSize)
}

// stopped is where a pipe stops at a part, and the words for what stands between.
type stopped struct {
	end     draft.End
	between string
}

// stopOf is what hangs together there: the part by all that its sockets are made from, its port
// and the pipe.
type stopOf struct {
	part             *graph.Part // of the description
	id, kind         string
	port             string
	spec, pipe       catalog.Spec
	size, size2, its catalog.Size
	face             graph.Vec // of the unit: the way the request says its ports look
}

// stops are those that were worked out already, with one catalogue.
type stops map[stopOf]stopped

// keptEnd is where new pipe of the old line's make stops in the adaptor that stays on an old
// part.
func (w work) keptEnd(part *graph.Part, ref graph.PortRef) draft.End {
	e, _ := w.lookStop(part, ref.Port, w.oldSpec, w.oldSize)
	return e
}

// stopWith is stop, with the words for what stands between part and pipe.
func (w work) stopWith(part *graph.Part, port string, spec catalog.Spec, size catalog.Size) (draft.End, string) {
	key := stopOf{id: part.ID, kind: string(part.Kind) + " " + part.Type, port: port, spec: part.Spec, size: part.Size, size2: part.BranchSize, pipe: spec, its: size}
	if part == w.unit {
		key.part = part
		if stand := w.asked.Stand; stand != nil {
			key.face = stand.PortsFace
		}
	}
	known, ok := w.stops[key]
	if !ok {
		known.end, known.between = w.lookStop(part, port, spec, size)
		w.stops[key] = known
	}
	return known.end, known.between
}

// lookStop lays the part with nothing but a pipe in its port.
func (w work) lookStop(part *graph.Part, port string, spec catalog.Spec, size catalog.Size) (draft.End, string) {
	far := &graph.Part{ID: part.ID + " far end", Kind: graph.Coupling, Existing: true, Spec: spec, Size: size,
		Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}, Surroundings: graph.NothingSaid()}
	run := &graph.Run{ID: "stop", From: draft.At(part.ID, port), To: draft.At(far.ID, graph.In), Spec: spec, Size: size, RoughnessMM: -1,
		Legs: []graph.Leg{draft.Leg(graph.Vec{X: 10000})}, Surroundings: graph.NothingSaid()}
	if part == w.unit { // what stands on a port that is sunk into the case stands before it
		part = faced(part, w.asked.Stand)
	}
	if part.Existing { // then what stands on it does so already
		run.AdaptorsKept = []graph.PortRef{run.From}
	}
	lay := laying.Of(&graph.Circuit{Catalog: w.cat, Parts: []*graph.Part{part, far}, Runs: []*graph.Run{run}})
	if len(lay.Paths) == 0 || len(lay.Paths[0].Stops) == 0 {
		return draft.End{}, ""
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
	return draft.End{TakeOff: s.TakeOffMM, Depth: s.DepthMM, Name: s.Fitting}, between
}

// lineTee is a tee of the line as it will be built in.
func (w work) lineTee() *graph.Part {
	p := &graph.Part{ID: "tee", Kind: graph.Tee, Spec: w.lineSpec, Size: w.lineSize, Surroundings: graph.NothingSaid()}
	for _, name := range graph.Tee.PortNames() {
		p.Ports = append(p.Ports, graph.Port{Name: name})
	}
	return p
}

// lineOpening is a union or valve of the line as it will be built in.
func (w work) lineOpening(kind graph.Kind, b body) *graph.Part {
	p := &graph.Part{ID: "opens", Kind: kind, Spec: w.lineSpec, Size: w.lineSize, Surroundings: graph.NothingSaid(),
		Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}}
	if kind != graph.Union {
		p.Type, p.Valve = b.row.Name, &graph.ValveData{Position: 1}
	}
	return p
}
