package field

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/description/located"
)

// specs returns the names of the pipe specs.
func (r *Reader) specs() []string {
	var out []string
	for _, s := range catalog.Specs() {
		out = append(out, string(s))
	}
	return out
}

// pipeSizes returns the sizes there are of a spec.
func (r *Reader) pipeSizes(spec catalog.Spec) []catalog.Size {
	sizes, ok := r.Sizes[spec]
	if !ok {
		sizes = r.Catalog.PipeSizes(spec)
		r.Sizes[spec] = sizes
	}
	return sizes
}

// SizeInCatalog reports a size in which there is no pipe of the spec, at the table's size
// or, where that is not written, its spec.
func (r *Reader) SizeInCatalog(v located.Value, spec catalog.Spec, size catalog.Size) {
	if spec == "" || size.IsZero() || slices.Contains(r.pipeSizes(spec), size) {
		return
	}
	at, ok := v.In("size")
	if !ok {
		at, ok = v.In("spec")
	}
	if !ok {
		return // both come from [pipe], and are reported there
	}
	hint := r.otherSpec(spec, size) + r.outside(spec, size)
	if spec.IsHose() {
		hint = r.hoseOfBore(spec, size)
	}
	r.Fail(at, hint+r.sizesThereAre(spec), "there is no %s of %s in the catalogue", spec.Pipe(), size)
}

func (r *Reader) sizesThereAre(spec catalog.Spec) string {
	var words []string
	for _, s := range r.pipeSizes(spec) {
		words = append(words, s.String())
	}
	return fmt.Sprintf("%s has %s", spec, strings.Join(words, ", ")) + `; another can be added with [[catalog.pipe]]`
}

// otherSpec names a spec that has the size, where the size is of the other series: metric
// sizes on inch pipe and the other way round are the commonest mix-up.
func (r *Reader) otherSpec(spec catalog.Spec, size catalog.Size) string {
	for _, s := range catalog.Specs() {
		if s.Family() != spec.Family() && slices.Contains(r.pipeSizes(s), size) {
			return fmt.Sprintf("%s is a size of spec = %q; ", size, s)
		}
	}
	return ""
}

// hoseOfBore names the hose whose bore is nearest to a size that there is none of.
func (r *Reader) hoseOfBore(spec catalog.Spec, size catalog.Size) string {
	const near = 1.5 // mm: to either side of that two hoses of the catalogue begin. Judgement
	text, off := "hose is named by its bore; ", near
	for _, there := range r.pipeSizes(spec) {
		row, ok := r.Catalog.Pipe(spec, there)
		if d := math.Abs(row.BoreMM - size.NominalMM()); ok && d < off {
			text, off = fmt.Sprintf("hose is named by its bore: %s is the nearest, %.1f mm; ", there, row.BoreMM), d
		}
	}
	return text
}

// outside says of a size that is what a calliper reads on a pipe of the spec which pipe that is.
func (r *Reader) outside(spec catalog.Spec, size catalog.Size) string {
	const near = 0.6 // mm: a sixteenth of an inch is cut short to the next by as much, common practice, no source
	for _, there := range r.pipeSizes(spec) {
		row, ok := r.Catalog.Pipe(spec, there)
		if ok && there != size && row.OutsideMM > 0 && math.Abs(row.OutsideMM-size.NominalMM()) < near {
			return fmt.Sprintf("%s is the outside diameter of %s %s: write that size; ", size, spec, there)
		}
	}
	return ""
}

// quantityError reports an error of the quantities' own reader.
func (r *Reader) quantityError(v located.Value, err error) {
	d := r.Fail(v, "", "%s", located.Inert(err.Error()))
	var qe *quantity.Error
	if errors.As(err, &qe) {
		d.Message, d.Hint = quantity.Text(qe.Message), quantity.Text(qe.Hint)
		r.Shift(d, v, qe.Offset)
	}
}
