// Package route says what a stage laid out in space is: where every port stands, the straight
// pieces with their cut lengths, the fittings and the joints between them (Layout); and what
// follows from it: an order in which the joints of the new work can be made, by how much a
// closed loop of it may be off, and how far below the water each part lies.
//
// Lengths are mm. Pure functions. Package laying makes a Layout of a circuit.
//
// The order, each step in a file of its own: bodies (what is one rigid thing), order (which
// joints close loops), phase, overlength, steps, mend; then tolerance.
package route
