package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// mostFarther is in how many modes a unit's flow with more pipe is told one by one; in more of them, from the least to
// the most. Judgement, no source.
const mostFarther = 4

// FartherLines say where a unit is taken to stand that nothing says the place of, and what more pipe would leave of its
// flow, in a line; none where its place is known. who is what the unit is called; "": by its id.
func FartherLines(p *plan.Plan, s form.Style, who string) []string {
	far := p.Farther()
	if far == nil {
		return nil
	}
	if who == "" {
		who = fmt.Sprintf("%q", far.Unit)
	}
	return []string{s.Say(graph.Say("nothing says where %s stands: all this is of one beside the line, with %s of pipe to it and %s back; with %s more of straight pipe each way, and the bypass left as it is, it gets ",
		who, some(far.ToUnitM), some(far.FromUnitM), some(plan.FartherM))) + fartherFlows(far, s)}
}

// some is a length of pipe in m that nobody measured, to the centimetre.
func some(m float64) quantity.Amount { return quantity.Length.About(10 * math.Round(100*m)) }

// fartherFlows are the flows with more pipe: one where all print alike.
func fartherFlows(far *plan.Farther, s form.Style) string {
	var flows, byMode []string
	least, most := math.Inf(1), 0.0
	for _, m := range far.Modes {
		least, most = min(least, m.Flow), max(most, m.Flow)
		flows = append(flows, s.Flow(m.Flow))
		byMode = append(byMode, s.Flow(m.Flow)+" ("+m.Mode+")")
	}
	switch {
	case len(slices.Compact(flows)) == 1:
		return s.Flow(most)
	case len(byMode) > mostFarther:
		return s.Flow(least) + " to " + s.Flow(most) + ", by the mode"
	}
	return strings.Join(byMode, ", ")
}
