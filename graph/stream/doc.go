// Package stream knows which way the water goes: the circuit as a directed net, what lies up
// and down the water from any place, the line of each pump through the tub and back, and the
// branch a unit hangs on.
//
// It reads circuits and changes none. A net is built once for a stage and asked as often as
// one likes.
package stream
