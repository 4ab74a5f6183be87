package laying

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// work is one call of Of at work. It holds what the steps share; nothing outlives the call.
type work struct {
	c      *graph.Circuit
	set    *settle.Stage
	cat    *catalog.Catalog // for the elbows and couplings that legs ask for
	lay    *route.Layout
	parts  map[string]*graph.Part
	ends   map[string][]runEnd  // "part.port" -> the runs that end there
	ways   map[string]graph.Vec // "part.port" -> way the pipe leaves the part there, unit
	lines  []line               // one for each run
	links  []route.Link         // one for each of the layout's joints
	rigid  map[string]int       // "part.port" -> number of the body of known distances it belongs to
	runs   map[string]int       // run id -> index
	old    oldNotes
	missed []missedLoop // of old pipe
	loops  []newLoop
	short  []shortPiece
	turns  []turned
	lacks  map[lack]bool      // rows the catalogue has none of, told once each
	looked int                // legs, while the loops were mended
	spare  map[legKey]float64 // what straight pipe of a leg has beyond its two sockets, mm; less than nothing: too short
}

// runEnd is one end of a run.
type runEnd struct {
	run  int
	last bool // the run's To end
}

// line is one run at work: its legs with their ways, and what stands at its ends and bends.
type line struct {
	run     *graph.Run
	legs    []graph.Vec // effective, centre to centre
	from    station
	to      station
	bends   []int // for each inner vertex (after leg i): index of its elbow in Path.Fittings, or -1 where the pipe goes straight
	gliding bool  // a hose or flexible pipe: it bends by itself
}

// Of lays one stage of a circuit out in space. It never fails: what cannot be laid out
// is named in the findings, and everything else is there. The circuit is not changed.
func Of(c *graph.Circuit) *route.Layout { return OfStage(settle.Of(c)) }

// OfStage lays a settled stage of a circuit out in space.
func OfStage(set *settle.Stage) *route.Layout {
	l := newWork(set)
	w := l.laid()
	l.reportNewLoops(w)
	l.reportOldLoops()
	l.old.report(l)
	l.lay.Finish(l.links, l.inLine())
	return l.lay
}

// newWork begins a call of Of.
func newWork(set *settle.Stage) *work {
	c := set.Circuit
	l := &work{
		c:     c,
		set:   set,
		cat:   c.Catalog,
		lay:   &route.Layout{Circuit: c, Stage: set, Positions: map[string]graph.Vec{}},
		parts: map[string]*graph.Part{},
		lacks: map[lack]bool{},
		ends:  map[string][]runEnd{},
		ways:  map[string]graph.Vec{},
		rigid: map[string]int{},
		spare: map[legKey]float64{},
		runs:  make(map[string]int, len(c.Runs)),
	}
	if l.cat == nil {
		l.cat = catalog.Embedded()
	}
	for _, p := range c.Parts {
		l.parts[p.ID] = p
	}
	for i, r := range c.Runs {
		if _, twice := l.runs[r.ID]; !twice {
			l.runs[r.ID] = i
		}
		l.ends[r.From.String()] = append(l.ends[r.From.String()], runEnd{run: i})
		l.ends[r.To.String()] = append(l.ends[r.To.String()], runEnd{run: i, last: true})
	}
	return l
}

// laid lays the circuit out, up to what is to be said of its loops.
func (l *work) laid() *web {
	l.findWays()
	l.judgeWays()
	l.judgeBarbs()
	l.layLines()
	w := l.locate()
	l.placeChains()
	l.cutPieces()
	l.joinParts()
	l.lay.Groups, l.lay.Ways = l.rigid, l.ways
	return w
}

// find adds a finding of the step "routing".
func (l *work) find(pos graph.Pos, severity graph.Severity, message, hint quantity.Text, related ...graph.Related) {
	l.lay.Findings = append(l.lay.Findings, graph.Diagnostic{
		Pos: pos, Rule: "routing", Severity: severity, Message: message, Hint: hint, Related: related,
	})
}
