// Package symbol draws the parts of a circuit as the signs of a flow diagram.
//
// The shapes follow ISO 10628-2, ISO 14617-7, -8 and -11 and, for instruments, ISA-5.1,
// all from memory: a sheet should say "symbols after", not "conforming to". Shapes for
// which no standard sign is known to the author are marked "own shape" in the legend's
// table in the code.
//
// A symbol is drawn about the origin for water that goes to the right, in mm, Y down; its
// pipe ends lie on the X axis at In and Out. The module M is 2.5 mm.
package symbol
