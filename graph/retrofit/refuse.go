package retrofit

import "dryfit/graph/retrofit/lead"

// Led reports whether the pipes to the unit were found and others may be looked for.
func (p *Proposal) Led() bool { return p.led != nil && p.led.pair != nil && !p.led.settled }

// Refuse has another pair found the next time the place is built: the pipe to the unit, that
// from it, or this pair of both can't be had.
func (p *Proposal) Refuse(to, from bool) {
	var r lead.Refused
	if to {
		r.To = p.led.pair.To
	}
	if from {
		r.From = p.led.pair.From
	}
	*p.led = ledPipes{refused: append(p.led.refused, r)}
}

// Keep settles on what was found for a proposal: the place is built with it from now on.
// found is what Found returned of it.
func (p *Proposal) Keep(found Found) {
	if p.led != nil {
		*p.led = found.pipes
		p.led.settled = true
	}
}

// Found is a way of the pipes that was found, to be gone back to.
type Found struct{ pipes ledPipes }

// Found returns the way of the proposal's pipes.
func (p *Proposal) Found() Found {
	if p.led == nil {
		return Found{}
	}
	return Found{*p.led}
}
