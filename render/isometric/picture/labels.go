package picture

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"dryfit/render/isometric/members"
	"dryfit/render/label"
	"dryfit/render/scene"
)

// steps bounds how often labels that find no place are given more to choose from.
const steps = 8

// Label gives every label its place within a frame and clear of what is kept free, at first from
// the places it likes best; one that finds none gets its later places one after another, and where
// even these don't help is split up. Over becomes the number of those without a place, which
// Finish finds room for.
func (p *Picture) Label(frame scene.Box, free ...scene.Box) {
	p.Labelled, p.Within = true, frame
	slices.SortStableFunc(p.requests, func(a, b request) int { return a.rank - b.rank })
	work := label.Work{Left: min(p.D.Work.Left, cmp.Or(p.Most, members.MostSheetWork))}
	given := work.Left
	p.board = label.NewBoard(append(free, p.Fixed...), frame)
	p.board.Bound(&work)
	for i := range p.requests {
		p.give(i, p.requests[i].first())
	}
	left := p.board.Settle()
	for range steps {
		more := false
		for _, i := range left {
			more = p.giveMore(i) || more
		}
		if !more || work.Done() {
			break
		}
		left = p.board.Settle()
	}
	if len(left) > 0 && !work.Done() { // let all the others give way as far as they can
		for i := range p.requests {
			for len(p.requests[i].later) > 0 {
				p.giveMore(i)
			}
		}
		left = p.board.Settle()
	}
	p.D.Work.Left -= given - work.Left
	p.Over = len(left)
	p.write()
}

// give adds to the places of a label.
func (p *Picture) give(i int, more []candidate) {
	r := &p.requests[i]
	r.places = append(r.places, more...)
	spots := make([]label.Spot, len(more))
	for k := range more {
		spots[k] = more[k].Spot
	}
	p.board.Extend(i, spots)
}

// giveMore gives a label that found no place its later places, or splits it up; false where it
// has neither.
func (p *Picture) giveMore(i int) bool {
	r := &p.requests[i]
	switch {
	case len(r.later) > 0:
		next := r.later[0]
		r.later = r.later[1:]
		p.give(i, next())
	case len(r.split) > 0:
		parts := r.split
		p.board.Drop(i)
		*r = request{}
		for _, part := range parts {
			p.requests = append(p.requests, part())
			last := len(p.requests) - 1
			p.give(last, p.requests[last].first())
		}
	default:
		return false
	}
	return true
}

// write draws the labels that have places.
func (p *Picture) write() {
	p.Labels = nil
	for i := range p.requests {
		if k := p.board.Chosen(i); k >= 0 {
			p.Labels = append(p.Labels, p.requests[i].places[k].draw()...)
			p.note(&p.requests[i])
		}
	}
}

// note keeps which pieces' numbers stand on the drawing.
func (p *Picture) note(r *request) {
	if n, ok := strings.CutPrefix(r.name, "piece "); ok {
		if v, err := strconv.Atoi(n); err == nil {
			p.Ringed[v] = true
		}
	}
}

// leaderCost makes a label on a long leader dearer than one in any place of its own.
const leaderCost = 200

// mostKeyWork bounds the search of Finish on one sheet.
const mostKeyWork = 3_000_000

// Finish gives each label that found no room places on a leader that may cross pipe but no
// letters; what even so finds none is listed.
func (p *Picture) Finish() {
	board := p.board
	if board == nil {
		return
	}
	work := label.Work{Left: mostKeyWork}
	p.board.Bound(&work)
	for _, i := range p.left() {
		if len(p.requests[i].split) > 0 { // each length of a row by itself
			p.requests[i].later = nil
			p.giveMore(i)
		}
	}
	for _, i := range p.left() {
		r := &p.requests[i]
		if r.last != nil {
			p.give(i, r.last())
		}
		for _, c := range r.again {
			far := p.calloutSpots(c, 0, len(c.far))
			for k := range far {
				far[k].Cost += leaderCost
			}
			p.give(i, far)
		}
	}
	board.Settle()
	p.D.Work.Left -= mostKeyWork - work.Left
	for _, i := range p.left() {
		if w := p.requests[i].words; w != "" {
			p.keys = append(p.keys, w)
		}
	}
	p.write()
	p.board = nil
}

// left are the labels without a place.
func (p *Picture) left() []int {
	var out []int
	for i := range p.requests {
		if p.requests[i].first != nil && p.board.Chosen(i) < 0 {
			out = append(out, i)
		}
	}
	return out
}

// Roomless is how many labels found no room: those KeyNote lists.
func (p *Picture) Roomless() int { return len(p.keys) }

// KeyNote lists the labels that found no place.
func (p *Picture) KeyNote() string {
	if len(p.keys) == 0 {
		return ""
	}
	return "No room on the drawing for: " + strings.Join(p.keys, "; ") + "."
}
