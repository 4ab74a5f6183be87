package takeoff

import (
	"math"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// spareSource is the source of every rule here.
const spareSource = "spares: common practice, no source"

// addSpares adds what is worth having in the van: one elbow or coupling for every five (or
// part of five), two couplings and a repair coupling for every cut into old pipe, an O-ring
// for every union; no spare valves.
func (b *biller) addSpares() {
	for i := range b.lines {
		l := &b.lines[i]
		if l.New && l.Unit == "pc" && (strings.HasPrefix(l.Kind, "elbow") || l.Kind == "coupling") {
			l.Spare += math.Ceil(l.Quantity / 5)
		}
	}
	b.addCutSpares()
	b.addRings()
}

// cutEnd is one end of old pipe that new work joins.
type cutEnd struct {
	spec  catalog.Spec
	size  catalog.Size
	where string
}

// cutEnds returns the ends of old pipe at new parts: the cuts.
func (b *biller) cutEnds() []cutEnd {
	isNew := map[string]bool{}
	for _, p := range b.lay.Circuit.Parts {
		isNew[p.ID] = p.New()
	}
	var out []cutEnd
	for i := range b.lay.Paths {
		r := b.lay.Paths[i].Run
		if r.New() || b.lay.Paths[i].LengthMM <= 0 || r.Spec.IsHose() { // a hose cut wrong is cut again
			continue
		}
		for _, end := range []graph.PortRef{r.From, r.To} {
			if isNew[end.Part] {
				out = append(out, cutEnd{r.Spec, r.Size, "cut at " + end.String()})
			}
		}
	}
	return out
}

func (b *biller) addCutSpares() {
	for _, cut := range b.cutEnds() {
		for _, s := range []struct {
			kind string
			n    float64
		}{{"coupling", 2}, {"slip-coupling", 1}} {
			row, ok := b.lay.Stage.Catalog().Fitting(s.kind, cut.spec, cut.size)
			if !ok {
				row = catalog.Row{Kind: s.kind}
			}
			b.addSpare(s.kind, &row, cut.spec, cut.size, s.n, cut.where)
		}
	}
}

// addSpare adds spares to the line that has such parts already, or a line of spares alone.
func (b *biller) addSpare(kind string, row *catalog.Row, spec catalog.Spec, size catalog.Size, n float64, where string) {
	if row.Spec != "" {
		spec = row.Spec
	}
	for i := range b.lines {
		l := &b.lines[i]
		if l.New && l.Kind == kind && l.size == size && l.Spec == spec && l.Unit == "pc" {
			l.Spare += n
			if l.Quantity == 0 {
				l.Where = append(l.Where, Place{At: where})
			}
			return
		}
	}
	ends := endsOf(row, spec, size)
	b.lines = append(b.lines, line{
		Item: Item{Name: fittingName(kind, row.Style, ends, size.String(), spec), Kind: kind, Spec: spec, Size: size.String(), Ends: ends, Unit: "pc",
			Spare: n, Source: join(b.sourceOf(row, nil), spareSource), Own: row.Own, New: true, Measure: row.Measure, Where: places(where)},
		size: size, row: row.Name,
	})
}

// addRings adds a sealing ring for every union nut of the new work, by size.
func (b *biller) addRings() {
	nuts := map[catalog.Size]int{}
	for _, j := range b.lay.Joints {
		if j.Kind == "union" {
			nuts[j.Size]++
		}
	}
	for _, size := range bySize(nuts) {
		b.add(line{Item: Item{Name: join("O-ring for a union", size.String()), Kind: "o-ring", Size: size.String(), Unit: "pc", Spare: float64(nuts[size]),
			Source: spareSource, New: true, Where: places(quantity.Counted(nuts[size], "union joint"))}, size: size})
	}
}
