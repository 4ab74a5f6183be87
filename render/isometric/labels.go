package isometric

import (
	"slices"

	"dryfit/render/label"
)

// steps bounds how often labels that find no place are given more to choose from.
const steps = 8

// placeLabels gives every label its place, at first from the places it likes best; a label
// that overlaps something gets its later places one after another, and one that overlaps even
// so is split up.
func (p *picture) placeLabels() {
	slices.SortStableFunc(p.requests, func(a, b request) int { return a.rank - b.rank })
	all := slices.Clone(p.requests)
	part := make([][]int, len(all)) // what a request is split into
	for i := range p.requests {
		for range p.requests[i].split {
			part[i] = append(part[i], len(all))
			all = append(all, request{})
		}
	}
	lists := make([][]label.Place, len(all))
	for i := range p.requests {
		lists[i] = placesOf(all[i].places)
	}
	board := label.NewBoard(lists, p.fixed)
	var left []int
	for range steps {
		if left = board.Settle(); len(left) == 0 {
			break
		}
		more := false
		for _, i := range left {
			r := &all[i]
			switch {
			case len(r.later) > 0:
				next := r.later[0]()
				r.later = r.later[1:]
				board.Extend(i, placesOf(next))
				r.places = append(r.places[:len(r.places):len(r.places)], next...)
			case len(r.split) > 0:
				board.Drop(i)
				for n, k := range part[i] {
					all[k] = r.split[n]()
					board.Extend(k, placesOf(all[k].places))
				}
				r.split = nil
			default:
				continue
			}
			more = true
		}
		if !more {
			break
		}
	}
	if len(left) > 0 { // let all the others give way as far as they can
		for i := range all {
			for _, later := range all[i].later {
				next := later()
				board.Extend(i, placesOf(next))
				all[i].places = append(all[i].places[:len(all[i].places):len(all[i].places)], next...)
			}
			all[i].later = nil
		}
		left = board.Settle()
	}
	p.crowded = len(left)
	for _, i := range left {
		p.covering = append(p.covering, all[i].tag)
	}
	for i := range all {
		if k := board.Chosen(i); k >= 0 {
			p.labels = append(p.labels, all[i].places[k].draw()...)
		}
	}
}

func placesOf(cs []candidate) []label.Place {
	out := make([]label.Place, len(cs))
	for i := range cs {
		out[i] = cs[i].Place
	}
	return out
}
