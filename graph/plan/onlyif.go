package plan

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// onlyIf warns of a place that does only if a part is as short as it is taken: of what the work
// is built at, every verb says it, not only the list of the places.
func (p *Plan) onlyIf() {
	for _, text := range p.OnlyIf() {
		p.Findings = append(p.Findings, graph.Diagnostic{Pos: p.cutPos(), Rule: "cut", Severity: graph.Warning,
			Message: "the place will do " + text, Hint: "measure it before anything is cut, and give its length"})
	}
}

// OnlyIf says of each place of the cut that has less to spare than its lengths are uncertain what
// it hangs on: "only if …"; none where the places are sure or the plan is ruled out.
func (p *Plan) OnlyIf() []quantity.Text {
	if p.Proposal == nil || p.RuledOut() != nil {
		return nil
	}
	var out []quantity.Text
	for _, place := range []*retrofit.Place{&p.Proposal.Place, p.Proposal.Second} {
		if place == nil {
			continue
		}
		if text := place.OnlyIf(); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// cutPos is where the file speaks of the cut: the key, else [retrofit].
func (p *Plan) cutPos() graph.Pos {
	if p.Proposal.Pos.IsValid() {
		return p.Proposal.Pos
	}
	return p.Asked.Retrofit.Pos
}
