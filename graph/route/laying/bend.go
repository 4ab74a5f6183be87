package laying

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// stockElbow is an elbow a merchant has: the angle it turns the pipe by, and its kind.
type stockElbow struct {
	deg  float64
	kind string
}

// stockElbows are the elbows in the trade, from the smallest turn.
func stockElbows() []stockElbow {
	return []stockElbow{{22.5, "elbow-22.5"}, {45, "elbow-45"}, {90, "elbow-90"}}
}

// ElbowOf is the kind of the stock elbow that turns pipe by so many degrees; false where no
// elbow does, or none is needed.
func ElbowOf(turn float64) (string, bool) {
	for _, e := range stockElbows() {
		if math.Abs(turn-e.deg) <= graph.StraightDeg {
			return e.kind, true
		}
	}
	return "", false
}

// bendRadii is the least radius a flexible pipe is bent to, in outside diameters.
// Source: common practice, no source.
const bendRadii = 4

// bend puts an elbow where leg k of a run meets the next, and returns its index among the
// run's fittings; -1 where none is needed or none fits.
func (l *work) bend(i, k int) int {
	r := l.c.Runs[i]
	a, b := r.Legs[k], r.Legs[k+1]
	turn := a.By.AngleTo(b.By)
	where := fmt.Sprintf("bend %d of %s", k+1, r.ID)
	if turn < graph.StraightDeg {
		return -1
	}
	if turn > 180-graph.StraightDeg {
		hint := quantity.Text("leave both out, for they lead nowhere, or put a leg between them")
		if left := a.By.Add(b.By); left.Len() > 1 {
			hint = graph.Say("write them as one leg, \"%s\", or put a leg between them", graph.Leg{By: left}.Words())
		}
		before := len(l.lay.Findings)
		message := graph.Say("leg %d of %s goes %s and leg %d the other way, %s: the pipe folds back on itself", k+1, r.ID, graph.WayWords(a.By), k+2, graph.WayWords(b.By))
		if r.New() {
			l.find(r.LegPos(k+2), graph.Error, message, hint)
		} else {
			l.find(r.LegPos(k+2), graph.Warning, message, "is a leg between them left out, or does one of them go another way? measure them again before anything is cut")
		}
		l.turnedAt(before, 180, true, legKey{i, k + 1}, legKey{i, k})
		return -1
	}
	if l.lines[i].gliding {
		l.judgeHoseBend(i, k, turn)
		return -1
	}
	kind, ok := ElbowOf(turn)
	if !ok {
		l.wrongBend(r, r.LegPos(k+2), graph.Say("the pipe turns by %s at %s, and no stock elbow has that angle", degrees(turn), where), nearestElbows(turn))
		return -1
	}
	row, ok := l.cat.Fitting(kind, r.Spec, r.Size)
	if !ok && r.New() {
		l.noRow(kind, r.Spec, r.Size, b.Pos, r)
	}
	path := &l.lay.Paths[i]
	path.Fittings = append(path.Fittings, route.Fitting{
		Kind: kind, Row: row, Run: r.ID, Where: where, Point: k + 1, TurnDeg: turn, Count: 1, New: r.New(),
	})
	return len(path.Fittings) - 1
}

// wrongBend is an error in new work and one note for old.
func (l *work) wrongBend(r *graph.Run, pos graph.Pos, message, hint quantity.Text) {
	if !r.New() {
		l.old.add("bend of no stock angle", pos, message, "measure the leg again, or take it as it is: the loss of this bend is left out")
		return
	}
	l.find(pos, graph.Error, message, hint)
}

func nearestElbows(turn float64) quantity.Text {
	var below, above float64
	for _, e := range stockElbows() {
		switch {
		case e.deg < turn:
			below = e.deg
		case above == 0:
			above = e.deg
		}
	}
	switch {
	case below == 0:
		return graph.Say("go straight, or change the leg so that the turn is %s", degrees(above))
	case above == 0:
		return graph.Say("the largest stock elbow turns %s: use two elbows with a short leg between", degrees(below))
	}
	return graph.Say("change the leg so that the turn is %s or %s", degrees(below), degrees(above))
}

// judgeHoseBend warns where a flexible pipe has no room to bend: the legs on both sides of
// a bend must be as long as the bend's tangent, R·tan(turn/2).
func (l *work) judgeHoseBend(i, k int, turn float64) {
	r := l.c.Runs[i]
	out := l.lay.Paths[i].Pipe.OutsideMM
	if !r.New() || out == 0 {
		return
	}
	need := bendRadii * out * math.Tan(turn/2*math.Pi/180)
	for _, leg := range []int{k, k + 1} {
		if have := r.Legs[leg].LengthMM(); have < need-0.05 {
			l.find(r.LegPos(leg+1), graph.Warning,
				graph.Say("%s is %s, and flexible pipe of %s outside diameter needs %s on each side of a turn of %s", route.LegWords(r, leg+1), mm(have), mm(out), mm(need), degrees(turn)),
				graph.Say("lengthen the leg, or use rigid pipe with an elbow; the least bending radius is taken as %d outside diameters (common practice)", bendRadii))
			return
		}
	}
}
