// Package detail draws the assembly that goes into the old line true to scale in one plane:
// the string from one cut to the other with the first pipe of every branch, the outlines of
// the fittings, how deep each pipe goes in, and the lengths the cuts hang on.
//
// Lengths along the pipe are those of the layout, mm. Outlines across it are sketched: the
// catalogue knows how long a fitting is, not how thick its walls are.
package detail
