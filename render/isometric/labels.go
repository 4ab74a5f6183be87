package isometric

import (
	"slices"

	"dryfit/render/schematic/label"
)

// steps bounds how often labels that find no place are given more to choose from.
const steps = 4

// placeLabels gives every label its place, at first from the places it likes best; a label
// that overlaps something gets its later places, and one that overlaps even so is split up.
func (p *picture) placeLabels() {
	slices.SortStableFunc(p.requests, func(a, b request) int { return a.rank - b.rank })
	all := slices.Clone(p.requests)
	part := make([][]int, len(all)) // what a request is split into
	for i := range p.requests {
		for _, s := range p.requests[i].split {
			part[i] = append(part[i], len(all))
			all = append(all, s)
		}
	}
	lists := make([][]label.Place, len(all))
	for i := range p.requests {
		lists[i] = placesOf(all[i].places)
	}
	board := label.NewBoard(lists, p.fixed)
	var left []int
	for range steps {
		left = board.Settle()
		more := false
		for _, i := range left {
			switch {
			case len(all[i].later) > 0:
				board.Extend(i, placesOf(all[i].later))
				all[i].places = append(all[i].places[:len(all[i].places):len(all[i].places)], all[i].later...)
				all[i].later = nil
			case i < len(part) && len(part[i]) > 0:
				board.Drop(i)
				for _, k := range part[i] {
					board.Extend(k, placesOf(all[k].places))
				}
			default:
				continue
			}
			more = true
		}
		if !more {
			break
		}
	}
	left = board.Settle()
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
