package laying

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// oldNotes gathers what is odd about pipe that was there before: each kind of thing is
// said once, however often it occurs, or every old tub would drown the fitter.
type oldNotes struct {
	order []string
	first map[string]graph.Diagnostic
	count map[string]int
}

// add notes one case. The kind decides what is counted together.
func (o *oldNotes) add(kind string, pos graph.Pos, message, hint quantity.Text) {
	if o.first == nil {
		o.first, o.count = map[string]graph.Diagnostic{}, map[string]int{}
	}
	if o.count[kind] == 0 {
		o.order = append(o.order, kind)
		o.first[kind] = graph.Diagnostic{Pos: pos, Rule: "routing", Severity: graph.Note, Message: message, Hint: hint}
	}
	o.count[kind]++
}

// drop leaves out a note that points at something that is told in another finding.
func (o *oldNotes) drop(at graph.Pos) {
	o.order = slices.DeleteFunc(o.order, func(kind string) bool { return o.count[kind] == 1 && o.first[kind].Pos == at })
}

// report adds one note for each kind to the layout's findings.
func (o *oldNotes) report(l *work) {
	for _, kind := range o.order {
		d := o.first[kind]
		if n := o.count[kind]; n > 1 {
			d.Message += graph.Say(" (and %d more like it in the existing pipe)", n-1)
		}
		l.lay.Findings = append(l.lay.Findings, d)
	}
}
