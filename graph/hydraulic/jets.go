package hydraulic

import (
	"dryfit/catalog"
	"dryfit/graph"
)

// jetsLaw returns the loss of a group of equal jets in parallel: count times the flow of one
// at the same head. One jet is described by a rated point, else by K on its bore; what is
// missing is the catalogue's.
func jetsLaw(j *graph.JetData, row catalog.Row, density float64) (law *partLaw, source string) {
	n := float64(max(j.Count, 1))
	if r := j.Rated; r != nil && r.Flow > 0 {
		q := n * r.Flow
		return &partLaw{square: r.Drop.Head(density) / (q * q), times: 1}, "described"
	}
	k, bore := row.K, row.BoreMM
	source = "catalogue"
	if j.HasK {
		k, source = j.K, "described"
	}
	if j.BoreMM > 0 {
		bore = j.BoreMM
	}
	if bore <= 0 {
		return nil, "none"
	}
	return &partLaw{square: squareOf(k, bore/1000) / (n * n), times: 1}, source
}
