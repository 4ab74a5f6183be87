package lead

import "dryfit/graph"

// Problem is two pipes to find. Lengths mm; every way is along an axis.
type Problem struct {
	To, From Pipe        // both as they are walked: from the tee to the unit
	Ways     []graph.Vec // ways the tees' branches may point, the preferred first
	Boxes    []Box       // what no pipe may touch
	ClipMM   float64     // least distance of the two pipes, axis to axis
	SelfMM   float64     // least distance of a pipe from an earlier leg of its own
	Refused  []Refused   // what was found before and can't be had
	Known    *Known      // from other problems; nil: nothing
	Roughly  bool        // any good pair will do: where the unit stands is a guess
}

// Refused is a pair that can't be built, by its legs from the tees to the unit; nil legs stand
// for every pipe there.
type Refused struct {
	To, From []graph.Vec
}

// Pipe is one of the two.
type Pipe struct {
	Start graph.Vec   // centre of the tee
	End   graph.Vec   // the unit's port
	Face  graph.Vec   // way the port looks: the last leg goes against it
	Along []graph.Vec // legs it follows first; of the last it may have more
	Legs  []graph.Vec // as written: there is nothing to find; nil
	Back  bool        // the water comes from the unit

	Tee, Elbow, Port Stop
	Isolator         Item  // in the first leg that has room
	Union            Item  // in the last leg
	Tap              Item  // room for a tee with a drain or a bleed in the last leg; zero: none
	Check            *Item // against a feeder, in a leg where the water runs level or up; nil: none
	StraightMM       float64
	RadiusMM         float64 // of its elbows
}

// Stop is what a leg meets at an end.
type Stop struct {
	TakeOffMM, DepthMM float64
}

// Item stands in a leg.
type Item struct {
	LengthMM, DepthMM, RadiusMM float64
}

// Box is a solid, or a part of one, along the axes.
type Box struct {
	Low, High graph.Vec
	Name      string
	Near      Near
}

// Near says which leg may touch a box.
type Near byte

// What a box may belong to.
const (
	Apart    Near = iota
	Line          // the line that is cut: the first leg comes out of it
	LineTo        // the same where each pipe has a line of its own: that of the pipe to the unit
	LineFrom      // that of the pipe from it
	Unit          // the unit: the last leg ends at it
	Wall          // a thin wall: a leg goes square through it, but nothing ends in it
)

// Pair is what was found.
type Pair struct {
	To, From []graph.Vec // legs from the tee to the unit, both
	Way      graph.Vec   // of the tees' branches
	Cost     Cost
	Proved   bool     // no pair is better; false: the work came to its bound before
	Met      []string // names of what was in the way of better ones, in the order they were met
}

// Cost is what is wished little of, the first before the next.
type Cost struct {
	Unstraight int   // checks without enough straight before them
	Traps      int   // points where water or air is trapped
	Elbows     int   // of both pipes
	LengthUM   int64 // of both pipes, micrometres
}

func (c Cost) plus(o Cost) Cost {
	return Cost{c.Unstraight + o.Unstraight, c.Traps + o.Traps, c.Elbows + o.Elbows, c.LengthUM + o.LengthUM}
}

// Compare orders costs, the better first.
func (c Cost) Compare(o Cost) int {
	switch {
	case c.Unstraight != o.Unstraight:
		return c.Unstraight - o.Unstraight
	case c.Traps != o.Traps:
		return c.Traps - o.Traps
	case c.Elbows != o.Elbows:
		return c.Elbows - o.Elbows
	case c.LengthUM < o.LengthUM:
		return -1
	case c.LengthUM > o.LengthUM:
		return 1
	}
	return 0
}

// less is what is left of a bound for one pipe once the other has its share; nil stays nil. It
// orders as costs do, though single terms of it may be negative.
func (c *Cost) less(o *Cost) *Cost {
	if c == nil || o == nil {
		return nil
	}
	return &Cost{c.Unstraight - o.Unstraight, c.Traps - o.Traps, c.Elbows - o.Elbows, c.LengthUM - o.LengthUM}
}
