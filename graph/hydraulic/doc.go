// Package hydraulic solves the steady flow in a circuit laid out by package route: a flow
// for every run and part in every mode, and how sure the answer is.
//
// Everything is SI: flow m³/s, head m of the water pumped, pressure Pa, temperature °C.
// Darcy-Weisbach with Colebrook-White iterated to convergence; fittings by the handbook
// method K = (L/D)·f_T (Crane TP-410, 2009), flow-dependent tees of the same. No I/O, no
// goroutines, no random: equal inputs, equal results to the last bit.
package hydraulic
