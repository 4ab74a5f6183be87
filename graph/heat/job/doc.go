// Package job turns a description and its solved flows into questions for package heat, and
// keeps count of everything that was assumed on the way: what a tub loses, whether the unit
// holds it, what the year costs as it is and as planned, when to heat, what the supply
// carries.
//
// It reads the circuit's tables ([site], [cover], [use], …) and values handed in; it solves
// no circuit and opens no file.
package job
