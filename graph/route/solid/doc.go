// Package solid gives everything of a layout a body in space: pipe, fittings, parts and
// equipment as cylinders, capsules and boxes, with how sure each is of its size and place.
// It says how far apart two bodies are, finds those that run through each other, and replays
// the order of assembly with them.
//
// Lengths are mm. Pure functions.
//
// Begin reading at shape.go, then body.go (from a Layout the list of bodies).
package solid
