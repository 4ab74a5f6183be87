package spread

import (
	"slices"

	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// Sampled is one number that may be off, as it goes into the sample. Of an Influence it has all
// but what the number moves, which only the sample tells.
type Sampled struct {
	Influence
	At []string // ids of the parts and runs it was met at, in the order of the circuit
}

// Unknowns lists what is sampled of a circuit after the work and before it (nil where that is
// not known), in the order of the circuit: the same numbers that Of takes.
func Unknowns(before, after *route.Layout, unit string) []Sampled {
	s := newSpread(before, after, unit)
	out := make([]Sampled, len(s.all))
	for i := range s.all {
		u := &s.all[i]
		out[i] = Sampled{u.influence(), u.at}
	}
	if len(out) > 0 {
		depth := Level()
		depth.Value = "by the depths that the description gives"
		out = append(out, Sampled{Influence: depth})
	}
	return out
}

// Level is how far below the water what nothing says it of is taken to lie, m: no flow hangs on it,
// what a pipe and the unit have to stand does.
func Level() Influence {
	depth := byClass(levelClass, "level with the water")
	return Influence{What: "how deep below the water lies what nothing says", Number: settle.DepthNumber, Span: level(), Adds: true,
		Value: depth.value, Source: depth.source, Guess: true}
}

// influence is the unknown without what it moves.
func (u *unknown) influence() Influence {
	return Influence{Taken: u.taken, By: u.by, What: u.what, Number: u.number, Part: u.part, Span: u.span, Adds: u.adds, Key: u.used.key, Value: u.used.value,
		Source: u.used.source, Given: u.used.given, Guess: u.used.guess}
}

// met notes that an unknown was met at a part or run.
func (u *unknown) met(at string) {
	if !slices.Contains(u.at, at) {
		u.at = append(u.at, at)
	}
}
