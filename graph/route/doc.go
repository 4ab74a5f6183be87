// Package route lays a circuit out in space: legs become positions, elbows stand where
// two legs meet, reducers and transitions where sizes or families meet, couplings where a
// piece is longer than the stock; and every straight piece gets its cut length. It finds an
// order in which the joints of the new work can be made, and by how much a closed loop of
// it may be off.
//
// Lengths are mm. Cut length = centre to centre minus both take-offs (ISO 264's z, ASTM
// D2467's G); insertion depths do not enter it. Pure functions.
//
// The steps, each in a file of its own: way (which way pipe leaves each port), line (what
// stands at the ends and bends of a run; station, socket, bend), locate (places; settle,
// closure), piece and joint, order (phase, steps, mend), tolerance.
package route
