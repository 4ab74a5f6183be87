// Package takeoff turns a layout into lists: the bill of fittings with equivalent lengths,
// the cut list, and the stock plan with its proof; and says what a pump's head goes into.
// Lengths mm, money as exact decimals. Pure functions: equal inputs, equal lists.
//
// Which bars to buy and how to cut them is package stock's. The bill is NewBill: loss (what
// a fitting costs), bill (parts and fittings), pipework, joining, carrying, spares, prices,
// totals.
package takeoff
