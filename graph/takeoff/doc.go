// Package takeoff turns a layout into lists: the bill of fittings with equivalent lengths,
// the cut list, and the stock plan with its proof; and says what a pump's head goes into.
// Lengths mm, money as exact decimals. Pure functions: equal inputs, equal lists.
//
// The stock plan is PlanStock, in stock*.go: problem (integers), choose (which bars), pack
// (whether the pieces go into them), bound and lp (why they do not), fill (one bar), quick
// and tidy (rules of thumb), result. The bill is NewBill: loss (what a fitting costs), bill
// (parts and fittings), pipework, joining, carrying, spares, prices, totals.
package takeoff
