// Package practice holds what the trade says of such a job, as data: each sentence with the
// condition under which it is said, what it tells somebody to do, what it names, and its
// source. It computes nothing: the facts of a job come in as a Job, and whoever makes a page
// or a sheet picks from the subjects what its reader needs.
//
// Figures are common practice or quoted from memory where their source says so; everywhere
// the unit's sheet, the tub maker and the local code come first.
package practice
