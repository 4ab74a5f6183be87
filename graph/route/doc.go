// Package route lays a circuit out in space: legs become positions, elbows stand where
// two legs meet, reducers and transitions where sizes or families meet, couplings where a
// piece is longer than the stock; and every straight piece gets its cut length.
//
// Lengths are mm. Cut length = centre to centre minus both take-offs (ISO 264's z, ASTM
// D2467's G); insertion depths do not enter it. Pure functions.
package route
