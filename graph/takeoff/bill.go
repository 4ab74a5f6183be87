package takeoff

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// NewBill returns everything the work needs and everything that is there: every part, every
// fitting the legs ask for, pipe in whole bars and in metres, and what is used up in joining
// and carrying it. after is the layout of the circuit once the work is done, before that of
// what is there now; before may be nil. Nothing new is listed as existing or the other way
// round.
func NewBill(c *graph.Circuit, after, before *route.Layout) *Bill {
	b := newBiller(c, after)
	b.addParts(before)
	b.addFittings()
	b.addPipe()
	b.addTaken(before)
	b.addTails()
	b.addJoining()
	b.addCarrying()
	b.addSpares()
	b.price()
	bill := &Bill{Method: method}
	for _, l := range b.lines {
		slices.SortFunc(l.Where, Place.compare)
		l.Where = slices.Compact(l.Where)
		l.sizeMM = l.size.NominalMM()
		bill.Items = append(bill.Items, l.Item)
	}
	slices.SortStableFunc(bill.Items, compareItems)
	bill.Totals, bill.TotalEquivalentLengthM = b.totals()
	return bill
}

// line is one line of the bill being added up.
type line struct {
	Item
	size catalog.Size // for sorting and spares
	ids  []string     // parts it stands for
	row  string       // name of its row
}

// biller adds a bill up.
type biller struct {
	c     *graph.Circuit
	lay   *route.Layout
	bores bores
	lines []line
	cuts  *CutList
}

func newBiller(c *graph.Circuit, lay *route.Layout) *biller {
	return &biller{c: c, lay: lay, bores: bores{lay: lay}, cuts: NewCutList(c, lay)}
}

// say words a name in the units the job is listed in: a name is what lines are told apart by,
// so it has its units from the start.
func (b *biller) say(t quantity.Text) string { return t.In(b.units()) }

func (b *biller) units() quantity.System { return quantity.SystemOf(b.c.Job.Units) }

// add puts an item into the line for its like, or into a new one.
func (b *biller) add(l line) {
	for i := range b.lines {
		o := &b.lines[i]
		if o.Name == l.Name && o.Kind == l.Kind && o.Spec == l.Spec && o.size == l.size && o.Size == l.Size && o.New == l.New && o.Removed == l.Removed &&
			o.Unit == l.Unit && o.row == l.row && o.sameLoss(&l) && o.Price == l.Price && o.Code == l.Code {
			o.Quantity += l.Quantity
			o.Spare += l.Spare
			o.Where = append(o.Where, l.Where...)
			o.ids = append(o.ids, l.ids...)
			o.Set = append(o.Set, l.Set...)
			o.K, o.EquivalentLengthM = max(o.K, l.K), max(o.EquivalentLengthM, l.EquivalentLengthM)
			o.BranchK, o.BranchLengthM = max(o.BranchK, l.BranchK), max(o.BranchLengthM, l.BranchLengthM)
			return
		}
	}
	b.lines = append(b.lines, l)
}

// sameLoss reports whether two lines cost the water the same, or so nearly that nobody buys
// another part for it. A change of bore costs by the way of the water: the greater of the two is
// printed.
func (l *line) sameLoss(o *line) bool {
	switch l.Kind {
	case "reducing-bush", "reducer", "transition":
		return true
	}
	return alike(l.K, o.K) && alike(l.BranchK, o.BranchK)
}

// alike reports whether two losses differ by less than a twentieth: fittings of two makes
// differ by four times that.
func alike(a, b float64) bool { return math.Abs(a-b) <= 0.05*max(math.Abs(a), math.Abs(b)) }

func compareItems(a, b Item) int {
	return cmp.Or(
		quantity.CompareBool(b.New, a.New),
		quantity.CompareBool(a.Removed, b.Removed),
		cmp.Compare(a.Kind, b.Kind),
		cmp.Compare(a.sizeMM, b.sizeMM),
		cmp.Compare(a.Name, b.Name),
		cmp.Compare(a.Spec, b.Spec),
		cmp.Compare(a.Unit, b.Unit),
		slices.CompareFunc(a.Where, b.Where, Place.compare),
	)
}

// addParts lists the parts: of the after stage, and what was taken out of the stage before.
func (b *biller) addParts(before *route.Layout) {
	for _, p := range b.lay.Circuit.Parts {
		b.addPart(p, b.lay, false)
	}
	if before == nil {
		return
	}
	for _, p := range b.c.Parts {
		if p.Removed && before.Stage.Part(p.ID) != nil {
			b.addPart(p, before, true)
		}
	}
}

func (b *biller) addPart(p *graph.Part, lay *route.Layout, removed bool) {
	if p.Kind == graph.Tub {
		return
	}
	settled := *lay.Stage.Part(p.ID)
	fit := &settled
	if settle.TwoSizes(p.Kind) && fit.Row.V.Spec != "" {
		fit.Spec.V, fit.Size.V = fit.Row.V.Spec, fit.Row.V.Size // whichever way round it was written
	}
	at := bores{lay: lay}
	through, corner := at.lossOf(p, fit)
	size := fit.Size.V.String()
	switch {
	case fit.Reducing():
		size = sizes(fit.Size.V, fit.Branch.V)
	case !fit.Row.V.Size2.IsZero() && p.Kind != graph.Tee:
		size = sizes(fit.Row.V.Size, fit.Row.V.Size2)
	}
	ends := endsOf(&fit.Row.V, fit.Spec.V, fit.Size.V)
	l := line{
		Item: Item{
			Kind: string(p.Kind), Spec: fit.Spec.V, Size: size, Ends: ends, Quantity: 1, Unit: "pc",
			EquivalentLengthM: through.lengthM, K: through.k, BranchLengthM: corner.lengthM, BranchK: corner.k,
			Source: b.partSource(p, &fit.Row.V), Own: fit.Row.V.Own, New: p.New(), Removed: removed,
			Measure: p.New() && fit.Row.V.Measure && !p.OwnLength(), Where: places(p.ID),
		},
		size: fit.Size.V, ids: []string{p.ID}, row: fit.Row.V.Name,
	}
	if h, ok := at.setting(p, fit); ok && !removed {
		s := Setting{Part: p.ID, Kv: p.Valve.Kv, K: h.k, EquivalentLengthM: h.lengthM}
		if s.Kv == 0 {
			s.Open = p.Valve.Position
		}
		l.Set = []Setting{s}
	}
	l.Name = b.partName(fit, size, ends)
	if removed {
		l.Name += ", taken out"
	}
	b.add(l)
}

// addFittings lists what the legs ask for and nobody wrote.
func (b *biller) addFittings() {
	for i := range b.lay.Paths {
		path := &b.lay.Paths[i]
		for k := range path.Fittings {
			f := &path.Fittings[k]
			h := b.bores.ofFitting(path, f)
			first, second := path.Run.Size, catalog.Size{}
			spec := cmp.Or(f.Row.Spec, path.Run.Spec)
			switch {
			case f.From.IsZero() || f.To.IsZero():
			case f.From != f.To:
				first, second = f.From, f.To
				if second.NominalMM() > first.NominalMM() {
					first, second = second, first
				}
			case f.From != first: // made for the port it stands on: a bush or a transition stands between it and the pipe
				first = f.From
				if first.Metric != path.Run.Size.Metric {
					spec = cmp.Or(f.Row.Spec, settle.RigidSpec("", first))
				}
			}
			size, ends := sizes(first, second), endsOf(&f.Row, spec, first)
			b.add(line{
				Item: Item{
					Name: fittingName(f.Kind, f.Row.Style, ends, size, spec), Kind: f.Kind, Spec: spec, Size: size, Ends: ends,
					Quantity: float64(max(f.Count, 1)), Unit: "pc", EquivalentLengthM: h.lengthM, K: h.k,
					Source: b.sourceOf(&f.Row, nil), Own: f.Row.Own, New: f.New, Measure: f.New && f.Row.Measure, Where: []Place{{f.Where, f.Nth}},
				},
				size: first, row: f.Row.Name,
			})
		}
	}
}

// partSource names who says what a part is and costs: the description alone, for equipment
// it says all of.
func (b *biller) partSource(p *graph.Part, row *catalog.Row) string {
	described := p.Loss != nil
	switch {
	case p.Pump != nil:
		described = p.Pump.Described()
	case p.Jets != nil:
		described = described || p.Jets.Rated != nil || p.Jets.BoreMM > 0
	}
	if described && isEquipment(p.Kind) {
		return "the description"
	}
	return b.sourceOf(row, p.Loss)
}

// sourceOf names who says what a part is and costs.
func (b *biller) sourceOf(row *catalog.Row, loss *graph.Loss) string {
	var out []string
	if loss != nil {
		out = append(out, "loss: the description")
	}
	switch {
	case row.Name == "":
		out = append(out, "the catalogue has no row for it")
	case row.Own && row.Source == "":
		out = append(out, "your row "+row.Name)
	case row.Own:
		out = append(out, "your row "+row.Name+": "+b.say(row.Source))
	default:
		out = append(out, b.say(row.Source))
	}
	return strings.Join(out, "; ")
}
