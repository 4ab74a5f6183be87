package plan

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Built is the circuit as it stands once the work is done, with what each throttle was to be set by in
// its note: of the valve itself only a Kv was worked out, and no handle shows one. It is no reading, for
// nobody has read it. Where no flows were solved there is none. What was read before the work holds of that
// alone, and stands in the note of the part it was read at.
func (p *Plan) Built() *graph.Circuit {
	out := p.Circuit.Built()
	p.noteReadings(out)
	if p.After == nil || p.After.Layout == nil {
		return out
	}
	for _, a := range p.toBeSet() {
		note := graph.Say("planned: %s through %s in mode %s; give what was read as a [[reading]]", quantity.Flow.Of(a.Flow), a.Unit, a.Mode)
		p.note(out.Part(a.Valve), note)
	}
	return out
}

// note adds to the note of a part; nil: none.
func (p *Plan) note(to *graph.Part, text quantity.Text) {
	if to != nil {
		to.Note = strings.TrimPrefix(to.Note+"; "+text.In(quantity.SystemOf(p.Circuit.Job.Units)), "; ")
	}
}

// noteReadings writes what was read before the work into the notes of the parts it was read at, of a run into
// that of the part at one of its ends; of what is gone nothing stands.
func (p *Plan) noteReadings(out *graph.Circuit) {
	fit := p.Asked.Fit
	for i := 0; fit != nil && i < len(fit.Read); i++ {
		q := &fit.Read[i]
		of := []string{q.Part}
		if run := p.Asked.Run(q.Run); run != nil {
			of = []string{run.From.Part, run.To.Part}
		}
		off := q.Amount(q.Off)
		if !q.Pressed() {
			off = quantity.Share.Of(q.Off)
		}
		text := graph.Say("read before the work at %q, mode %q: %s, good for %s", q.At, q.Mode, q.Amount(q.Value()), off)
		if fit.Changes() && !q.Unanswered {
			text += graph.Say("; planned by %s there, as described %s", q.Amount(q.Taken), q.Amount(q.AsDescribed))
		}
		for _, id := range of {
			if to := out.Part(id); to != nil && to.Kind != graph.Tub {
				p.note(to, text)
				break
			}
		}
	}
}
