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
	if p.Fault() != nil || p.After == nil {
		return nil
	}
	var places []retrofit.Place
	switch {
	case p.Proposal == nil: // the work is drawn, as a plan that was written out is
		places = retrofit.Drawn(p.After.Layout)
	case p.Proposal.Second != nil:
		places = []retrofit.Place{p.Proposal.Place, *p.Proposal.Second}
	default:
		places = []retrofit.Place{p.Proposal.Place}
	}
	var out []quantity.Text
	for _, place := range places {
		if text := place.OnlyIf(); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// cutPos is where the file speaks of the cut: the key, else [retrofit].
func (p *Plan) cutPos() graph.Pos {
	switch {
	case p.Proposal == nil: // what is left of the first run that was cut
		for _, r := range p.Circuit.Runs {
			if r.RemainsOf != "" {
				return r.Pos
			}
		}
	case p.Proposal.Pos.IsValid():
		return p.Proposal.Pos
	}
	if p.Asked.Retrofit == nil {
		return graph.Pos{File: p.Circuit.File}
	}
	return p.Asked.Retrofit.Pos
}
