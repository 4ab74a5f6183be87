package route

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
)

// across returns what leads from a port to pipe of another family: what join makes of the
// two sizes. Where the catalogue has no such row a tee takes a bush in its own family first,
// to the nearest size from which there is one: that is how a line lets a smaller branch of
// another family out. Elsewhere the size is for the description to choose.
func (l *layer) across(s *station, pipe *graph.Run, join func(socket, *graph.Run) adaptor) []adaptor {
	part := s.stock
	direct := join(part, pipe)
	if direct.known || s.part == nil || s.part.Kind != graph.Tee {
		return []adaptor{direct}
	}
	sizes := l.cat.PipeSizes(rigidSpec(part.spec, part.size))
	off := func(s catalog.Size) float64 { return math.Abs(s.NominalMM() - part.size.NominalMM()) }
	slices.SortStableFunc(sizes, func(a, b catalog.Size) int { return cmp.Compare(off(a), off(b)) })
	for _, mid := range sizes {
		if mid.NominalMM() >= part.size.NominalMM() {
			continue
		}
		between := join(socket{spec: part.spec, size: mid, row: part.row, ends: part.ends}, pipe)
		if bushes := l.bushes(part.spec, part.size, part.spec, mid); between.known && allKnown(bushes) {
			return append(bushes, between)
		}
	}
	return []adaptor{direct}
}

func allKnown(chain []adaptor) bool {
	return !slices.ContainsFunc(chain, func(a adaptor) bool { return !a.known })
}
