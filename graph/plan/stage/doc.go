// Package stage is the circuit before or after the work, laid out in space and solved in each
// of its modes, and on its bad days too. It judges nothing.
package stage
