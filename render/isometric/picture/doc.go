// Package picture draws members of a circuit, legs and bodies, as one isometric picture: pipes,
// signs, ends and fittings, and the labels that found room. Which members go on which sheet is
// package isometric's.
package picture
