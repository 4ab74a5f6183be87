// Package twin holds the ranges that package hydraulic prints to account: tubs made up as the
// trade meets them, each surveyed as a careful fitter would, both solved. Of a hundred tubs
// the true flow of the unit should lie in the range printed as nine in ten in some ninety.
//
// It has nothing but tests. What a tub may be is drawn in world_test.go, from what fitters
// and handbooks say and with a reason beside each number; nothing there is read from the
// catalogue or its spreads, which are what is being judged. A spread is widened because a
// tradesman would, never because a count here asks for it.
//
// Before any spread was looked at again the truth lay inside, of 75 tubs each: the unit's flow
// of small circulation pumps 5 in a hundred, of large ones 13, of plunge pools 8, of plug-in
// tubs 11, of two-speed pumps 51 at low and 45 at high; the pump's 1, 25, 12, 7, 41 and 24.
//
//	go test ./graph/hydraulic/twin                        a few of each family
//	go test ./graph/hydraulic/twin -run Cover -v -twins 200     more, with the table
//
// Two surveyors describe the tubs, each written down before it was drawn (surveyor_test.go): a
// careful one, for whom the spreads were made, and a hurried one, for whom nothing was changed.
// With 32 tubs of each family and level the truth lay inside the ranges in 86 to 98 of 100 with
// the careful one, by family, mode and flow, and in 80 to 99 with the hurried one: least sure the
// unit's flow of small circulation pumps (80) and of plug-in tubs (81).
package twin
