package settle

import (
	"cmp"
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// named returns the row a part names.
func (s *Stage) named(p *graph.Part) (catalog.Row, bool) {
	if p.Type == "" {
		return catalog.Row{}, false
	}
	return s.cat.Row(p.Type)
}

// rowKind returns the kind or style under which the catalogue has rows for a part: of a
// check that of its style, of a sand filter its own.
func (s *Stage) rowKind(p *graph.Part, style string) string {
	switch {
	case p.Kind == graph.CheckValve && style == Swing:
		return swingRow
	case p.Kind == graph.CheckValve:
		return springRow
	case p.Kind == graph.Filter && s.mediaOf(p) == Sand:
		return sandRow
	}
	return string(p.Kind)
}

// What a filter may hold.
const (
	Sand      = "sand"
	Cartridge = "cartridge"
)

// Their styles in the catalogue.
const (
	sandRow      = "sand-filter"
	cartridgeRow = "cartridge-filter"
)

// mediaOf says what is in a filter: as described, else as the row it names; "" where neither says it.
func (s *Stage) mediaOf(p *graph.Part) string {
	if p.Filter != nil && p.Filter.Media != "" {
		return p.Filter.Media
	}
	row, _ := s.named(p)
	return mediaOfStyle(row.Style)
}

func mediaOfStyle(style string) string {
	return map[string]string{sandRow: Sand, cartridgeRow: Cartridge}[style]
}

// Media says what is taken to be in a filter: as described, else as its row, else a cartridge.
func (p *Part) Media() string {
	said := ""
	if p.Filter != nil {
		said = p.Filter.Media
	}
	return cmp.Or(said, mediaOfStyle(p.Row.V.Style), Cartridge)
}

// settleRow finds the row of a part: the one it names, with the dimensions that one leaves
// out from the row of its size; else that of its kind for its pipe; else its kind's generic
// one. loss is the row its loss is of: the same, or where the catalogue has none of its size
// that of the nearest.
func (s *Stage) settleRow(out *Part) {
	p := out.Part
	named, isNamed := s.named(p)
	pos := p.KeyPos["type"]
	pick := func(r catalog.Row, generic bool) {
		if r.Name != "" || r.Kind != "" {
			out.Row = Pick[catalog.Row]{r, ofRow(&r, pos, generic)}
			out.LossRow, out.measures = out.Row, out.Row.Origin
		}
	}
	switch {
	case !Fitted(p.Kind) && isNamed:
		pick(named, false)
		if !TwoSizes(p.Kind) {
			usual, generic := s.equipmentRow(out)
			out.usual = Pick[catalog.Row]{usual, ofRow(&usual, graph.Pos{}, generic)}
		}
	case TwoSizes(p.Kind):
		pick(s.betweenTwo(p), false)
	case !Fitted(p.Kind):
		pick(s.equipmentRow(out))
	default:
		sized, generic := s.fittedRow(out, named, isNamed)
		if isNamed {
			pick(dimensionsOver(named, sized), false)
			if named.LengthMM == 0 && named.TakeOffMM == 0 && sized.Name != "" {
				out.measures = ofRow(&sized, graph.Pos{}, generic)
			}
		} else {
			pick(sized, generic)
		}
	}
	if out.Row.V.Kind != "" {
		return
	}
	// For its loss alone.
	if TwoSizes(p.Kind) {
		if row, ok := s.cat.Fitting(string(p.Kind), out.Spec.V, out.Size.V); ok && !out.Size.V.IsZero() {
			out.LossRow = Pick[catalog.Row]{row, assumed("that of one of its two sizes, " + quantity.Text(row.Name))}
		}
	} else if row, ok := s.nearestRow(s.rowKind(p, out.Style.V), s.nominal(out)); ok {
		out.LossRow = Pick[catalog.Row]{row, assumed("that of the nearest size the catalogue has, " + quantity.Text(row.Name))}
	}
}

// equipmentRow returns the row of a part that is no fitting.
func (s *Stage) equipmentRow(out *Part) (row catalog.Row, generic bool) {
	p := out.Part
	kind := s.rowKind(p, out.Style.V)
	if p.Kind != graph.HeatPump { // those are told apart by their power, not by their size
		spec, size := p.Spec, p.Size
		for _, port := range PortsOf(p) {
			if r := s.RunAt(p.ID, port); r != nil {
				if spec == "" {
					spec = r.Spec
				}
				if size.IsZero() {
					size = r.Size
				}
			}
		}
		if r, ok := s.cat.Fitting(kind, spec, size); ok && !size.IsZero() {
			return r, false
		}
	}
	if r, ok := s.cat.Generic(kind); ok {
		return s.rowOfLine(p, r), true
	}
	if _, ok := s.nearestRow(kind, s.nominal(out)); ok {
		return catalog.Row{}, false
	}
	r, _ := s.cat.Generic(string(p.Kind))
	return r, true
}

// fittedRow returns the row of a fitting or valve by what pipe it is made for.
func (s *Stage) fittedRow(out *Part, named catalog.Row, isNamed bool) (row catalog.Row, generic bool) {
	p, spec, size := out.Part, out.Spec.V, out.Size.V
	kind := s.rowKind(p, out.Style.V)
	switch {
	case isNamed && named.Style != "":
		kind = named.Style
	case p.Type != "" && !isNamed:
		kind = p.Type
	}
	if branch := p.BranchSize; p.Kind == graph.Tee && !branch.IsZero() && branch != size {
		if r, ok := s.cat.Reducing("reducing-tee", spec, size, branch); ok {
			return r, false
		}
	}
	if r, ok := s.cat.Fitting(kind, spec, size); ok && !size.IsZero() {
		return r, false
	}
	if kind != string(p.Kind) && p.Kind != graph.CheckValve {
		if r, ok := s.cat.Fitting(string(p.Kind), spec, size); ok && !size.IsZero() {
			return r, false
		}
	}
	if p.Kind == graph.Tee || p.Kind == graph.CheckValve && out.Style.V == Swing { // the generic check is a spring
		return catalog.Row{}, false
	}
	r, _ := s.cat.Generic(string(p.Kind))
	return r, true
}

// betweenTwo returns the row of a part written to join two sizes or families, from what its
// two runs are made of.
func (s *Stage) betweenTwo(p *graph.Part) catalog.Row {
	a, b := s.RunAt(p.ID, graph.In), s.RunAt(p.ID, graph.Out)
	if a == nil || b == nil {
		r, _ := s.cat.Generic(string(p.Kind))
		return r
	}
	if r, ok := s.cat.Transition(a.Spec, a.Size, b.Spec, b.Size); ok && p.Kind == graph.Transition {
		return r
	}
	for _, pair := range [][2]*Run{{a, b}, {b, a}} {
		if r, ok := s.cat.Reducing(string(p.Kind), RigidSpec(pair[0].Spec, pair[0].Size), pair[0].Size, pair[1].Size); ok {
			return r
		}
	}
	return catalog.Row{}
}

// dimensionsOver returns the row with the dimensions it leaves out taken from another.
func dimensionsOver(r, from catalog.Row) catalog.Row {
	if r.LengthMM == 0 && r.TakeOffMM == 0 {
		r.LengthMM, r.TakeOffMM, r.BranchTakeOffMM = from.LengthMM, from.TakeOffMM, from.BranchTakeOffMM
		r.TolMinusMM, r.TolPlusMM, r.Measure = from.TolMinusMM, from.TolPlusMM, from.Measure
	}
	if r.SocketMM == 0 {
		r.SocketMM = from.SocketMM
	}
	if r.OutsideMM == 0 {
		r.OutsideMM = from.OutsideMM
	}
	if r.Ends == "" {
		r.Ends = from.Ends
	}
	return r
}

// nominal returns what a part's size is in mm: that of the size, or of the pipe in its ports
// where nothing but a bore is known.
func (s *Stage) nominal(out *Part) float64 {
	if !out.Size.V.IsZero() {
		return out.Size.V.NominalMM()
	}
	for _, port := range PortsOf(out.Part) {
		if r := s.RunAt(out.ID, port); r != nil && r.Bore.Known {
			return r.Bore.V
		}
	}
	return 0
}

// nearestRow returns the row of the kind or style whose size is nearest to nominal (mm), the
// first of several: what its handbook L/D and opening curve are taken from where the
// catalogue has no row of the part's own size. False where no row of the kind has a size.
func (s *Stage) nearestRow(kind string, nominal float64) (row catalog.Row, found bool) {
	if nominal <= 0 {
		return row, false
	}
	off := math.Inf(1)
	for r := range s.cat.All() {
		if r.Kind != kind && r.Style != kind || r.Size.IsZero() || !r.Size2.IsZero() {
			continue
		}
		if d := math.Abs(r.Size.NominalMM() - nominal); d < off {
			row, off, found = *r, d, true
		}
	}
	return row, found
}

// PortsOf returns the names of a part's ports: the kind's, or those described.
func PortsOf(p *graph.Part) []string {
	if names := p.Kind.PortNames(); names != nil {
		return names
	}
	names := make([]string, len(p.Ports))
	for i, port := range p.Ports {
		names[i] = port.Name
	}
	return names
}
