// Package removal proposes the circuit with a unit taken out again, and the line it stood in closed:
// the other way round of package retrofit. It judges nothing; graph/plan does. Lengths mm.
package removal
