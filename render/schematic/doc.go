// Package schematic draws a circuit as a flow diagram that a fitter reads at arm's length:
// existing work thin, new work thick, cut marks, flow arrows, sizes, tags and normal valve
// positions, with a legend of just the signs used.
//
// Package arrange says where everything stands, package symbol draws the signs, package
// label finds places for the texts. Same circuit, same bytes.
package schematic
