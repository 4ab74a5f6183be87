// Package catalog holds the pipes, fittings, valves and generic equipment a description
// may name: their dimensions, losses, ratings and how far each number can be trusted.
// Rows are embedded from the files in data/; a user's rows add to them or replace them.
//
// Lengths are in mm, pressures in Pa, Kv in m³/h. Every row names its source.
package catalog
