package route

import (
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// socket is what a port offers to pipe.
type socket struct {
	spec catalog.Spec
	size catalog.Size
	row  *catalog.Row // of the part
	ends string       // "socket", "barb", "thread", "union", of this port
	free bool         // takes whatever its run is made of: nobody said a size
}

// fittedKind reports whether all ports of a part of the kind are made for one pipe, so
// that a run of another needs an adaptor. Other kinds take what their runs are made of
// unless the description gives a size.
func fittedKind(k graph.Kind) bool {
	return k == graph.Tee || (inLine(k) && k != graph.Reducer && k != graph.Transition && k != graph.Barb)
}

// linePorts are the ports that decide what pipe a fitted part is made for, the branch of
// a tee last.
func linePorts(p *graph.Part) []string {
	if p.Kind == graph.Tee {
		return []string{graph.RunIn, graph.RunOut, graph.Branch}
	}
	return []string{graph.In, graph.Out}
}

// rigidSpec is the spec whose sockets pipe of a size goes into: the spec itself, or for
// flexible pipe the rigid one of its family.
func rigidSpec(spec catalog.Spec, size catalog.Size) catalog.Spec {
	if !spec.Flexible() && spec != "" {
		return spec
	}
	if size.Metric {
		return catalog.PVCPN16
	}
	return catalog.PVCSch40
}

// runAt returns the run that ends at a port, or nil.
func (l *layer) runAt(part, port string) *graph.Run {
	if e := l.ends[part+"."+port]; len(e) > 0 {
		return l.c.Runs[e[0].run]
	}
	return nil
}

// madeFor returns the pipe a fitted part is made for.
func (l *layer) madeFor(p *graph.Part) (catalog.Spec, catalog.Size) {
	spec, size := p.Spec, p.Size
	if r, ok := l.cat.Row(p.Type); ok && p.Type != "" {
		if spec == "" {
			spec = r.Spec
		}
		if size.IsZero() {
			size = r.Size
		}
	}
	var runs []*graph.Run
	for _, port := range linePorts(p) {
		if r := l.runAt(p.ID, port); r != nil && (port != graph.Branch || len(runs) == 0) {
			runs = append(runs, r)
		}
	}
	if spec == "" {
		for _, r := range runs {
			if !r.Spec.Flexible() && (size.IsZero() || size.Metric == r.Size.Metric) {
				spec = r.Spec
				break
			}
		}
	}
	if size.IsZero() {
		for _, r := range runs {
			if (spec == "" || r.Spec.Family() == spec.Family()) && r.Size.NominalMM() > size.NominalMM() {
				size = r.Size
			}
		}
		for _, r := range runs {
			if size.IsZero() {
				size = r.Size
			}
		}
	}
	if spec == "" && len(runs) > 0 {
		spec = rigidSpec("", size)
		if runs[0].Spec == catalog.HosePipe && p.Size.IsZero() {
			size = l.nearestPipe(spec, size)
		}
	}
	if spec != "" && !size.IsZero() && (spec.Family() == catalog.Metric) != size.Metric {
		spec = rigidSpec("", size)
	}
	return spec, size
}

// nearestPipe is the pipe size of the spec nearest to a size of hose.
func (l *layer) nearestPipe(spec catalog.Spec, size catalog.Size) catalog.Size {
	best, off := size, -1.0
	for _, s := range l.cat.PipeSizes(spec) {
		d := s.NominalMM() - size.NominalMM()
		if d < 0 {
			d = -d
		}
		if off < 0 || d < off {
			best, off = s, d
		}
	}
	return best
}

// partRow returns the row that gives a part its dimensions, with what its own row leaves
// out filled from the row for its size; the zero Row where the catalogue has none.
func (l *layer) partRow(p *graph.Part) *catalog.Row {
	if r, ok := l.rows[p.ID]; ok {
		return r
	}
	r := l.findPartRow(p)
	if p.LengthMM > 0 {
		r.LengthMM, r.Measure = p.LengthMM, false
		r.TolMinusMM, r.TolPlusMM = 0, 0
	}
	l.rows[p.ID] = &r
	return &r
}

func (l *layer) findPartRow(p *graph.Part) catalog.Row {
	named, isNamed := catalog.Row{}, false
	if p.Type != "" {
		named, isNamed = l.cat.Row(p.Type)
	}
	if !fittedKind(p.Kind) {
		if isNamed {
			return named
		}
		if twoSizes(p.Kind) {
			return l.findTwoSizes(p)
		}
		if r, ok := l.cat.Generic(string(p.Kind)); ok {
			return r
		}
		if run := l.runAt(p.ID, graph.In); run != nil {
			r, _ := l.cat.Fitting(string(p.Kind), run.Spec, run.Size)
			return r
		}
		return catalog.Row{}
	}
	spec, size := l.madeFor(p)
	kind := string(p.Kind)
	switch {
	case isNamed && named.Style != "":
		kind = named.Style
	case p.Type != "" && !isNamed:
		kind = p.Type
	case p.Kind == graph.CheckValve && p.Check != nil && p.Check.Style == "swing":
		kind = "swing-check"
	case p.Kind == graph.CheckValve:
		kind = "spring-check"
	}
	sized, ok := catalog.Row{}, false
	if branch := p.BranchSize; p.Kind == graph.Tee && !branch.IsZero() && branch != size {
		sized, ok = l.cat.Reducing("reducing-tee", spec, size, branch)
	}
	if !ok {
		sized, ok = l.cat.Fitting(kind, spec, size)
	}
	if !ok && kind != string(p.Kind) {
		sized, ok = l.cat.Fitting(string(p.Kind), spec, size)
	}
	if !ok && p.Kind != graph.Tee {
		sized, _ = l.cat.Generic(string(p.Kind))
	}
	if !isNamed {
		return sized
	}
	return dimensionsOver(named, sized)
}

// findTwoSizes returns the row of a part written to join two sizes or families, from what
// its two runs are made of.
func (l *layer) findTwoSizes(p *graph.Part) catalog.Row {
	a, b := l.runAt(p.ID, graph.In), l.runAt(p.ID, graph.Out)
	if a == nil || b == nil {
		r, _ := l.cat.Generic(string(p.Kind))
		return r
	}
	if r, ok := l.cat.Transition(a.Spec, a.Size, b.Spec, b.Size); ok && p.Kind == graph.Transition {
		return r
	}
	for _, pair := range [][2]*graph.Run{{a, b}, {b, a}} {
		if r, ok := l.cat.Reducing(string(p.Kind), rigidSpec(pair[0].Spec, pair[0].Size), pair[0].Size, pair[1].Size); ok {
			return r
		}
	}
	return catalog.Row{}
}

// dimensionsOver returns the row with the dimensions it leaves out taken from another.
func dimensionsOver(r, from catalog.Row) catalog.Row {
	if r.LengthMM == 0 && r.TakeOffMM == 0 {
		r.LengthMM, r.TakeOffMM, r.BranchTakeOffMM = from.LengthMM, from.TakeOffMM, from.BranchTakeOffMM
		r.TolMinusMM, r.TolPlusMM, r.Measure = from.TolMinusMM, from.TolPlusMM, from.Measure
	}
	if r.SocketMM == 0 {
		r.SocketMM = from.SocketMM
	}
	if r.OutsideMM == 0 {
		r.OutsideMM = from.OutsideMM
	}
	if r.Ends == "" {
		r.Ends = from.Ends
	}
	return r
}

// portEnds returns what one port of a row is: of two ends that differ the first is the
// inlet (a tee's run), the second the outlet (a tee's branch).
func portEnds(row *catalog.Row, port string) string {
	first, second, two := strings.Cut(row.Ends, "/")
	if two && (port == graph.Out || port == graph.Branch) {
		return second
	}
	return first
}

// socketAt returns what a port offers to the run that ends there.
func (l *layer) socketAt(p *graph.Part, port string, run *graph.Run) socket {
	s := socket{row: l.partRow(p)}
	s.ends = portEnds(s.row, port)
	var said catalog.Size
	if q := p.Port(port); q != nil {
		said = q.Size
	}
	if said.IsZero() && p.Kind == graph.HeatPump && p.Unit != nil {
		said = p.Unit.PortsSize
	}
	if fittedKind(p.Kind) {
		s.spec, s.size = l.madeFor(p)
		if p.Kind == graph.Tee && port == graph.Branch && !p.BranchSize.IsZero() {
			s.size = p.BranchSize
		} else if p.Kind == graph.Tee && port == graph.Branch && s.row.Kind == "reducing-tee" {
			s.size = s.row.Size2
		}
	} else {
		if said.IsZero() && !twoSizes(p.Kind) {
			said = p.Size
		}
		s.spec, s.size, s.free = p.Spec, said, said.IsZero()
		if s.free {
			s.spec, s.size = run.Spec, run.Size
		}
	}
	if !said.IsZero() {
		s.size = said
	}
	if s.spec == "" {
		s.spec = run.Spec
	}
	if !s.size.IsZero() && !s.free && (s.spec == catalog.HosePipe || s.spec.Family() == "" || (s.spec.Family() == catalog.Metric) != s.size.Metric) {
		s.spec = rigidSpec("", s.size)
	}
	return s
}

// twoSizes reports whether the kind joins two sizes or families by itself.
func twoSizes(k graph.Kind) bool {
	return k == graph.Reducer || k == graph.Transition || k == graph.Barb
}

// depth is how deep pipe of a spec and size goes into a fitting of its own kind.
func (l *layer) depth(spec catalog.Spec, size catalog.Size) float64 {
	key := pipeKind{spec, size}
	if d, ok := l.deep[key]; ok {
		return d
	}
	l.deep[key] = 0
	for _, kind := range []string{"coupling", "elbow-90", "tee"} {
		if r, ok := l.cat.Fitting(kind, spec, size); ok && r.SocketMM > 0 {
			l.deep[key] = r.SocketMM
			break
		}
	}
	return l.deep[key]
}
