package route

import "slices"

// bodies is the new work as rigid bodies joined by joints; body 0 is all that is there
// already.
type bodies struct {
	names []string
	index map[string]int
	links []Link
	ends  [][2]int // of each link: its bodies
	next  [][]int  // body -> links of the forest that was chosen
}

func newBodies(links []Link) *bodies {
	b := &bodies{names: []string{Existing}, index: map[string]int{Existing: 0}, links: links}
	id := func(name string) int {
		if i, ok := b.index[name]; ok {
			return i
		}
		b.index[name] = len(b.names)
		b.names = append(b.names, name)
		return len(b.names) - 1
	}
	b.ends = make([][2]int, len(links))
	for k, n := range links {
		b.ends[k] = [2]int{id(n.A), id(n.B)}
	}
	b.next = make([][]int, len(b.names))
	return b
}

// other is the body at the far side of a link.
func (b *bodies) other(link, from int) int {
	if b.ends[link][0] == from {
		return b.ends[link][1]
	}
	return b.ends[link][0]
}

// chain is the links of the forest between two bodies, in order.
func (b *bodies) chain(from, to int) []int {
	came := map[int]int{from: -1} // body -> link it was reached by
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if at == to {
			break
		}
		for _, k := range b.next[at] {
			o := b.other(k, at)
			if _, seen := came[o]; !seen {
				came[o] = k
				queue = append(queue, o)
			}
		}
	}
	var out []int
	for at := to; at != from; {
		k, ok := came[at]
		if !ok {
			return nil
		}
		out = append(out, k)
		at = b.other(k, at)
	}
	slices.Reverse(out)
	return out
}

// roots is a forest of merged bodies.
type roots []int

func newRoots(n int) roots {
	r := make(roots, n)
	for i := range r {
		r[i] = i
	}
	return r
}

func (r roots) of(i int) int {
	for r[i] != i {
		r[i] = r[r[i]]
		i = r[i]
	}
	return i
}

// merge joins two bodies; false where they were one already.
func (r roots) merge(a, b int) bool {
	a, b = r.of(a), r.of(b)
	if a == b {
		return false
	}
	r[max(a, b)] = min(a, b)
	return true
}
