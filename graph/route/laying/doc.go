// Package laying lays a circuit out in space: legs become positions, elbows stand where two
// legs meet, reducers and transitions where sizes or families meet, couplings where a piece is
// longer than the stock; and every straight piece gets its cut length.
//
// Lengths are mm. Cut length = centre to centre minus both take-offs (ISO 264's z, ASTM
// D2467's G); insertion depths do not enter it. Pure functions.
//
// The steps, each in a file of its own: way (which way pipe leaves each port), line (what
// stands at the ends and bends of a run; station, ends, bend), locate (positions; datum, closure),
// piece and joint. The order of the work is package route's.
package laying
