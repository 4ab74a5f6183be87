package stream

import (
	"cmp"
	"slices"
)

// turner turns chains round and keeps the order of the nodes in step. Only nodes placed
// between the two ends of a chain are looked at, so that a turn far up a long line costs no
// more than one at its end.
//
// Source: D. J. Pearce and P. H. J. Kelly (2006), A dynamic topological sort algorithm for
// directed acyclic graphs, ACM Journal of Experimental Algorithmics 11, 1.7 (from memory).
type turner struct {
	n     *Net
	way   []int8
	place []int
	seen  []int // number of the last search that met the node
	count int
}

// turn turns a chain if no other way leads from its start to its end, and reports whether
// it did.
func (t *turner) turn(c *chain) bool {
	after, reached := t.search(c.a, c.b, c.runs[0], true)
	if reached {
		return false
	}
	before, _ := t.search(c.b, c.a, c.runs[len(c.runs)-1], false)
	var inner []int
	for _, i := range c.runs[:len(c.runs)-1] {
		_, b := t.n.wayEnds(i, t.way)
		inner = append(inner, b)
	}
	slices.Reverse(inner)
	for _, i := range c.runs {
		t.way[i] = -t.way[i]
	}
	byPlace := func(a, b int) int { return cmp.Compare(t.place[a], t.place[b]) }
	slices.SortFunc(before, byPlace)
	slices.SortFunc(after, byPlace)
	nodes := slices.Concat(before, inner, after)
	places := make([]int, len(nodes))
	for k, v := range nodes {
		places[k] = t.place[v]
	}
	slices.Sort(places)
	for k, v := range nodes {
		t.place[v] = places[k]
	}
	return true
}

// search follows the water from a node (or back from it), not through the run left out and
// not past the place of the goal, and returns the nodes met and whether the goal is one.
func (t *turner) search(start, goal, without int, down bool) (met []int, reached bool) {
	t.count++
	t.seen[start] = t.count
	met = []int{start}
	for k := 0; k < len(met); k++ {
		for _, i := range t.n.nodes[met[k]].runs {
			if t.way[i] == 0 || i == without {
				continue
			}
			a, b := t.n.wayEnds(i, t.way)
			if !down {
				a, b = b, a
			}
			if a != met[k] || t.seen[b] == t.count {
				continue
			}
			if b == goal {
				return nil, true
			}
			if past := t.place[b] > t.place[goal]; past == down {
				continue
			}
			t.seen[b] = t.count
			met = append(met, b)
		}
	}
	return met, false
}
