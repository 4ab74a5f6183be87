// Package cutplan draws how the pieces of a cut list come out of the stock: every bar to
// scale with its pieces numbered, the saw cuts and what is left over. Lengths are mm.
package cutplan
