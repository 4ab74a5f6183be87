package route

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// cutToleranceMM is by how much one saw cut may miss its mark, either way.
// Source: common practice, no source.
const cutToleranceMM = 1

// Tolerances is how far each closed chain of the new work may be off when it is closed.
type Tolerances struct {
	Loops    []LoopTolerance // one for each of Assembly.Loops
	Findings []graph.Diagnostic
}

// LoopTolerance is one loop, measured along its closing joint's pipe where that way is
// known, else along all its pieces as if they lay in one line.
type LoopTolerance struct {
	Loop            Loop
	WorstMM         float64  // everything off by its whole tolerance the same way
	RootSumSquareMM float64  // the root of the sum of the squares: what usually happens
	PlayMM          float64  // there is at the closing joint; -1: as much as is needed
	LastPiece       int      // Piece.Number of the one cut over length and fitted last; 0: none
	LeaveMM         float64  // by how much, whole mm
	Measure         []string // what to measure first: parts whose length or take-off is a guess
}

// InLinePart is what the tolerance of a loop needs to know of a new in-line part.
type InLinePart struct {
	TolMM   float64   // by how much its length may be off, either way
	Way     graph.Vec // the way it lies, unit; zero where not known
	Measure bool      // its length is a guess
	What    string    // what to measure, in words
}

// Tolerance adds up, for each loop of the new work, what its cuts, take-offs and parts may
// be off, and holds it against the play there is.
func Tolerance(lay *Layout) *Tolerances {
	out := &Tolerances{}
	a := Assemble(lay)
	for _, loop := range a.Loops {
		t := lay.loopTolerance(loop)
		out.Loops = append(out.Loops, t)
		if d, ok := lay.judgeTolerance(t); ok {
			out.Findings = append(out.Findings, d)
		}
	}
	out.Findings = graph.SortDiagnostics(out.Findings)
	return out
}

func (lay *Layout) loopTolerance(loop Loop) LoopTolerance {
	t := LoopTolerance{Loop: loop, PlayMM: loop.PlayMM}
	axis := lay.links[loop.Closing-1].Into
	squares := 0.0
	add := func(tol float64, way graph.Vec) {
		if axis != (graph.Vec{}) && way != (graph.Vec{}) {
			tol *= math.Abs(axis.Dot(way))
		}
		t.WorstMM += tol
		squares += tol * tol
	}
	measure := func(what string) {
		if what != "" && !slices.Contains(t.Measure, what) {
			t.Measure = append(t.Measure, what)
		}
	}
	for _, i := range loop.Pieces {
		p := &lay.Pieces[i]
		way := p.Finish.Sub(p.Start).Unit()
		if p.Spec.Flexible() {
			continue
		}
		add(cutToleranceMM, way)
		for _, e := range []End{p.From, p.To} {
			if _, isPart := lay.inLine[partOfEnd(e)]; !isPart {
				add(max(e.TolMinusMM, e.TolPlusMM), way)
			}
		}
		for _, what := range p.MeasureWhat {
			measure(what)
		}
		if p.OverMM > 0 {
			t.LastPiece = p.Number
		}
	}
	for _, id := range loop.Parts {
		part, ok := lay.inLine[id]
		if !ok {
			continue
		}
		add(part.TolMM, part.Way)
		if part.Measure {
			measure(part.What)
		}
	}
	t.RootSumSquareMM = math.Sqrt(squares)
	t.LeaveMM = math.Ceil(t.WorstMM)
	return t
}

// partOfEnd is the part an end of a piece goes into, by its words.
func partOfEnd(e End) string {
	for i := range e.Fitting {
		if e.Fitting[i] == '.' {
			return e.Fitting[:i]
		}
	}
	return ""
}

// unsure reports whether a loop may be off by more than there is play, or hangs on lengths
// that are guesses.
func (t *LoopTolerance) unsure() bool {
	return t.PlayMM >= 0 && t.Loop.How != "" && len(t.Loop.Pieces) > 0 && (len(t.Measure) > 0 || t.RootSumSquareMM > t.PlayMM)
}

// measureThem is what to do with lengths that are guesses, and where what was measured goes.
const measureThem = "measure them and give their lengths (a part of the file its length; the others as take-off or length of a row of your own, by the name dryfit catalog list has it under)"

// judgeTolerance warns where the play is too small, and while lengths are guesses says
// which to measure instead.
func (lay *Layout) judgeTolerance(t LoopTolerance) (graph.Diagnostic, bool) {
	if !t.unsure() {
		return graph.Diagnostic{}, false
	}
	d := graph.Diagnostic{Rule: "tolerance", Severity: graph.Note, Pos: lay.loopPos(t.Loop)}
	last := quantity.Text("before anything is cut: no piece of this loop can be fitted when the rest stands")
	if t.LastPiece > 0 {
		last = lay.Pieces[t.LastPiece-1].OverWords()
	}
	closed := graph.Say("the loop closed at joint %d", t.Loop.Closing)
	if part := lay.links[t.Loop.Closing-1].Part; t.Loop.How == "union" && part != "" { // its nuts come after all that is glued
		closed = graph.Say("the loop that the union nuts of %s close (joint %d)", part, t.Loop.Closing)
		if t.LastPiece > 0 {
			last += " before those nuts"
		}
	}
	off := graph.Say("%s may be off by %s at worst, %s as a rule (root of the sum of squares)", closed, mm(t.WorstMM), mm(t.RootSumSquareMM))
	switch {
	case len(t.Measure) > 0:
		d.Message = graph.Say("%s while these are not measured: %s", off, ListWords(t.Measure))
		d.Hint = measureThem + "; " + last
		if t.LastPiece == 0 {
			d.Hint = measureThem + " " + last
		}
	case t.RootSumSquareMM > t.PlayMM:
		d.Severity = graph.Warning
		d.Message = off + graph.Say(", and there are %s of play", mm(t.PlayMM))
		d.Hint = last
		if t.LastPiece == 0 {
			d.Hint = "measure every part of it " + last
		}
	default:
		return graph.Diagnostic{}, false
	}
	return d, true
}

// loopPos is the first new part or run of a loop.
func (lay *Layout) loopPos(loop Loop) graph.Pos {
	for _, id := range loop.Parts {
		if p := lay.Circuit.Part(id); p != nil && p.New() && p.Pos.IsValid() {
			return p.Pos
		}
	}
	for _, i := range loop.Pieces {
		if pos := lay.Pieces[i].Run.Pos; pos.IsValid() {
			return pos
		}
	}
	return graph.Pos{File: lay.Circuit.File}
}
