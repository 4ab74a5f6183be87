// Package network solves the steady flow in a network of nodes and edges, whatever the laws
// of the edges are: flows that conserve mass, and heads whose difference over every edge is
// its loss.
//
// With losses that rise with flow, those flows are the minimum of the convex content
// function E(q) = Σ ∫ h(q) dq over all flows that conserve mass (E. C. Cherry 1951, W.
// Millar 1951; for pipe networks M. Collins et al. 1978, Manage. Sci. 24(7)), an edge that
// lets water pass one way only being the constraint q >= 0. So the flows exist, are unique,
// and a step along which E falls leads nearer to them.
//
// The unknowns are the flows of the chords of a spanning tree; the tree's flows follow, so
// that mass is conserved at every step. Newton's direction comes from the nodes' matrix,
// eliminated without a subtraction; where joints are in the way of that, from the loops' own
// matrix if they are few (direct), else it is sought by steps or the joints are eliminated too.
package network
