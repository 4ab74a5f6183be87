// Package isometric draws the new work as a fitter cuts and joins it: an isometric after
// ISO 6412-2 (from memory) with piece numbers, joints in the order of assembly and lengths
// from centre to centre. It is not to scale: lengths along each axis are stretched or
// shortened so that everything can be read, the same for all that lies side by side, so that
// what is parallel stays parallel and what closes closes.
//
// X goes to the upper right, Y to the upper left, Z up, seen from the front, left and above.
// Same layout, same bytes.
package isometric

import (
	"dryfit/render/isometric/members"
)

// Input is what an isometric is drawn from.
type Input = members.Input

// Gone is what the work takes out, by ids.
type Gone = members.Gone
