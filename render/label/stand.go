package label

// stand is a place as the board keeps it.
type stand struct {
	Spot
	number  int     // among all places
	spans   []span  // the cells of the parts
	weighed bool    // fixed is worked out
	fixed   float64 // how much of what is fixed it covers, mm²
	rivals  []rival // places of other labels that overlap it, in the layers read so far
	read    int     // how many these are
}

// ref names a place.
type ref struct{ label, place int }

// stand returns place k of a label, with what is fixed there worked out.
func (b *Board) stand(i, k int) *stand {
	s := &b.labels[i][k]
	if !s.weighed {
		s.fixed, s.weighed = b.still.coveredBy(&b.grid, s), true
	}
	return s
}
