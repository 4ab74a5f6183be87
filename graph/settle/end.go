package settle

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
)

// BeadMM is left between the faces of two sockets for the bead of cement, mm. Common
// practice, no source.
const BeadMM = 5

// End is what stands where a run ends at a part.
type End struct {
	Ref      graph.PortRef
	Part     *Part // nil: there is no such part
	Socket   Socket
	DepthMM  float64   // of the part's own socket
	Adaptors []Adaptor // from the part to the pipe
	Kept     bool      // they were there before and stay
}

// Adaptor is a fitting between a part and a run's pipe: a bush or reducer where sizes
// differ, a transition where families do, a barb on hose, a coupling between two spigots.
type Adaptor struct {
	Kind         string
	Row          catalog.Row
	Known        bool         // the catalogue has it
	Spec, Spec2  catalog.Spec // towards the part, towards the pipe
	Size, Size2  catalog.Size
	AddsMM       float64 // to the take-off
	NippleMM     float64 // cut length of the nipple before it; 0: its spigot goes straight in
	NippleFromMM float64 // insertion depths of the nipple
	NippleToMM   float64
	DepthMM      float64 // of the socket towards the pipe

	onNipple bool // its socket towards the part wants a nipple
}

// settleEnds finds what a run meets at its two ends.
func (s *Stage) settleEnds(r *Run) {
	for k, ref := range []graph.PortRef{r.From, r.To} {
		r.Ends[k] = s.settleEnd(r.Run, ref)
	}
}

func (s *Stage) settleEnd(run *graph.Run, ref graph.PortRef) End {
	p := s.Part(ref.Part)
	if p == nil {
		return End{Ref: ref, DepthMM: s.depth(run.Spec, run.Size)}
	}
	e := End{Ref: ref, Part: p, Socket: s.socketAt(p, ref.Port, run), Kept: p.Existing && run.New() && run.Keeps(ref)}
	row := e.Socket.Row
	e.DepthMM = s.depth(e.Socket.Spec, e.Socket.Size)
	if Fitted(p.Kind) && row.SocketMM > 0 && (e.Socket.Size == row.Size || row.Size.IsZero()) {
		e.DepthMM = row.SocketMM
	}
	e.Adaptors = s.adapt(&e, run)
	depth, at := e.DepthMM, 0.0
	for i := range e.Adaptors {
		a := &e.Adaptors[i]
		if a.onNipple { // as short as its two sockets allow, and out of the case of the part
			a.NippleFromMM, a.NippleToMM = depth, s.depth(a.Spec, a.Size)
			a.NippleMM = max(a.NippleFromMM+a.NippleToMM+BeadMM, s.caseMM(p, ref.Port, run)-at+a.NippleToMM)
		}
		at += a.NippleMM + a.AddsMM
		depth = a.DepthMM
	}
	return e
}

// caseMM is how far the case of a part reaches past the stop of a port on which something new is put, mm.
func (s *Stage) caseMM(p *Part, port string, run *graph.Run) float64 {
	q := p.Port(port)
	if q == nil || q.Faces == nil || !p.New() && !run.New() {
		return 0
	}
	return p.SunkMM(port, *q.Faces)
}

// adapt returns what must stand between the part's port and the run's pipe.
func (s *Stage) adapt(e *End, pipe *graph.Run) []Adaptor {
	part := e.Socket
	if pipe.Spec == "" || pipe.Size.IsZero() || part.Size.IsZero() {
		return nil
	}
	hose := pipe.Spec.IsHose()
	first, part := s.onThread(e, pipe)
	if hose && (e.Part.New() || pipe.New()) {
		part = s.ontoHose(part)
	}
	if part.Ends == "spigot" && !part.Free && !pipe.Direct() && (e.Part.New() || pipe.New()) {
		// a nipple or a bush goes into a socket and not onto a spigot: a coupling makes one of it
		first, part.Ends = append(first, s.coupling(RigidSpec(part.Spec, part.Size), part.Size)), "socket"
	}
	return append(first, s.between(e, part, pipe)...)
}

// between returns what leads from a socket to the run's pipe.
func (s *Stage) between(e *End, part Socket, pipe *graph.Run) []Adaptor {
	hose := pipe.Spec.IsHose()
	switch {
	case hose && (part.Free || part.Ends == "barb"):
		return nil
	case hose:
		return s.across(e, part, pipe, s.barb)
	case part.Spec.Family() != pipe.Spec.Family(), s.onlyHose(part):
		return s.across(e, part, pipe, s.transition)
	case part.Size.NominalMM() > pipe.Size.NominalMM():
		return s.bushes(part.Spec, part.Size, pipe.Spec, pipe.Size)
	case part.Size.NominalMM() < pipe.Size.NominalMM():
		return s.reducers(part.Spec, part.Size, pipe.Spec, pipe.Size)
	case part.Ends == "spigot":
		return []Adaptor{s.coupling(pipe.Spec, pipe.Size)}
	}
	return nil
}

// onlyHose reports whether a socket is given a size that hose is made in and its pipe is not: no
// bush leads there, and a rule says what does.
func (s *Stage) onlyHose(part Socket) bool {
	_, pipe := s.cat.Pipe(part.Spec, part.Size)
	_, hose := s.cat.Pipe(catalog.HosePipe, part.Size)
	return hose && !pipe
}

func (s *Stage) coupling(spec catalog.Spec, size catalog.Size) Adaptor {
	row, ok := s.cat.Fitting("coupling", spec, size)
	return Adaptor{Kind: "coupling", Row: row, Known: ok, Spec: spec, Spec2: spec, Size: size, Size2: size, AddsMM: row.LengthMM, DepthMM: s.depth(spec, size)}
}

func (s *Stage) barb(part Socket, pipe *graph.Run) Adaptor {
	row, ok := s.cat.Reducing("barb", part.Spec, part.Size, pipe.Size)
	a := Adaptor{Kind: "barb", Row: row, Known: ok, Spec: part.Spec, Spec2: pipe.Spec, Size: part.Size, Size2: pipe.Size, DepthMM: row.SocketMM}
	a.AddsMM = cmp.Or(row.TakeOffMM, row.LengthMM)
	a.onNipple = ok && PortEnds(&row, graph.In) == "socket"
	return a
}

func (s *Stage) transition(part Socket, pipe *graph.Run) Adaptor {
	row, ok := s.cat.Transition(part.Spec, part.Size, pipe.Spec, pipe.Size)
	a := Adaptor{Kind: "transition", Row: row, Known: ok, Spec: part.Spec, Spec2: pipe.Spec, Size: part.Size, Size2: pipe.Size, DepthMM: s.depth(pipe.Spec, pipe.Size)}
	a.AddsMM = cmp.Or(row.TakeOffMM, row.LengthMM)
	towards := graph.In
	if row.Size != part.Size {
		towards = graph.Out
	}
	a.onNipple = ok && PortEnds(&row, towards) == "socket"
	return a
}

// bushes returns the flush bushes from a large socket to small pipe: one, or two where no
// single one is made.
func (s *Stage) bushes(spec catalog.Spec, large catalog.Size, pipe catalog.Spec, small catalog.Size) []Adaptor {
	one := func(large, small catalog.Size) (Adaptor, bool) {
		row, ok := s.cat.Reducing("reducing-bush", spec, large, small)
		a := Adaptor{Kind: "reducing-bush", Row: row, Known: ok, Spec: spec, Spec2: pipe, Size: large, Size2: small, AddsMM: row.TakeOffMM, DepthMM: s.depth(RigidSpec(pipe, small), small)}
		if a.AddsMM == 0 {
			// A flush bush ends level with the socket it sits in: it adds the difference of
			// the two depths. Computed from the socket depths of ASTM D2466/D2467 and ISO 727.
			a.AddsMM = s.depth(spec, large) - s.depth(spec, small)
		}
		return a, ok
	}
	direct, ok := one(large, small)
	if ok {
		return []Adaptor{direct}
	}
	for _, mid := range s.cat.PipeSizes(RigidSpec(spec, large)) {
		if mid.NominalMM() <= small.NominalMM() || mid.NominalMM() >= large.NominalMM() {
			continue
		}
		a, okA := one(large, mid)
		b, okB := one(mid, small)
		if okA && okB {
			return []Adaptor{a, b}
		}
	}
	return []Adaptor{direct}
}

// reducers returns what leads from a small socket to larger pipe: a reducing coupling on a
// nipple, or a bush in a coupling where there is no such row.
func (s *Stage) reducers(spec catalog.Spec, small catalog.Size, pipe catalog.Spec, large catalog.Size) []Adaptor {
	rigid := RigidSpec(pipe, large)
	if row, ok := s.cat.Reducing("reducer", rigid, large, small); ok {
		return []Adaptor{{Kind: "reducer", Row: row, Known: true, Spec: spec, Spec2: pipe, Size: small, Size2: large, AddsMM: row.LengthMM, onNipple: true, DepthMM: s.depth(rigid, large)}}
	}
	bushes := s.bushes(rigid, large, spec, small)
	slices.Reverse(bushes)
	for i := range bushes {
		b := &bushes[i]
		b.Spec, b.Spec2, b.Size, b.Size2 = spec, rigid, b.Size2, b.Size
	}
	bushes[0].onNipple = true
	return append(bushes, s.coupling(rigid, large))
}

// across returns what leads from a port to pipe of another family: what join makes of the
// two sizes. Where the catalogue has no such row a tee takes a bush in its own family first,
// to the nearest size from which there is one: that is how a line lets a smaller branch of
// another family out. So does every port towards rigid pipe of the other series; else the
// transition stands at the port in its size, and behind it a bush or a reducer leads to the
// pipe's. Where nothing does the size is for the description to choose.
func (s *Stage) across(e *End, part Socket, pipe *graph.Run, join func(Socket, *graph.Run) Adaptor) []Adaptor {
	direct := join(part, pipe)
	rigid := !pipe.Spec.IsHose()
	if direct.Known || e.Part.Kind != graph.Tee && !rigid {
		return []Adaptor{direct}
	}
	for _, mid := range s.nearest(part.Spec, part.Size) {
		if mid.NominalMM() >= part.Size.NominalMM() {
			continue
		}
		between := join(Socket{Spec: part.Spec, Size: mid, Row: part.Row, Ends: part.Ends}, pipe)
		if bushes := s.bushes(part.Spec, part.Size, part.Spec, mid); between.Known && allKnown(bushes) {
			return append(bushes, between)
		}
	}
	if !rigid {
		return []Adaptor{direct}
	}
	own := RigidSpec(pipe.Spec, pipe.Size)
	for _, mid := range s.nearest(own, pipe.Size) {
		if mid == pipe.Size {
			continue
		}
		between := s.transition(part, &graph.Run{Spec: own, Size: mid})
		if !between.Known {
			continue
		}
		rest := s.bushes(own, mid, pipe.Spec, pipe.Size)
		if mid.NominalMM() < pipe.Size.NominalMM() {
			rest = s.reducers(own, mid, pipe.Spec, pipe.Size)
		}
		if allKnown(rest) {
			return append([]Adaptor{between}, rest...)
		}
	}
	return []Adaptor{direct}
}

// nearest are the sizes of pipe of a spec, those nearest to a size first.
func (s *Stage) nearest(spec catalog.Spec, to catalog.Size) []catalog.Size {
	sizes := slices.Clone(s.cat.PipeSizes(RigidSpec(spec, to)))
	off := func(s catalog.Size) float64 { return math.Abs(s.NominalMM() - to.NominalMM()) }
	slices.SortStableFunc(sizes, func(a, b catalog.Size) int { return cmp.Compare(off(a), off(b)) })
	return sizes
}

func allKnown(chain []Adaptor) bool {
	return !slices.ContainsFunc(chain, func(a Adaptor) bool { return !a.Known })
}
