// Package arrange decides where the signs of a schematic stand and how its pipes run.
//
// The circuit is taken apart into lines: longest stretches of pipe that pass straight
// through tees. The line from the tub through the pump and back is a level row; a line that
// bridges two tees of a row (the branch of a unit) stands above it, one from the tub or to
// the tub below it, a short dead end (a drain, a bleed) hangs on its tee, and what goes back
// to the tub runs under everything. Graphviz (package place) says which part stands left of
// which and which of several lines comes first; here the rows are straightened and the
// columns closed up, so that a row never bends and a branch never runs through a sign.
//
// Lengths are in mm, X to the right, Y down, the tub's right wall at X = 0. Same circuit,
// same arrangement.
package arrange
