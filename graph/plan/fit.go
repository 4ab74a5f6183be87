package plan

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/route/laying"
)

// fitted is the circuit with the case that is taken by what was read on the tub as it stands, found before
// anything is solved: everything that is asked of the circuit is asked of that.
func fitted(c *graph.Circuit) *graph.Circuit {
	if c.Fit != nil || len(c.Readings) == 0 {
		return c
	}
	out := *c
	if today := c.At(graph.Before); onlyTub(today) || len(openPorts(today)) > 0 {
		out.Fit = spread.Fit(nil, nil, c.Readings)
	} else {
		out.Fit = spread.Fit(laying.Of(today), c.AllModes(), c.Readings)
	}
	return &out
}

// readings tells of what was read and the description does not come to.
func (p *Plan) readings() []graph.Diagnostic {
	var out []graph.Diagnostic
	fit, told := p.Asked.Fit, false
	for i := 0; fit != nil && i < len(fit.Read); i++ {
		q := &fit.Read[i]
		say := q.Amount
		d := graph.Diagnostic{Rule: "readings", Severity: graph.Warning, Pos: q.Pos, Mode: q.Mode}
		switch {
		case q.Unanswered:
			d.Message = graph.Say("mode %q: nothing is held against what was read at %q: the circuit as it stands today has no answer there", q.Mode, q.At)
			d.Hint = "describe the circuit before the work so that it closes, with existing = true"
		case fit.Unfit && len(q.Against) > 0:
			var others []quantity.Text
			for _, k := range q.Against {
				o := &fit.Read[k]
				others = append(others, graph.Say("%s at %q (mode %q)", o.Amount(o.Value()), o.At, o.Mode))
				d.Related = append(d.Related, graph.Related{Pos: o.Pos, Message: graph.Say("%s was read at %q here", o.Amount(o.Value()), o.At)})
			}
			d.Message = graph.Say("mode %q: %s was read at %q, where as described it is %s: by itself it may be so, but not with %s: nothing that was read is counted, the case stays as described", q.Mode, say(q.Value()), q.At, say(q.AsDescribed), quantity.Join(others, ", nor with "))
			d.Hint = "read them again, or take out the one that is wrong"
		case fit.Unfit && q.Alone:
			d.Message, d.Hint, d.Related = alone(fit, q)
		case fit.Unfit:
			d.Message = graph.Say("mode %q: %s was read at %q, where as described it is %s, and no guess the file leaves open comes near: it is not counted, the case stays as described", q.Mode, say(q.Value()), q.At, say(q.AsDescribed))
			d.Hint = "read it again, and its unit; then look at the pump, the lengths and the valves on its way: something is described that isn't so"
		case q.Beyond() && !fit.Changes():
			d.Message = graph.Say("mode %q: %s was read at %q, where as described it is %s: what moves the flows is likeliest no nearer to that, and the case stays as described", q.Mode, say(q.Value()), q.At, say(q.AsDescribed))
			d.Hint = "read it again by something more exact, then look whether all on its way is as described"
			if q.Pressed() {
				d.Hint = "read it again by something more exact, and say how far below the water that was: below-water of the part"
			}
		case q.Beyond():
			d.Message = graph.Say("mode %q: %s was read at %q, where as described it is %s: everything is worked out for what is likeliest by both, %s there", q.Mode, say(q.Value()), q.At, say(q.AsDescribed), say(q.Taken))
			if d.Hint = "dryfit show lists all that is taken otherwise"; !told { // it is one of them all
				d.Hint, told = blamed(fit), true
			}
		default:
			continue
		}
		out = append(out, d)
	}
	return out
}

// AsSaid is what flows are of that one number is told of: "as described", or "by what was read" where that
// contradicts it.
func (p *Plan) AsSaid() string {
	if p.Asked.Fit.Changes() {
		return "by what was read"
	}
	return "as described"
}

// blamed says what makes most of the difference between what is described and what is taken, and what would settle
// it.
func blamed(f *graph.Fit) quantity.Text {
	most := &f.Values[0]
	for i := range f.Values {
		if v := &f.Values[i]; v.Share > most.Share+1e-6 {
			most = v
		}
	}
	said := (&spread.Influence{What: most.What, Part: most.Part}).Said()
	return graph.Say("the greatest part of the difference likeliest lies in %s; dryfit show lists all that is taken otherwise; to settle it, read ", said) + most.Settles
}

// alone words a reading that by itself may be so, of some that nothing fits together: where others of them
// come near nothing even by themselves, it is those that are wrong.
func alone(fit *graph.Fit, q *graph.Met) (message, hint quantity.Text, related []graph.Related) {
	var wrong []quantity.Text
	for i := range fit.Read {
		if o := &fit.Read[i]; !o.Alone && !o.Unanswered && len(o.Against) == 0 {
			wrong = append(wrong, graph.Say("%s at %q (mode %q)", o.Amount(o.Value()), o.At, o.Mode))
			related = append(related, graph.Related{Pos: o.Pos, Message: graph.Say("%s was read at %q here", o.Amount(o.Value()), o.At)})
		}
	}
	message = graph.Say("mode %q: %s was read at %q, where as described it is %s: by itself it may be so, but ", q.Mode, q.Amount(q.Value()), q.At, q.Amount(q.AsDescribed))
	if len(wrong) == 0 {
		return message + "nothing the file leaves open fits it and all else that was read: none of it is counted, the case stays as described",
			"find which of the readings is wrong, read it again or take it out", nil
	}
	them := quantity.Join(wrong, " and ")
	return message + graph.Say("no guess comes near %s, and beside that it is not counted: the case stays as described", them),
		graph.Say("read %s again, or take it out: this one is judged by itself then", them), related
}
