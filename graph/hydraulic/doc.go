// Package hydraulic solves the steady flow in a circuit laid out by package route: a flow
// for every run and part in every mode, and how sure the answer is.
//
// Build turns a layout and a mode into a Model, whose network Model.Solve solves as it is
// described or with inputs off by factors (Perturb); Solve does both once. Package formula
// holds water, friction, fittings and curves, package network the solver.
//
// Everything is SI: flow m³/s, head m of the water pumped, pressure Pa, temperature °C.
// Heads are total heads. Darcy-Weisbach with Colebrook-White iterated to convergence on the
// catalogue's mean bore; fittings by the handbook method K = (L/D)·f_T (Crane TP-410,
// 2009), tees by the split of their flow, of the same. No I/O, no goroutines, no random:
// equal inputs, equal results to the last bit.
package hydraulic
