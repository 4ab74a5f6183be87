package picture

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/label"
	"dryfit/render/scene"
)

// steps bounds how often labels that find no place are given more to choose from.
const steps = 8

// placeLabels gives every label its place, at first from the places it likes best; a label
// that overlaps something gets its later places one after another, and one that overlaps even
// so is split up.
func (p *Picture) placeLabels() {
	slices.SortStableFunc(p.requests, func(a, b request) int { return a.rank - b.rank })
	all := slices.Clone(p.requests)
	part := make([][]int, len(all)) // what a request is split into
	for i := range p.requests {
		for range p.requests[i].split {
			part[i] = append(part[i], len(all))
			all = append(all, request{})
		}
	}
	gone := make([]bool, len(all)) // it was
	lists := make([][]label.Spot, len(all))
	for i := range p.requests {
		lists[i] = placesOf(all[i].places)
	}
	board := label.NewBoard(lists, p.Fixed)
	work := label.Work{Left: min(p.D.Work.Left, cmp.Or(p.Most, members.MostSheetWork))}
	given := work.Left
	board.Bound(&work)
	defer func() { p.D.Work.Left -= given - work.Left }()
	var left []int
	for range steps {
		if left = board.Settle(); len(left) == 0 {
			break
		}
		more := false
		for _, i := range left {
			more = giveMore(board, all, part, gone, i) || more
		}
		if !more || work.Done() {
			break
		}
	}
	if len(left) > 0 && !work.Done() { // let all the others give way as far as they can
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
	for i := range all { // the search ended before their turn
		if board.Chosen(i) < 0 && len(all[i].places) > 0 && !gone[i] && !slices.Contains(left, i) {
			left = append(left, i)
		}
	}
	slices.Sort(left)
	left = slices.DeleteFunc(left, func(i int) bool { return gone[i] })
	var taken []scene.Box
	for i := range all {
		k := board.Chosen(i)
		if k < 0 || slices.Contains(left, i) {
			continue
		}
		p.Labels = append(p.Labels, all[i].places[k].draw()...)
		taken = append(taken, all[i].places[k].Parts...)
		p.note(&all[i])
	}
	p.Over = len(left)
	p.placeKeys(singles(all, left), taken)
}

// giveMore gives a label that found no place its later places, or splits it up; false where it
// has neither. part says what each request is split into, gone which were.
func giveMore(board *label.Board, all []request, part [][]int, gone []bool, i int) bool {
	r := &all[i]
	switch {
	case len(r.later) > 0:
		next := r.later[0]()
		r.later = r.later[1:]
		board.Extend(i, placesOf(next))
		r.places = append(r.places[:len(r.places):len(r.places)], next...)
	case len(r.split) > 0:
		board.Drop(i)
		gone[i] = true
		for n, k := range part[i] {
			all[k] = r.split[n]()
			board.Extend(k, placesOf(all[k].places))
		}
		r.split = nil
	default:
		return false
	}
	return true
}

// singles are the requests of some indexes, each row of lengths as its lengths.
func singles(all []request, of []int) []request {
	var out []request
	for _, i := range of {
		if len(all[i].split) == 0 {
			out = append(out, all[i])
		}
		for _, one := range all[i].split {
			out = append(out, one())
		}
	}
	return out
}

// note keeps which pieces' numbers stand on the drawing.
func (p *Picture) note(r *request) {
	if n, ok := strings.CutPrefix(r.tag, "piece "); ok {
		if v, err := strconv.Atoi(n); err == nil {
			p.Ringed[v] = true
		}
	}
}

// placeKeys puts each label that found no room where it covers nothing, else its letters alone
// cover nothing, on a leader that may cross pipe but no letters; what even so finds no place is
// listed.
func (p *Picture) placeKeys(left []request, taken []scene.Box) {
	places := make([][]candidate, len(left))
	lists := make([][]label.Spot, len(left))
	for i := range left {
		r := &left[i]
		if r.last != nil {
			for _, try := range r.last() {
				if !slices.ContainsFunc(try.Parts, func(b scene.Box) bool { return overlapsAny(b, p.Fixed) || overlapsAny(b, taken) }) {
					places[i] = append(places[i], try)
				}
			}
		}
		places[i] = append(places[i], p.keyPlaces(r.again)...)
		lists[i] = placesOf(places[i])
	}
	board := label.NewBoard(lists, taken)
	board.Bound(&label.Work{Left: mostKeyWork})
	bad := board.Settle()
	for i := range left {
		if k := board.Chosen(i); k >= 0 && !slices.Contains(bad, i) {
			p.Labels = append(p.Labels, places[i][k].draw()...)
			p.note(&left[i])
		} else if left[i].words != "" {
			p.keys = append(p.keys, left[i].words)
		}
	}
}

// leaderCost makes a label on a long leader dearer than one in any place of its own.
const leaderCost = 200

// keyPlaces are the places of a label on a long leader whose letters cover no line.
func (p *Picture) keyPlaces(c *callout) []candidate {
	if c == nil {
		return nil
	}
	var out []candidate
	for _, try := range p.calloutPlaces(*c, 0, len(c.far)) {
		letters := try.Parts[:1]
		if c.ring {
			letters = try.Parts[:space.DiscParts]
		}
		if !slices.ContainsFunc(letters, func(b scene.Box) bool { return overlapsAny(b, p.Fixed) }) {
			try.Cost += leaderCost
			out = append(out, try)
		}
	}
	return out
}

func overlapsAny(b scene.Box, list []scene.Box) bool {
	for i := range list {
		if b.Overlaps(list[i]) {
			return true
		}
	}
	return false
}

// mostKeyWork bounds the search of placeKeys on one sheet.
const mostKeyWork = 500_000

// KeyNote lists the labels that found no place.
func (p *Picture) KeyNote() string {
	if len(p.keys) == 0 {
		return ""
	}
	return "No room on the drawing for: " + strings.Join(p.keys, "; ") + "."
}

func placesOf(cs []candidate) []label.Spot {
	out := make([]label.Spot, len(cs))
	for i := range cs {
		out[i] = cs[i].Spot
	}
	return out
}
