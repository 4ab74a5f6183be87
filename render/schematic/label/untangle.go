package label

import (
	"math"
	"slices"

	"dryfit/render/scene"
)

// rounds bounds how often Untangle goes over the labels that overlap.
const rounds = 4

// Untangle takes what Choose found and tries to free the labels that still overlap: each is
// put where only other labels are in its way, and those give way in turn. A try that does not
// leave fewer labels overlapping is taken back.
func Untangle(labels [][]Place, fixed []scene.Box, chosen []int) (better, overlapping []int) {
	t := &tangle{labels: labels, grid: newGrid(labels), chosen: slices.Clone(chosen)}
	for _, b := range fixed {
		t.grid.add(b, -1, 0)
	}
	for i := range labels {
		if t.chosen[i] >= 0 {
			t.grid.put(&labels[i][t.chosen[i]], i)
		}
	}
	for range rounds {
		freed := false
		for i := range labels {
			if t.chosen[i] >= 0 && t.overlaps(i) && t.free(i) {
				freed = true
			}
		}
		if !freed {
			break
		}
	}
	for i := range labels {
		if t.chosen[i] >= 0 && t.overlaps(i) {
			overlapping = append(overlapping, i)
		}
	}
	return t.chosen, overlapping
}

type tangle struct {
	labels [][]Place
	grid   *grid
	chosen []int
}

func (t *tangle) overlaps(i int) bool {
	return t.grid.coveredBy(&t.labels[i][t.chosen[i]], i, math.Inf(1)) > 0
}

func (t *tangle) move(i, k int) {
	t.grid.take(&t.labels[i][t.chosen[i]], i)
	t.chosen[i] = k
	t.grid.put(&t.labels[i][k], i)
}

// mostTries bounds how many places are tried for one label.
const mostTries = 24

// free tries the places of a label that nothing fixed stands in, the cheapest first.
func (t *tangle) free(i int) bool {
	places := t.labels[i]
	order := make([]int, 0, len(places))
	for k := range places {
		order = append(order, k)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case places[a].Cost < places[b].Cost:
			return -1
		case places[a].Cost > places[b].Cost:
			return 1
		}
		return 0
	})
	tries := 0
	for _, k := range order {
		if k == t.chosen[i] {
			continue
		}
		inWay, isFixed := t.grid.owners(&places[k], i)
		if isFixed || len(inWay) > 3 {
			continue
		}
		if t.try(i, k, inWay) {
			return true
		}
		if tries++; tries >= mostTries {
			break
		}
	}
	return false
}

// try moves a label to a place and lets those in the way find others.
func (t *tangle) try(i, k int, inWay []int) bool {
	was := map[int]int{i: t.chosen[i]}
	before := 1
	for _, j := range inWay {
		was[j] = t.chosen[j]
		if t.overlaps(j) {
			before++
		}
	}
	t.move(i, k)
	for _, j := range inWay {
		if next := best(t.grid, t.labels[j], j); next != t.chosen[j] {
			t.move(j, next)
		}
	}
	after := 0
	if t.overlaps(i) {
		after++
	}
	for _, j := range inWay {
		if t.overlaps(j) {
			after++
		}
	}
	if after < before {
		return true
	}
	for _, j := range append([]int{i}, inWay...) {
		if was[j] != t.chosen[j] {
			t.move(j, was[j])
		}
	}
	return false
}

// owners lists the labels that overlap a place, and whether anything fixed does.
func (g *grid) owners(p *Place, self int) (labels []int, isFixed bool) {
	for i, b := range p.parts() {
		key := p.key(i)
		g.each(b, func(k [2]int) {
			for _, e := range g.cells[k] {
				if e.owner == self || (key != 0 && e.key == key) || !b.Overlaps(e.box) {
					continue
				}
				if e.owner < 0 {
					isFixed = true
				} else if !slices.Contains(labels, e.owner) {
					labels = append(labels, e.owner)
				}
			}
		})
		if isFixed {
			return nil, true
		}
	}
	return labels, false
}
