// Package takeoff turns a layout into lists: the bill of fittings with equivalent lengths,
// the cut list, and the stock plan with its proof. Lengths mm, money as exact decimals.
package takeoff
