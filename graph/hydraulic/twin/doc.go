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
// Two makers draw the tubs, a workshop (world_test.go) and one who goes by a table of the trade
// (handbook_test.go), and two surveyors describe them, a careful one and a hurried one
// (surveyor_test.go); each was written down before a tub was drawn with it. When the second maker
// came, with 30 tubs of each family and level, the truth of his tubs lay inside in 63 to 93 of
// 100 by family, mode and flow: two-speed pumps are larger than their rows were (15 to 30 m³/h
// at 7 to 12 m), a filter in use is as good as never clean, jets in two banks are one maker's
// and off together, a lamp's chamber and a salt cell are chosen for their line's flow, as heaters
// are. Mended for these reasons it is 80 to 99, least sure the plug-in tub surveyed in a hurry.
// By family the ranges are a tenth wider at most, most of them 3 or 4 in a hundred: the unit's flow
// from end to end 1.4 times of small pumps, 1.6 of large ones, pools and plug-in tubs, 2 of
// two-speed pumps; with every sheet 1.2. Promises said to be held in 88 or 89 of 100 were kept in
// 93 and 92 (workshop; careful, hurried), 90 and 87 (handbook).
package twin
