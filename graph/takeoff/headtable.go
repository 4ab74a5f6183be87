package takeoff

import (
	"math"
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
)

// HeadTable is what the head of one running pump goes into, along the way of its main flow
// from its outlet back to its inlet.
type HeadTable struct {
	Pump   string
	Path   string // the parts it passes, in words
	Rows   []HeadRow
	TotalM float64 // of the rows: the total dynamic head
	PumpM  float64 // the pump's head; the same but for the solver's last digits
}

// HeadRow is one share of the head.
type HeadRow struct {
	What  string
	HeadM float64
}

// The shares, in the order they are printed.
const (
	shareUnit = iota
	shareFilter
	shareHeater
	shareJets
	shareCheck
	shareValve
	shareTee
	shareOther
	sharePipe
	shareFittings
	sharePump
	shares
)

var shareNames = [shares]string{"heat pump", "filter", "element heater", "jets", "check valves", "hand valves", "tees",
	"other parts", "straight pipe", "fittings, entrance and exit", "other pumps"}

// shareOf says which share a part's drop belongs to.
func shareOf(k graph.Kind) int {
	switch {
	case k == graph.HeatPump:
		return shareUnit
	case k == graph.Filter:
		return shareFilter
	case k == graph.ElementHeater:
		return shareHeater
	case k == graph.JetGroup:
		return shareJets
	case k == graph.CheckValve:
		return shareCheck
	case k.IsHandValve():
		return shareValve
	case k == graph.Tee:
		return shareTee
	case k == graph.Pump:
		return sharePump
	}
	return shareOther
}

// HeadTables returns a table for every running pump of the solution, in the order of the
// circuit. Where the water divides the way of the greater flow is followed, down from the
// pump's outlet to the tub and up from its inlet to the tub; a way of no flow ends it. The
// drops on any closed way round a pump add up to its head, so which way is taken changes the
// rows and not their sum.
func HeadTables(sol *hydraulic.Solution) []HeadTable {
	var out []HeadTable
	for i := range sol.Parts {
		p := &sol.Parts[i]
		if p.Part.Kind != graph.Pump || p.HeadM <= 0 || p.Flow <= 0 {
			continue
		}
		w := walker{sol: sol, pa: sol.Water.Density * formula.Gravity}
		down, okDown := w.follow(p.Part, true)
		up, okUp := w.follow(p.Part, false)
		if !okDown || !okUp {
			continue
		}
		t := HeadTable{Pump: p.Part.ID, PumpM: p.HeadM}
		way := append([]string{p.Part.ID}, down...)
		for k := len(up) - 1; k >= 0; k-- {
			if up[k] != way[len(way)-1] {
				way = append(way, up[k])
			}
		}
		t.Path = strings.Join(append(way, p.Part.ID), " > ")
		for s, head := range w.head {
			if w.seen[s] {
				t.Rows = append(t.Rows, HeadRow{What: shareNames[s], HeadM: head})
				t.TotalM += head
			}
		}
		out = append(out, t)
	}
	return out
}

// walker follows the main flow and adds up what it loses.
type walker struct {
	sol  *hydraulic.Solution
	pa   float64 // Pa in a metre of the water
	head [shares]float64
	seen [shares]bool
}

func (w *walker) add(share int, pa float64) {
	w.head[share] += pa / w.pa
	w.seen[share] = true
}

// follow goes from a pump with the water (or against it) to the tub, or round to the pump
// itself where there is no tub; it returns the parts passed, and false where the way ends.
func (w *walker) follow(pump *graph.Part, down bool) ([]string, bool) {
	port := graph.Out
	if !down {
		port = graph.In
	}
	at := pump
	var passed []string
	for range len(w.sol.Runs) + 1 {
		run, end := w.runAt(at, port)
		if run == nil {
			return passed, false
		}
		way := math.Copysign(1, run.Flow)
		w.add(sharePipe, run.PipeDrop*way)
		w.add(shareFittings, (run.Drop-run.PipeDrop)*way)
		part := w.sol.Part(end.Part)
		if part == nil {
			return passed, false
		}
		if part.Part.Kind == graph.Tub {
			return append(passed, part.Part.ID), true
		}
		if part.Part == pump {
			return passed, true
		}
		passed = append(passed, part.Part.ID)
		next, ok := w.through(part, end.Port, down)
		if !ok {
			return passed, false
		}
		at, port = part.Part, next
	}
	return passed, false
}

// runAt returns the run at a port and its other end.
func (w *walker) runAt(p *graph.Part, port string) (*hydraulic.RunFlow, graph.PortRef) {
	for i := range w.sol.Runs {
		r := &w.sol.Runs[i]
		switch {
		case r.Run.From.Part == p.ID && r.Run.From.Port == port:
			return r, r.Run.To
		case r.Run.To.Part == p.ID && r.Run.To.Port == port:
			return r, r.Run.From
		}
	}
	return nil, graph.PortRef{}
}

// through passes a part, adds its drop, and returns the port the main flow goes on by.
func (w *walker) through(p *hydraulic.PartFlow, port string, down bool) (string, bool) {
	share := shareOf(p.Part.Kind)
	if len(p.Legs) == 0 {
		w.add(share, p.Drop*math.Copysign(1, p.Flow))
		switch {
		case p.Flow == 0:
			return "", false
		case port == graph.In:
			return graph.Out, true
		}
		return graph.In, true
	}
	var here *hydraulic.LegFlow
	for i := range p.Legs {
		if p.Legs[i].Port == port {
			here = &p.Legs[i]
		}
	}
	if here == nil {
		return "", false
	}
	best := -1
	for i := range p.Legs {
		flow := p.Legs[i].Flow // into the part
		if down {
			flow = -flow
		}
		if p.Legs[i].Port != port && flow > 0 && (best < 0 || flow > math.Abs(p.Legs[best].Flow)) {
			best = i
		}
	}
	if best < 0 {
		return "", false
	}
	drop := here.Drop - p.Legs[best].Drop
	if !down {
		drop = -drop
	}
	w.add(share, drop)
	return p.Legs[best].Port, true
}
