// Package tag settles what things are called on every paper: a part is its tag with a trade
// word ("T2, tee to the unit"), a piece and a joint are their numbers ("piece 4", "J7"), and
// what a pipe ends in is the part's tag or the fitting's trade word. The names the
// description gives its parts and runs stand in findings only.
package tag
