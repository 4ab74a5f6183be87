package lead

// opened is a node to go on from, with what a whole path through it costs at the least.
type opened struct {
	node  int32
	least Cost
}

// before reports whether one is gone on from first: the cheaper; of two that cost as much, the
// one that was made first.
func (o *opened) before(p *opened) bool {
	if c := o.least.Compare(p.least); c != 0 {
		return c < 0
	}
	return o.node < p.node
}

// openList is a heap, the first before the rest. container/heap would box every entry, and
// there are millions.
type openList []opened

func (l *openList) push(o opened) {
	*l = append(*l, o)
	h := *l
	i := len(h) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !o.before(&h[up]) {
			break
		}
		h[i], i = h[up], up
	}
	h[i] = o
}

func (l *openList) pop() opened {
	h := *l
	top, last := h[0], h[len(h)-1]
	h = h[:len(h)-1]
	*l = h
	if len(h) == 0 {
		return top
	}
	i := 0
	for {
		down := 2*i + 1
		if down >= len(h) {
			break
		}
		if down+1 < len(h) && h[down+1].before(&h[down]) {
			down++
		}
		if !h[down].before(&last) {
			break
		}
		h[i], i = h[down], down
	}
	h[i] = last
	return top
}
