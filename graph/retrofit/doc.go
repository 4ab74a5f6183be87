// Package retrofit proposes: from the existing circuit and a request it makes the circuits
// that would result, one for each place and assembly. It computes no flows and judges
// nothing; graph/plan does. Lengths mm.
package retrofit
