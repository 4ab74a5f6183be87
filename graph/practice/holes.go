package practice

import (
	"math"

	"dryfit/catalog/quantity"
)

// Hole is a hole that new pipe wants in a wall of the cabinet.
type Hole struct {
	Wall   string // "front", "right side"
	Piece  int    // number of the piece that goes through
	PipeMM float64
	Middle quantity.Text // of its middle, by directions: "front 200 mm, up 40 mm"
	From   quantity.Text // what that is counted from
	Later  bool          // it can't be marked before the unit stands
}

// holeOverMM is how much larger than the pipe its hole is, mm: room for a thin sleeve and for the
// pipe to move. Common practice, no source.
const holeOverMM = 10

// BoreMM is how large the hole is bored, mm, up to the next whole one.
func (h Hole) BoreMM() float64 { return math.Ceil(h.PipeMM + holeOverMM - 1e-6) }

// Bore says which holes are bored through the walls of the cabinet: one step for each wall and size.
func Bore() []Sentence {
	return []Sentence{{
		Name: "bore-cabinet",
		When: func(j *Job) bool { return len(j.Holes) > 0 },
		Say: func(j *Job) quantity.Text {
			var text quantity.Text
			later := false
			for i, h := range j.Holes {
				if i > 0 && sameBore(h, j.Holes[i-1]) {
					continue
				}
				n, where := 0, quantity.Text("")
				for _, o := range j.Holes[i:] {
					if !sameBore(o, h) {
						break
					}
					if n > 0 {
						where += "; "
					}
					where += quantity.Say("for piece %d at ", o.Piece) + o.Middle
					n, later = n+1, later || o.Later
				}
				text += "Bore " + holes(n) + quantity.Say(" of %s through the %s of the cabinet, for pipe of %s outside: ", quantity.Length.Of(h.BoreMM()), h.Wall, quantity.Length.Finely(h.PipeMM)) +
					where + "; " + middles(n) + " counted from " + h.From + ". "
			}
			if later {
				text += "Mark what belongs to a pipe to the unit only when the unit stands. "
			}
			return text + "Look first what lies behind: no cable, pipe, frame or shell of the tub may be in the way. A sleeve in each, sealed soft round the pipe once it is in."
		},
		Source: common,
	}}
}

// sameBore reports whether two holes are of one wall and size.
func sameBore(a, b Hole) bool { return a.Wall == b.Wall && a.PipeMM == b.PipeMM && a.From == b.From }

// middles are what the places of so many holes are of.
func middles(n int) quantity.Text {
	if n == 1 {
		return "its middle"
	}
	return "their middles"
}

// holes counts holes: "a hole", "two holes", "5 holes".
func holes(n int) quantity.Text {
	switch n {
	case 1:
		return "a hole"
	case 2:
		return "two holes"
	}
	return quantity.Say("%d holes", n)
}
