package arrange

import "math"

// fold breaks the rows of main lines that are a good deal longer than they should be. A row is broken only
// where no other line bridges the break; the pipe there is led back to the left below what
// hangs on the row, and the rest goes on in a row of its own.
func (b *builder) fold() {
	if b.m.MostRow <= 0 {
		return
	}
	for i := 0; i < len(b.lines); i++ { // split puts the rest next
		l := b.lines[i]
		if l.kind != loop || l.hang || l.x1 <= 1.3*b.m.MostRow {
			continue
		}
		at := b.breakAt(l)
		if at < 0 {
			continue
		}
		b.split(l, at)
		b.setParents()
		b.columns()
	}
}

// breakAt returns the index of the part in the row after which it is broken: of the breaks
// that nothing bridges the nearest to the length wanted; -1 where there is none.
func (b *builder) breakAt(l *line) int {
	index := map[*Node]int{}
	for i, n := range l.row {
		index[n] = i
	}
	barred := make([]bool, len(l.row))
	for _, k := range b.lines {
		if k.hang || k.start == nil || k.end == nil || k == l {
			continue
		}
		i, j, ok := b.reach(k, index)
		if !ok {
			continue
		}
		for ; i < j; i++ {
			barred[i] = true
		}
	}
	best, least := -1, math.Inf(1)
	for i := 0; i+1 < len(l.row); i++ {
		if barred[i] {
			continue
		}
		p := b.between(l, l.row[i], l.row[i+1])
		if p == nil || p.Run.Direct() {
			continue
		}
		if off := math.Abs(l.row[i].At.X + l.row[i].Symbol.Out - b.m.MostRow); off < least {
			best, least = i, off
		}
	}
	return best
}

// reach returns the first and the last part of the row that a bridge touches.
func (b *builder) reach(k *line, index map[*Node]int) (lo, hi int, ok bool) {
	i, ok1 := index[k.start]
	j, ok2 := index[k.end]
	if !ok1 || !ok2 {
		return 0, 0, false
	}
	return min(i, j), max(i, j), true
}

func (b *builder) between(l *line, a, c *Node) *Pipe {
	for _, p := range l.pipes {
		if p.From == a && p.To == c {
			return p
		}
	}
	return nil
}

// split makes two lines of one; the second goes on from the first.
func (b *builder) split(l *line, after int) {
	p := b.between(l, l.row[after], l.row[after+1])
	cut := 0
	for i, q := range l.pipes {
		if q == p {
			cut = i
		}
	}
	next := &line{kind: l.kind, toTub: l.toTub, wall: l.wall, end: l.end, carry: p, carried: l.carried,
		pipes: l.pipes[cut:], row: l.row[after+1:], readingPos: l.readingPos}
	for i, n := range l.nodes {
		if n == l.row[after] {
			next.nodes = l.nodes[i+1:]
			l.nodes = l.nodes[:i+1]
			break
		}
	}
	l.pipes, l.row = l.pipes[:cut], l.row[:after+1]
	l.toTub, l.wall, l.end, l.carried = false, nil, nil, true
	for _, n := range next.nodes {
		n.line = next
	}
	for _, q := range next.pipes {
		q.line = next
	}
	for i, k := range b.lines {
		if k == l {
			b.lines = append(b.lines[:i+1], append([]*line{next}, b.lines[i+1:]...)...)
			break
		}
	}
}
