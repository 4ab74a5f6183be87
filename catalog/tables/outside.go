package tables

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"dryfit/catalog"
	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// Outside is a pipe that an outside diameter may belong to.
type Outside struct {
	Pipe         string       // "pvc-sch40 2 in", "waste pipe 1-1/2 in"
	Spec         catalog.Spec // "" for pipe the catalogue has no rows for
	Size         catalog.Size
	OutsideMM    float64
	DifferenceMM float64 // measured less this
	Pressure     bool    // made for pressure
	Source       string
}

var otherOutsides = sync.OnceValue(func() []Outside {
	s := data.Read("outsides.csv")
	var out []Outside
	for _, l := range s.Lines {
		out = append(out, Outside{Pipe: l[0], OutsideMM: s.Amount(l[1], quantity.Length), Pressure: l[2] == "yes", Source: l[3]})
	}
	return out
})

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
