package route

import (
	"fmt"

	"dryfit/catalog"
	"dryfit/graph"
)

// beadGapMM is left between the ends of two sockets for the bead of cement, mm.
// Source: common practice, no source.
const beadGapMM = 5

// station is what stands at one end of a run, or at a bend: how far the pipe stops short of
// the point the leg is measured to, and how deep it goes in.
type station struct {
	words, kind       string
	body              string // what the pipe is glued into, for the order of assembly
	joint             string // kind of the pipe's own joint
	takeOff, depth    float64
	tolMinus, tolPlus float64
	measure           bool
	what              string   // what to measure
	also              []string // and which adaptors between it and the pipe
	part              *graph.Part
	port              string
	partBody          string
	partJoint         string
	partTakeOff       float64   // of the part alone, without adaptors
	chain             []adaptor // from the part to the pipe
	stock             socket    // of the part
	fitting           int       // of a bend: index in Path.Fittings
}

// adaptor is a fitting between a part and the run's pipe.
type adaptor struct {
	kind        string
	row         catalog.Row
	known       bool
	spec, spec2 catalog.Spec // towards the part, towards the pipe
	size, size2 catalog.Size
	adds        float64 // to the take-off
	nipple      float64 // cut length of the nipple before it; 0: its spigot goes straight in
	nippleFrom  float64 // insertion depths of the nipple
	nippleTo    float64
	depth       float64 // of the socket towards the pipe
	fitting     int     // index in Path.Fittings
}

// stationAt returns what stands where a run ends at a part.
func (l *layer) stationAt(run *graph.Run, ref graph.PortRef) station {
	p := l.parts[ref.Part]
	if p == nil {
		return station{words: ref.String(), depth: l.depth(run.Spec, run.Size), fitting: -1}
	}
	s := station{words: ref.String(), kind: string(p.Kind), part: p, port: ref.Port, fitting: -1, stock: l.socketAt(p, ref.Port, run)}
	row := s.stock.row
	s.body, s.partJoint = bodyOf(p, ref.Port, row), jointKind(s.stock, run)
	s.depth = l.depth(s.stock.spec, s.stock.size)
	if fittedKind(p.Kind) && row.SocketMM > 0 && (s.stock.size == row.Size || row.Size.IsZero()) {
		s.depth = row.SocketMM
	}
	switch {
	case p.Kind == graph.Tee:
		s.takeOff = row.TakeOffMM
		if ref.Port == graph.Branch && row.BranchTakeOffMM > 0 {
			s.takeOff = row.BranchTakeOffMM
		}
		s.tolMinus, s.tolPlus = row.TolMinusMM, row.TolPlusMM
		s.measure = row.Measure || row.TakeOffMM == 0
		s.what = fmt.Sprintf("%s: tee %s, centre to socket stop", p.ID, s.stock.size)
		if row.TakeOffMM == 0 && p.New() {
			l.noRow("tee", s.stock.spec, s.stock.size, p.Pos, run)
		}
	case inLine(p.Kind) && p.New():
		s.measure = row.Measure || (row.LengthMM == 0 && p.Kind != graph.SlipCoupling)
		s.what = fmt.Sprintf("%s: %s %s, stop to stop", p.ID, p.Kind, s.stock.size)
	}
	s.partTakeOff = s.takeOff
	s.partBody = s.body
	s.joint = s.partJoint
	l.adapt(&s, run)
	return s
}

// jointKind says how pipe is joined to a port.
func jointKind(s socket, run *graph.Run) string {
	switch {
	case run.Spec == catalog.HosePipe:
		return "barb"
	case s.ends == "thread":
		return "thread"
	}
	return "cement"
}

// adapt adds what must stand between the part's port and the run's pipe: a bush or reducer
// where sizes differ, a transition where families do, barbs on a hose, a coupling between
// two spigots.
func (l *layer) adapt(s *station, run *graph.Run) {
	if run.Spec == "" || run.Size.IsZero() || s.stock.size.IsZero() || s.kind == "" {
		return
	}
	part, pipe := s.stock, run
	hose := pipe.Spec.Family() == catalog.Hose
	switch {
	case hose && (part.free || part.ends == "barb"):
		return
	case hose:
		for _, a := range l.across(s, pipe, l.barb) {
			l.put(s, a)
		}
	case part.spec.Family() != pipe.Spec.Family():
		for _, a := range l.across(s, pipe, l.transition) {
			l.put(s, a)
		}
	case part.size.NominalMM() > pipe.Size.NominalMM():
		for _, a := range l.bushes(part.spec, part.size, pipe.Spec, pipe.Size) {
			l.put(s, a)
		}
	case part.size.NominalMM() < pipe.Size.NominalMM():
		for _, a := range l.reducers(part.spec, part.size, pipe.Spec, pipe.Size) {
			l.put(s, a)
		}
	case part.ends == "spigot":
		l.put(s, l.coupling(pipe.Spec, pipe.Size))
	}
}

// put appends an adaptor to a station's chain and carries its length into the take-off. An
// adaptor with a socket towards the part stands on a nipple as short as its two sockets allow.
func (l *layer) put(s *station, a adaptor) {
	if a.nipple < 0 {
		a.nippleFrom, a.nippleTo = s.depth, l.depth(a.spec, a.size)
		a.nipple = a.nippleFrom + a.nippleTo + beadGapMM
	}
	a.fitting = -1
	s.chain = append(s.chain, a)
	s.takeOff += a.nipple + a.adds
	s.depth = a.depth
	s.tolMinus += a.row.TolMinusMM
	s.tolPlus += a.row.TolPlusMM
	if a.row.Measure {
		name := fmt.Sprintf("%s %s", a.kind, sizePair(a.size, a.size2))
		if s.what == "" || !s.measure {
			s.what = name
		} else {
			s.also = append(s.also, name)
		}
		s.measure = true
	}
	s.joint = "cement"
	if a.kind == "barb" {
		s.joint = "barb"
	}
	s.kind = a.kind
	s.words = fmt.Sprintf("%s at %s.%s", a.kind, s.part.ID, s.port)
}

func sizePair(a, b catalog.Size) string {
	if b.IsZero() || a == b {
		return a.String()
	}
	return a.String() + " x " + b.String()
}

func (l *layer) coupling(spec catalog.Spec, size catalog.Size) adaptor {
	row, ok := l.cat.Fitting("coupling", spec, size)
	return adaptor{kind: "coupling", row: row, known: ok, spec: spec, spec2: spec, size: size, size2: size, adds: row.LengthMM, depth: l.depth(spec, size)}
}

func (l *layer) barb(part socket, pipe *graph.Run) adaptor {
	row, ok := l.cat.Reducing("barb", part.spec, part.size, pipe.Size)
	a := adaptor{kind: "barb", row: row, known: ok, spec: part.spec, spec2: pipe.Spec, size: part.size, size2: pipe.Size, depth: row.SocketMM}
	a.adds = firstOf(row.TakeOffMM, row.LengthMM)
	if ok && portEnds(&row, graph.In) == "socket" {
		a.nipple = -1
	}
	return a
}

func (l *layer) transition(part socket, pipe *graph.Run) adaptor {
	row, ok := l.cat.Transition(part.spec, part.size, pipe.Spec, pipe.Size)
	a := adaptor{kind: "transition", row: row, known: ok, spec: part.spec, spec2: pipe.Spec, size: part.size, size2: pipe.Size, depth: l.depth(pipe.Spec, pipe.Size)}
	a.adds = firstOf(row.TakeOffMM, row.LengthMM)
	towards := "in"
	if row.Size != part.size {
		towards = "out"
	}
	if ok && portEnds(&row, towards) == "socket" {
		a.nipple = -1
	}
	return a
}

// bushes returns the flush bushes from a large socket to small pipe: one, or two where no
// single one is made.
func (l *layer) bushes(spec catalog.Spec, large catalog.Size, pipe catalog.Spec, small catalog.Size) []adaptor {
	one := func(large, small catalog.Size) (adaptor, bool) {
		row, ok := l.cat.Reducing("reducing-bush", spec, large, small)
		a := adaptor{kind: "reducing-bush", row: row, known: ok, spec: spec, spec2: pipe, size: large, size2: small, adds: row.TakeOffMM, depth: l.depth(rigidSpec(pipe, small), small)}
		if a.adds == 0 {
			// A flush bush ends level with the socket it sits in: it adds the difference of
			// the two depths. Computed from the socket depths of ASTM D2466/D2467 and ISO 727.
			a.adds = l.depth(spec, large) - l.depth(spec, small)
		}
		return a, ok
	}
	direct, ok := one(large, small)
	if ok {
		return []adaptor{direct}
	}
	for _, mid := range l.cat.PipeSizes(rigidSpec(spec, large)) {
		if mid.NominalMM() <= small.NominalMM() || mid.NominalMM() >= large.NominalMM() {
			continue
		}
		a, okA := one(large, mid)
		b, okB := one(mid, small)
		if okA && okB {
			return []adaptor{a, b}
		}
	}
	return []adaptor{direct}
}

// reducers returns what leads from a small socket to larger pipe: a reducing coupling on a
// nipple, or a bush in a coupling where there is no such row.
func (l *layer) reducers(spec catalog.Spec, small catalog.Size, pipe catalog.Spec, large catalog.Size) []adaptor {
	rigid := rigidSpec(pipe, large)
	if row, ok := l.cat.Reducing("reducer", rigid, large, small); ok {
		return []adaptor{{kind: "reducer", row: row, known: true, spec: spec, spec2: pipe, size: small, size2: large, adds: row.LengthMM, nipple: -1, depth: l.depth(rigid, large)}}
	}
	bushes := l.bushes(rigid, large, spec, small)
	for i, j := 0, len(bushes)-1; i < j; i, j = i+1, j-1 {
		bushes[i], bushes[j] = bushes[j], bushes[i]
	}
	for i := range bushes {
		b := &bushes[i]
		b.spec, b.spec2, b.size, b.size2 = spec, rigid, b.size2, b.size
	}
	bushes[0].nipple = -1
	return append(bushes, l.coupling(rigid, large))
}

func firstOf(vs ...float64) float64 {
	for _, v := range vs {
		if v != 0 {
			return v
		}
	}
	return 0
}

// noRow says that the catalogue has no fitting that new work needs, and which it has.
func (l *layer) noRow(kind string, spec catalog.Spec, size catalog.Size, pos graph.Pos, run *graph.Run) {
	if !run.New() && run.RemainsOf == "" {
		return
	}
	if size.IsZero() { // pipe known by its bore, for its flow alone
		l.find(pos, graph.Note, fmt.Sprintf("%s has no size: what its %s measures is not known", run.ID, kind), "give it a size to have its pieces cut")
		return
	}
	l.find(pos, graph.Error,
		fmt.Sprintf("the catalogue has no %s for %s %s, which %s needs", kind, spec, size, run.ID),
		l.nearestSizes(kind, size))
}

// nearestSizes names the sizes nearest to the one missing, in which the catalogue has the kind.
func (l *layer) nearestSizes(kind string, size catalog.Size) string {
	var below, above catalog.Size
	for _, r := range l.cat.Rows() {
		if r.Kind != kind || r.Size.IsZero() || r.Size == size || r.Size.Metric != size.Metric {
			continue
		}
		switch mm := r.Size.NominalMM(); {
		case mm < size.NominalMM() && mm > below.NominalMM():
			below = r.Size
		case mm > size.NominalMM() && (above.IsZero() || mm < above.NominalMM()):
			above = r.Size
		}
	}
	own := fmt.Sprintf("or give a row of your own: [[catalog.%s]]", kind)
	switch {
	case below.IsZero() && above.IsZero():
		return fmt.Sprintf("the catalogue has no %s in this series; use another spec, %s", kind, own)
	case below.IsZero():
		return fmt.Sprintf("the nearest size is %s; %s", above, own)
	case above.IsZero():
		return fmt.Sprintf("the nearest size is %s; %s", below, own)
	}
	return fmt.Sprintf("the nearest sizes are %s and %s; %s", below, above, own)
}
