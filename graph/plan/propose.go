package plan

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/search"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/retrofit/removal"
)

// propose builds the work that [retrofit] asks for into the plan's circuit: at the place it
// names, or at the best of all. Without [retrofit] the circuit is drawn in full and stays
// as it is.
func propose(p *Plan, want Want) {
	c := p.Asked
	if c.Retrofit == nil {
		return
	}
	before := &stage.Stage{Circuit: c.At(graph.Before)}
	before.Lay()
	p.searched = before
	if c.Retrofit.Remove {
		proposal, ds := removal.Of(c, before.Layout)
		p.take(proposal, ds)
		return
	}
	found := search.For(c, before, want&Places != 0, want&Swift != 0, p.tell)
	p.Places, p.fitted, p.mends, p.next, p.nextHint, p.spare, p.straight, p.against = found.Places, found.Stage, found.Mends, found.Next, found.NextHint, found.Spare, found.Straight, found.Against
	p.measure = found.Measure
	p.take(found.Proposal, found.Findings)
}

// mended gives the errors that rule out a place the description insists on the advice that was
// tried: what one of them says by itself may lead in a circle, and names runs nobody wrote.
func (p *Plan) mended(ds []graph.Diagnostic, want Want) {
	if p.Proposal == nil || want&Swift != 0 { // nothing was tried
		return
	}
	bars := func(d *graph.Diagnostic) bool {
		return d.Severity == graph.Error && slices.ContainsFunc(p.against, func(o graph.Diagnostic) bool { return o.Rule == d.Rule })
	}
	at := slices.IndexFunc(ds, func(d graph.Diagnostic) bool { // what to do next is said where it is to be done
		return bars(&d) && !d.Tried && d.Hint != "" && d.Hint == p.nextHint
	})
	if at < 0 {
		at = slices.IndexFunc(ds, func(d graph.Diagnostic) bool { return bars(&d) && !d.Tried })
	}
	said := false
	nothing := map[string]bool{} // rules that said so: of several modes it is said once
	for i := range ds {
		d := &ds[i]
		switch {
		case p.straight != "" && search.WantsStraight(*d, p.Proposal.Element):
			d.Hint = p.straight
		case d.Severity == graph.Note:
		case p.spare[d.Rule] != "":
			d.Hint = p.spare[d.Rule]
		case d.Rule == "jets-keep-flow" && len(p.against) > 0:
			d.Hint = "see first to what rules the place out: what the jets lose changes with it"
		case d.Rule == "unit-drains" && len(p.against) > 0:
			d.Hint = "see first to what rules the place out: the unit's pipes get their drain with their way"
		}
		if !bars(d) || d.Tried {
			continue
		}
		switch {
		case len(p.mends) > 0 && !said:
			d.Hint, said = "the place would do so: "+quantity.Join(p.mends, "; or so: "), true
		case len(p.mends) > 0:
			d.Hint = ""
		case p.next != "" && i == at:
			d.Hint = p.next + "; or leave cut out to have every place ranked"
		case p.next != "":
			d.Hint = ""
		case nothing[d.Rule]:
			d.Hint = ""
		case slices.ContainsFunc(p.Proposal.NewIDs, func(id string) bool { return strings.Contains(string(d.Hint), id) }):
			d.Hint = "nothing that was tried makes this place possible: leave cut out to have every place ranked"
			nothing[d.Rule] = true
		}
	}
}

// toldByRule makes one finding of two: where [retrofit] had no room for what a rule then misses,
// the rule's finding says so. Of two points with the one missing, nothing says which had no room:
// then each stays as it was said.
func toldByRule(ds []graph.Diagnostic) []graph.Diagnostic {
	for _, name := range []string{"drain-at-low-points", "bleed-at-high-points"} {
		missed, roomless := -1, -1
		count := map[graph.Severity]int{}
		for i, d := range ds {
			if d.Rule != name {
				continue
			}
			count[d.Severity]++
			switch d.Severity {
			case graph.Warning:
				missed = i
			case graph.Note:
				roomless = i
			}
		}
		if count[graph.Warning] == 1 && count[graph.Note] == 1 {
			ds[missed].Hint = ds[roomless].Hint
			ds = slices.Delete(ds, roomless, roomless+1)
		}
	}
	return ds
}

// ofNoPair reports what only follows from there being no pipes to where the unit stands: what is
// drawn in their place is told at the same key, and closes no loop. Where the line has no room
// for the work itself, that none lead there from tees that lie beside it follows too.
func (p *Plan) ofNoPair() func(d graph.Diagnostic) bool {
	asked := p.Asked.Retrofit
	if asked == nil || asked.Stand == nil {
		return func(graph.Diagnostic) bool { return false }
	}
	at := asked.Stand.Pos
	none := slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool {
		return d.Severity == graph.Error && d.Rule == "retrofit" && d.Pos == at
	})
	return func(d graph.Diagnostic) bool {
		return none && d.Severity == graph.Error && d.Pos == at && (d.Rule == "routing" || d.Rule == "retrofit" && p.tooShort())
	}
}

// take builds a proposal in.
func (p *Plan) take(proposal *retrofit.Proposal, ds []graph.Diagnostic) {
	p.Findings = append(p.Findings, ds...)
	if proposal != nil {
		p.Proposal, p.Circuit = proposal, proposal.Circuit
	}
}
