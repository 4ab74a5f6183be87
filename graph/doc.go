// Package graph holds the circuit: parts, their ports, and the runs of pipe that
// join them, several of which may join the same two parts; which way the water goes in them
// is for package stream.
//
// Lengths and positions are in mm. Everything else is SI (m³/s, Pa, W, kg/m³, Pa·s),
// but temperatures are in °C and a head is in m of the water pumped. Values are plain
// and the functions are pure: no files, no clock, no globals. A run's direction (From
// to To) is the direction in which its legs are written; water may flow the other way.
package graph
