// Package settle works out every value of one stage of a circuit once, with where it came
// from: what the description gives, what a row of the catalogue gives, what follows from
// another value, and what is assumed. Rooms that come later (route, hydraulic, rule,
// takeoff, the drawings) read a Stage and look nothing up themselves; only what chooses a
// new part or fitting still asks the catalogue.
//
// A value is settled from the parts and runs as they are written, never from flows or
// positions: those come later. The circuit is not changed.
package settle
