// Package tables answers what holds for every row of a size, a spec or a kind: how far a number
// may be off, what pipe stands when warm, sockets' cement and cure, clips, outside
// diameters, exponents and openings. Lengths are mm, pressures Pa, temperatures °C.
package tables
