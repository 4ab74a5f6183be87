package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/graph/takeoff/stock"
)

// NewCutList returns the pieces of the layout's new work and how each spec and size of them
// comes out of the stock at the least cost: the stock of the description; where it has none
// on sale, the lengths the catalogue names, without prices. Hose and flexible pipe come out
// of coils alike.
func NewCutList(c *graph.Circuit, lay *route.Layout) *CutList {
	list := &CutList{Pieces: lay.Pieces}
	list.KerfMM, list.KerfSource = kerfOf(c)
	for _, g := range pipeGroups(lay.Pieces, c.Job.Units) {
		supply, source := supplyOf(c, lay.Stage, g.spec, g.size)
		kerf := list.KerfMM
		if !g.spec.Sawn() {
			kerf = 0
		}
		plan := planOf(stock.Plan(g.demands, supply, kerf))
		plan.Spec, plan.Size, plan.KerfMM, plan.StockSource = g.spec, g.size, kerf, source
		if i := slices.IndexFunc(c.Stock, func(s graph.Stock) bool { return s.Spec == g.spec && s.Size == g.size }); i >= 0 {
			plan.Pos = c.Stock[i].Pos
		}
		spares := newSpareBars(&plan, supply)
		plan.Tight = tightBars(&plan, lay.Pieces, spares)
		spares.allow(&plan, lay.Pieces)
		plan.Spares = spares.bars
		list.Plans = append(list.Plans, plan)
	}
	return list
}

// kerfOf returns what a saw cut takes and who says so.
func kerfOf(c *graph.Circuit) (float64, string) {
	if c.Job.KerfSet {
		return c.Job.KerfMM, "the description"
	}
	k, _ := tables.Kerf("")
	return k.MM, fmt.Sprintf("%s, %s", k.Tool, k.Source)
}

// pipeGroup is the pieces of one spec and size.
type pipeGroup struct {
	spec    catalog.Spec
	size    catalog.Size
	demands []stock.Demand
}

// pipeGroups sorts pieces by spec and size, each as long as the tape has it in the units of the job.
func pipeGroups(pieces []route.Piece, units string) []pipeGroup {
	var out []pipeGroup
	for _, p := range pieces {
		i := slices.IndexFunc(out, func(g pipeGroup) bool { return g.spec == p.Spec && g.size == p.Size })
		if i < 0 {
			i = len(out)
			out = append(out, pipeGroup{spec: p.Spec, size: p.Size})
		}
		out[i].demands = append(out[i].demands, stock.Demand{Number: p.Number, LengthMM: quantity.Tape(p.SawMM(), quantity.SystemOf(units))})
	}
	slices.SortStableFunc(out, func(a, b pipeGroup) int {
		return cmp.Or(cmp.Compare(a.spec, b.spec), cmp.Compare(b.size.NominalMM(), a.size.NominalMM()))
	})
	return out
}

// supplyOf returns the stock of a spec and size, and where it is from.
func supplyOf(c *graph.Circuit, set *settle.Stage, spec catalog.Spec, size catalog.Size) ([]stock.Supply, string) {
	var out []stock.Supply
	onSale := false
	for _, s := range c.Stock {
		if s.Spec != spec || s.Size != size {
			continue
		}
		one := stock.Supply{LengthMM: s.LengthMM, Count: s.Count, Offcut: s.Offcut}
		if d, err := decimal.NewFromString(s.Price); err == nil && s.Price != "" {
			one.Price = decimal.NewNullDecimal(d)
		}
		out = append(out, one)
		onSale = onSale || !s.Offcut
	}
	if onSale {
		return out, "the stock described"
	}
	row := set.PipeRow(spec, size)
	if len(row.StockMM) == 0 {
		return out, "the catalogue names no length on sale"
	}
	for _, mm := range row.StockMM {
		out = append(out, stock.Supply{LengthMM: mm})
	}
	if len(out) > len(row.StockMM) {
		return out, "offcuts of the description; lengths on sale from the catalogue, without prices"
	}
	return out, "lengths on sale from the catalogue, without prices"
}

// planOf puts a result into the form that is printed.
func planOf(r stock.Result) StockPlan {
	p := StockPlan{
		Bars: r.Bars, CostLengthMM: r.CostLengthMM, ProvedOptimal: r.ProvedOptimal,
		Proof: r.Proof, Unplaced: r.Unplaced, Problems: r.Problems,
	}
	if r.Cost.Valid {
		p.Cost, p.LowerBound = stock.Money(r.Cost.Decimal), stock.Money(r.LowerBound.Decimal)
	} else {
		p.LowerBound = decimal.NewFromFloat(r.LowerLengthMM).String()
	}
	return p
}

// PlainCutList plans pieces that belong to no description. What could not be planned is an
// error finding without a place.
func PlainCutList(demands []stock.Demand, supply []stock.Supply, kerfMM float64) (*CutList, []graph.Diagnostic) {
	list := &CutList{KerfMM: kerfMM, KerfSource: "as given"}
	for _, d := range demands {
		list.Pieces = append(list.Pieces, route.Piece{Number: d.Number, CutMM: d.LengthMM, CentreToCentreMM: d.LengthMM})
	}
	plan := planOf(stock.Plan(demands, supply, kerfMM))
	plan.KerfMM = kerfMM
	list.Plans = []StockPlan{plan}
	findings := plan.findings(graph.Pos{})
	for i := range findings {
		findings[i].Severity = graph.Error // the plan is all that was asked for
	}
	return list, findings
}

// Findings returns what could not be planned, as findings of the whole list.
func (l *CutList) Findings(pos graph.Pos) []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, p := range l.Plans {
		out = append(out, p.findings(pos)...)
	}
	return out
}

func (p *StockPlan) findings(pos graph.Pos) []graph.Diagnostic {
	var out []graph.Diagnostic
	hint := quantity.Text("name longer or more stock")
	if p.Pos.IsValid() {
		pos, hint = p.Pos, "raise its count, or leave count out of what is bought as it is needed; or name a longer length of it"
	}
	for _, m := range p.Problems {
		if p.Spec != "" {
			m = graph.Say("%s %s: %s", p.Spec, p.Size, m)
		}
		out = append(out, graph.Diagnostic{Pos: pos, Rule: "stock", Severity: graph.Warning, Message: m,
			Hint: hint})
	}
	return out
}
