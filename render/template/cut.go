package template

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit"
	"dryfit/graph/route"
)

// Cut is one cut through old pipe.
type Cut struct {
	Name      string  // "X1"
	Other     string  // the cut at the other end of the piece that comes out; "" where there is none
	OtherMM   float64 // from saw line to saw line
	Run       string
	Pipe      string // "pvc-sch40 2 in"
	Spec      catalog.Spec
	Metric    bool    // the pipe is metric: wiped with cleaner, where inch pipe is with primer
	OutsideMM float64 // of the pipe
	Measured  bool    // by calliper; else the catalogue's
	From      string  // the face it is measured from, in words
	FromMM    float64 // from that face to the saw line
	FirstMM   float64 // of the second of a pair measured from one face: from there to the first; else 0
	DepthMM   float64 // into the new socket
	KerfMM    float64 // 0: not said
	Second    bool    // the waste lies towards the start of the run's leg
	Flow      int     // of the water: 1 from the leg's start to its end, -1 against, 0 not known
}

// OfMarking returns the two cuts of a proposal, fewer where an old adaptor stays. path is the old run before the work, def what
// pipe is unless a run says otherwise, against says that the water runs from the run's end to
// its start, and first is the number of the first cut, from 1.
func OfMarking(m retrofit.Marking, path *route.Path, def graph.PipeDefault, against bool, first int) []Cut {
	base := Cut{Run: m.Run, From: m.From, OtherMM: m.SecondMM - m.FirstMM, KerfMM: m.KerfMM, Flow: 1}
	if against {
		base.Flow = -1
	}
	base.pipe(path, def)
	a, b := base, base
	a.Name, b.Name = name(first), name(first+1)
	a.Other, b.Other = b.Name, a.Name
	a.FromMM, b.FromMM = m.FirstMM, m.SecondMM
	a.DepthMM, b.DepthMM = m.DepthFirstMM, m.DepthSecondMM
	b.Second, b.FirstMM = true, m.FirstMM
	switch m.Kept { // nothing is sawn where the pipe comes out of an adaptor that stays
	case [2]bool{true, true}:
		return nil
	case [2]bool{true, false}:
		b.Name, b.Other, b.FirstMM = a.Name, "", 0
		return []Cut{b}
	case [2]bool{false, true}:
		a.Other = ""
		return []Cut{a}
	}
	return []Cut{a, b}
}

func name(n int) string { return fmt.Sprintf("X%d", n) }

// pipe fills in what the cut goes through. A calliper's word on the run counts first, then
// one on all pipe of its spec and size.
func (c *Cut) pipe(path *route.Path, def graph.PipeDefault) {
	r := path.Run
	c.Pipe = strings.TrimSpace(fmt.Sprintf("%s %s", r.Spec, r.Size))
	c.Spec, c.Metric = r.Spec, r.Size.Metric
	c.OutsideMM, c.Measured = path.Pipe.OutsideMM, false
	switch {
	case r.MeasuredOutsideMM > 0:
		c.OutsideMM, c.Measured = r.MeasuredOutsideMM, true
	case def.MeasuredOutsideMM > 0 && def.Spec == r.Spec && def.Size == r.Size:
		c.OutsideMM, c.Measured = def.MeasuredOutsideMM, true
	}
}

// OfRemains returns the cuts of a description that holds its cut already: where what is left
// of an old run goes into a new part, measured from bends as the old run has them. before and
// after are the layouts before the work, nil where it is not laid out, and after it.
func OfRemains(before, after *route.Layout) []Cut {
	net := after.Stage.Net()
	byRun := map[string][]half{}
	var order []string
	for i := range after.Paths {
		p := &after.Paths[i]
		last := len(p.Points) - 1
		if p.Run.RemainsOf == "" || last < 1 || len(p.Stops) != last+1 {
			continue
		}
		add := func(end, near int, second bool) {
			h := halfAt(before, p, end, near)
			h.cut.Second, h.cut.Flow = second, 1
			if net.Against(p.Run) {
				h.cut.Flow = -1
			}
			h.cut.pipe(p, after.Circuit.Pipe)
			if byRun[h.cut.Run] == nil {
				order = append(order, h.cut.Run)
			}
			byRun[h.cut.Run] = append(byRun[h.cut.Run], h)
		}
		if isNew(after.Circuit, p.Run.To) {
			add(last, last-1, false)
		}
		if isNew(after.Circuit, p.Run.From) {
			add(0, 1, true)
		}
	}
	var out []Cut
	for _, run := range order {
		out = append(out, named(byRun[run], len(out))...)
	}
	return out
}

// half is one end of what a cut leaves of a run.
type half struct {
	cut Cut
	at  graph.Vec
	ok  bool // at is known
}

// halfAt measures the cut at one end of what is left of a run from the point next to it.
func halfAt(before *route.Layout, p *route.Path, end, near int) half {
	leg := p.Points[near].Sub(p.Points[end])
	stop, face := p.Stops[end], p.Stops[near]
	c := Cut{Run: p.Run.RemainsOf, DepthMM: stop.DepthMM,
		From:   "face of the " + onOld(before, p, near, face.Fitting),
		FromMM: leg.Len() - stop.TakeOffMM - face.TakeOffMM - face.DepthMM}
	switch {
	case !p.Run.Spec.IsHose():
	case face.Fitting == "":
		c.From = "middle of the bend of " + p.Run.RemainsOf
	default: // a tape is held to the end of the hose, which lies over its barb
		c.From, c.FromMM = "end of the hose at "+face.Fitting, c.FromMM+face.DepthMM
	}
	return half{c, p.Points[end].Add(leg.Unit().Scale(stop.TakeOffMM)), p.Located}
}

// named names the cuts of a run after so many others; where there are two, each knows how far the
// other is.
func named(halves []half, others int) []Cut {
	for i := range halves {
		halves[i].cut.Name = name(others + i + 1)
	}
	if len(halves) == 2 && halves[0].ok && halves[1].ok {
		apart := halves[1].at.Sub(halves[0].at).Len()
		for i := range halves {
			halves[i].cut.Other, halves[i].cut.OtherMM = halves[1-i].cut.Name, apart
		}
		a, b := &halves[0].cut, &halves[1].cut
		if a.From == b.From && math.Abs(b.FromMM-a.FromMM-apart) < 0.05 {
			b.FirstMM = a.FromMM
		}
	}
	var out []Cut
	for _, h := range halves {
		out = append(out, h.cut)
	}
	return out
}

// onOld names a bend of what is left of a run as it is counted on the run that was there: its
// start may be gone.
func onOld(before *route.Layout, p *route.Path, near int, fitting string) string {
	if before == nil {
		return fitting
	}
	for i := range before.Paths {
		old := &before.Paths[i]
		if old.Run.ID != p.Run.RemainsOf {
			continue
		}
		bend := near
		if p.Run.From != old.Run.From { // its end is what is left
			bend += len(old.Points) - len(p.Points)
		}
		return strings.Replace(fitting, fmt.Sprintf(" at bend %d of %s", near, p.Run.ID), fmt.Sprintf(" at bend %d of %s", bend, old.Run.ID), 1)
	}
	return fitting
}

func isNew(c *graph.Circuit, end graph.PortRef) bool {
	p := c.Part(end.Part)
	return p != nil && p.New()
}

// circumference is how long a band is from end to end.
func (c Cut) circumference() float64 { return math.Pi * c.OutsideMM }
