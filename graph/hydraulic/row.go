package hydraulic

import (
	"math"

	"dryfit/catalog"
	"dryfit/graph"
)

// row returns the catalogue row of a part: the one it names, else its kind's for its pipe,
// else the kind's generic one.
func (b *builder) row(p *graph.Part) catalog.Row {
	if p.Type != "" {
		if row, ok := b.cat.Row(p.Type); ok {
			return row
		}
	}
	kind := string(p.Kind)
	switch {
	case p.Kind == graph.HeatPump: // its rows are told apart by their power, not by their size
		row, _ := b.cat.Generic(kind)
		return row
	case p.Kind == graph.CheckValve && isSwing(p):
		kind = "swing-check"
	case p.Kind == graph.CheckValve:
		kind = "spring-check"
	case p.Kind == graph.Filter && p.Filter != nil && p.Filter.Media == "sand":
		kind = "sand-filter"
	}
	spec, size := p.Spec, p.Size
	for _, port := range portsOf(p) {
		if r := b.runAt(p, port); r != nil {
			if spec == "" {
				spec = r.Run.Spec
			}
			if size.IsZero() {
				size = r.Run.Size
			}
		}
	}
	if row, ok := b.cat.Fitting(kind, spec, size); ok && !size.IsZero() {
		return row
	}
	if row, ok := b.cat.Generic(kind); ok {
		return row
	}
	if row, ok := b.nearestRow(kind, b.nominal(p, size)); ok {
		return row
	}
	row, _ := b.cat.Generic(string(p.Kind))
	return row
}

// nominal returns what a part's size is in mm: that of the size, or of the pipe in its ports
// where nothing but a bore is known.
func (b *builder) nominal(p *graph.Part, size catalog.Size) float64 {
	if !size.IsZero() {
		return size.NominalMM()
	}
	for _, port := range portsOf(p) {
		if bore := b.boreAt(p, port); bore > 0 {
			return bore * 1000
		}
	}
	return 0
}

// nearestRow returns the row of the kind or style whose size is nearest to nominal (mm), the
// first of several: what its handbook L/D and opening curve are taken from where the
// catalogue has no row of the part's own size. False where no row of the kind has a size.
func (b *builder) nearestRow(kind string, nominal float64) (row catalog.Row, found bool) {
	if nominal <= 0 {
		return row, false
	}
	off := math.Inf(1)
	for _, r := range b.cat.Rows() {
		if r.Kind != kind && r.Style != kind || r.Size.IsZero() || !r.Size2.IsZero() {
			continue
		}
		if d := math.Abs(r.Size.NominalMM() - nominal); d < off {
			row, off, found = r, d, true
		}
	}
	return row, found
}

func isSwing(p *graph.Part) bool { return p.Check != nil && p.Check.Style == "swing" }

// ratedFlow returns the rated flow of a unit in m³/s; 0 where none is given.
func ratedFlow(p *graph.Part) float64 {
	if p.Unit == nil {
		return 0
	}
	return p.Unit.Rated
}
