// Package stock plans how pieces come out of lengths of stock at proved least cost: the
// cutting stock problem with several lengths, prices, counts and the width of the saw.
//
// Lengths are mm, money exact decimals. The search ends after a fixed number of steps, so
// that equal inputs give equal plans on every machine; what it could not prove it says.
package stock
