package tables

import (
	"cmp"
	"dryfit/catalog"
	"math"
	"slices"
)

// CalliperMM is how far an outside diameter taken with a calliper may be off the nominal, mm:
// the tolerance of the pipe (0.15 at 2 in, ASTM D1785) and of the hand that measures.
// Source: the second is judgement.
const CalliperMM = 0.5

// ByOutside returns the pipes whose outside diameter is within the tolerance (mm) of the one
// measured, the nearest first, those of the catalogue before others.
func ByOutside(c *catalog.Catalog, measuredMM, toleranceMM float64) []Outside {
	var out []Outside
	add := func(o Outside) {
		o.DifferenceMM = measuredMM - o.OutsideMM
		if math.Abs(o.DifferenceMM) <= toleranceMM {
			out = append(out, o)
		}
	}
	for r := range c.All() {
		if r.Kind == "pipe" && !r.Spec.IsHose() {
			add(Outside{Pipe: string(r.Spec) + " " + r.Size.String(), Spec: r.Spec, Size: r.Size, OutsideMM: r.OutsideMM, Pressure: true, Source: string(r.Source)})
		}
	}
	for _, o := range otherOutsides() {
		add(o)
	}
	slices.SortStableFunc(out, func(a, b Outside) int {
		return cmp.Compare(math.Abs(a.DifferenceMM), math.Abs(b.DifferenceMM))
	})
	return out
}
