package laying

import (
	"fmt"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// station is what stands at one end of a run, or at a bend: how far the pipe stops short of
// the point the leg is measured to, and how deep it goes in.
type station struct {
	words, kind       string
	body              string // what the pipe is glued into, for the order of assembly
	joint             string // kind of the pipe's own joint
	takeOff, depth    float64
	short             float64 // by how much of takeOff the pipe is cut short of old pipe in a slip coupling
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
	stock             settle.Socket
	kept              bool // the adaptors were there before and stay
}

// adaptor is a fitting between a part and the run's pipe.
type adaptor struct {
	settle.Adaptor
	fitting int // index in Path.Fittings
}

// stationAt returns what stands where a run ends at a part: the first of its ends, or the
// last.
func (l *work) stationAt(run *settle.Run, last bool) station {
	e := &run.Ends[0]
	if last {
		e = &run.Ends[1]
	}
	if e.Part == nil {
		return station{words: e.Ref.String(), depth: e.DepthMM}
	}
	p := e.Part
	s := station{words: e.Ref.String(), kind: string(p.Kind), part: p.Part, port: e.Ref.Port, stock: e.Socket, depth: e.DepthMM, kept: e.Kept}
	row := s.stock.Row
	s.body, s.partJoint = route.BodyOf(p, e.Ref.Port, run), jointKind(s.stock, run.Run)
	switch {
	case p.Kind == graph.Tee:
		s.takeOff = row.TakeOffMM
		if e.Ref.Port == graph.Branch && row.BranchTakeOffMM > 0 {
			s.takeOff = row.BranchTakeOffMM
		}
		s.tolMinus, s.tolPlus = row.TolMinusMM, row.TolPlusMM
		s.measure = row.Measure || row.TakeOffMM == 0
		s.what = fmt.Sprintf("%s: tee %s, centre to socket stop", p.ID, s.stock.Size)
		if row.TakeOffMM == 0 && p.New() {
			l.noRow("tee", s.stock.Spec, s.stock.Size, p.Pos, run.Run)
		}
	case settle.InLine(p.Kind) && p.New():
		s.measure = row.Measure || (row.LengthMM == 0 && p.Kind != graph.SlipCoupling)
		s.what = fmt.Sprintf("%s: %s %s, stop to stop", p.ID, p.Kind, s.stock.Size)
	}
	if l.meetsOld(p, run) {
		s.short = settle.SlipClearMM
		s.takeOff += s.short
	}
	s.partTakeOff = s.takeOff
	s.partBody = s.body
	s.joint = s.partJoint
	for _, a := range e.Adaptors {
		s.put(a)
	}
	if n := len(e.Adaptors); n > 0 && e.Kept { // what was bought long ago is as long as it is
		s.words = "old " + s.words
		s.measure, s.what, s.also = true, s.words+", what it adds", nil
	}
	return s
}

// meetsOld reports whether a new run meets old pipe in a new slip coupling: it is cut a little
// short of it.
func (l *work) meetsOld(p *settle.Part, run *settle.Run) bool {
	if p.Kind != graph.SlipCoupling || !p.New() || !run.New() {
		return false
	}
	for _, o := range l.c.Runs {
		if !o.New() && (o.From.Part == p.ID || o.To.Part == p.ID) {
			return true
		}
	}
	return false
}

// jointKind says how pipe is joined to a port.
func jointKind(s settle.Socket, run *graph.Run) string {
	switch {
	case run.Spec.IsHose():
		return "barb"
	case s.Ends == "thread":
		return "thread"
	}
	return "cement"
}

// put appends an adaptor to a station's chain and carries its length into the take-off.
func (s *station) put(a settle.Adaptor) {
	s.chain = append(s.chain, adaptor{a, -1})
	s.takeOff += a.NippleMM + a.AddsMM
	s.depth = a.DepthMM
	s.tolMinus += a.Row.TolMinusMM
	s.tolPlus += a.Row.TolPlusMM
	if a.Row.Measure {
		name := s.chain[len(s.chain)-1].said()
		if s.what == "" || !s.measure {
			s.what = name
		} else {
			s.also = append(s.also, name)
		}
		s.measure = true
	}
	s.joint = "cement"
	if a.Kind == "barb" {
		s.joint = "barb"
	}
	s.kind = a.Kind
	s.words = fmt.Sprintf("%s at %s.%s", a.Kind, s.part.ID, s.port)
}

// said is what is measured on an adaptor that no standard gives the length of.
func (a *adaptor) said() string { return fmt.Sprintf("%s %s", a.Kind, sizePair(a.Size, a.Size2)) }

func sizePair(a, b catalog.Size) string {
	if b.IsZero() || a == b {
		return a.String()
	}
	return a.String() + " x " + b.String()
}

func firstOf(vs ...float64) float64 {
	for _, v := range vs {
		if v != 0 {
			return v
		}
	}
	return 0
}

// lack is a row the catalogue has none of: what it is, of what and how large.
type lack struct {
	kind string
	spec catalog.Spec
	size catalog.Size
}

// noRow says that the catalogue has no fitting that new work needs, and which it has; at the first
// that needs it, for one row of the user's own gives all of them.
func (l *work) noRow(kind string, spec catalog.Spec, size catalog.Size, pos graph.Pos, run *graph.Run) {
	if !run.New() && run.RemainsOf == "" {
		return
	}
	if size.IsZero() { // pipe known by its bore, for its flow alone
		l.find(pos, graph.Note, graph.Say("%s has no size: what its %s measures is not known", run.ID, kind), "give it a size to have its pieces cut")
		return
	}
	if l.lacks[lack{kind, spec, size}] {
		return
	}
	l.lacks[lack{kind, spec, size}] = true
	l.find(pos, graph.Error,
		graph.Say("the catalogue has no %s for %s %s, which %s needs", kind, spec, size, run.ID),
		l.nearestSizes(kind, size))
}

// nearestSizes names the sizes nearest to the one missing, in which the catalogue has the kind.
func (l *work) nearestSizes(kind string, size catalog.Size) quantity.Text {
	var below, above catalog.Size
	for r := range l.cat.All() {
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
	own := graph.Say("or give a row of your own: [[catalog.%s]]", kind)
	switch {
	case below.IsZero() && above.IsZero():
		return graph.Say("the catalogue has no %s in this series; use another spec, %s", kind, own)
	case below.IsZero():
		return graph.Say("the nearest size is %s; %s", above, own)
	case above.IsZero():
		return graph.Say("the nearest size is %s; %s", below, own)
	}
	return graph.Say("the nearest sizes are %s and %s; %s", below, above, own)
}

// placeChains gives each adaptor between a part and its pipe the place of its two faces.
func (l *work) placeChains() {
	for i := range l.lines {
		path := &l.lay.Paths[i]
		if !path.Located {
			continue
		}
		n := len(path.Points)
		l.placeChain(path, &l.lines[i].from, path.Points[0], path.Points[1])
		l.placeChain(path, &l.lines[i].to, path.Points[n-1], path.Points[n-2])
	}
}

func (l *work) placeChain(path *route.Path, s *station, from, towards graph.Vec) {
	way, at := towards.Sub(from).Unit(), s.partTakeOff
	for k := range s.chain {
		a := &s.chain[k]
		at += a.NippleMM
		if a.fitting >= 0 {
			f := &path.Fittings[a.fitting]
			near, far := at, at+a.AddsMM+a.DepthMM
			switch {
			case a.NippleMM > 0:
				near -= a.NippleToMM
			case a.Kind == "coupling": // over a bush or a spigot, as deep as over the pipe
				near -= a.DepthMM
			}
			if a.Kind == "reducing-bush" && a.Size.NominalMM() < a.Size2.NominalMM() { // its spigot is towards the pipe
				far -= a.DepthMM
			}
			f.Near, f.Far = from.Add(way.Scale(near)), from.Add(way.Scale(far))
		}
		at += a.AddsMM
	}
}
