package picture

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

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
	lists := make([][]label.Place, len(all))
	for i := range p.requests {
		lists[i] = placesOf(all[i].places)
	}
	board := label.NewBoard(lists, p.Fixed)
	work := label.Work{Left: min(p.D.Work.Left, cmp.Or(p.Most, MostSheetWork))}
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
				continue
			}
			more = true
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
	p.placeKeys(all, left, taken)
}

// note keeps which pieces' numbers stand on the drawing.
func (p *Picture) note(r *request) {
	if n, ok := strings.CutPrefix(r.tag, "piece "); ok {
		if v, err := strconv.Atoi(n); err == nil {
			p.Ringed[v] = true
		}
	}
}

// placeKeys puts each label that found no room where its letters cover nothing, on a leader
// that may cross pipe but no letters; what even so finds no place is listed.
func (p *Picture) placeKeys(all []request, left []int, taken []scene.Box) {
	places := make([][]candidate, len(left))
	lists := make([][]label.Place, len(left))
	for n, i := range left {
		c := all[i].again
		if c == nil {
			continue
		}
		for _, try := range p.calloutPlaces(*c, 0, len(c.far)) {
			letters := try.Parts[:1]
			if c.ring {
				letters = try.Parts[:space.DiscParts]
			}
			if !slices.ContainsFunc(letters, func(b scene.Box) bool { return overlapsAny(b, p.Fixed) }) {
				places[n] = append(places[n], try)
			}
		}
		lists[n] = placesOf(places[n])
	}
	board := label.NewBoard(lists, taken)
	board.Bound(&label.Work{Left: mostKeyWork})
	bad := board.Settle()
	for n, i := range left {
		if k := board.Chosen(n); k >= 0 && !slices.Contains(bad, n) {
			p.Labels = append(p.Labels, places[n][k].draw()...)
			p.note(&all[i])
		} else if all[i].words != "" {
			p.keys = append(p.keys, all[i].words)
		}
	}
	p.Over = len(left)
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

func placesOf(cs []candidate) []label.Place {
	out := make([]label.Place, len(cs))
	for i := range cs {
		out[i] = cs[i].Place
	}
	return out
}
