// Package template draws the cut-out templates for sawing old pipe: for each cut a band of
// paper at 1:1 to wrap round the pipe, with the saw line square to the pipe all the way
// round, the side that is waste, and how deep the pipe goes into its new socket.
//
// A band is as long as the pipe's circumference, so that its ends meet only on the pipe it
// was drawn for. Lengths are mm on paper and on the pipe alike.
package template
