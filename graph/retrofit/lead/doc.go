// Package lead finds the two pipes from the new tees to a unit of which is known where it
// stands: at right angles, ending exactly at its two ports.
//
// What is wished for, in this order: clear of everything described and of each other, with
// room for what stands in the pipes; enough straight before a check; fewest points where
// water or air is trapped; fewest elbows; least length; then the order in which ways are
// tried. Two pipes that share a way lie side by side at clip distance.
//
// The search (path.go) goes leg by leg over interesting coordinates (grid.go): those of the
// ends, the least lengths of legs from them, and the faces of what is in the way. It gives
// the paths of one pipe in the order of their cost, led by what is left at the least: with
// nothing in the way, but with legs as long as they must be (bound.go), and where that is not
// enough round the blocks (ahead.go). pair.go takes the best two that are clear of each other, of
// every kind of pair: the way they leave the tees and how they come to the unit, up or down, for
// what is trapped there hangs on both. find.go starts without obstacles and adds those that the pair
// found runs into, until it runs into none. What is left out can only make a pair worse, so a pair
// that is clear of everything is the best of all.
//
// Lengths are mm outside and whole micrometres inside. The work is bounded by counting; pure
// functions.
package lead
