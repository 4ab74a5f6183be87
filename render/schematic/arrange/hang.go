package arrange

import (
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/symbol"
	"slices"
)

// host returns the part a dead end hangs on.
func (l *line) host() *Node {
	if l.start != nil {
		return l.start
	}
	return l.end
}

// hangWay is where a dead end points: drains down, air and the rest up.
func (b *builder) hangWay(l *line) symbol.Way {
	host := l.host()
	if host.Role == OnWall {
		return symbol.Left
	}
	if host.Role == OnRiser {
		return symbol.Right
	}
	for _, n := range l.nodes {
		if n.Part.Kind == graph.DrainValve {
			return symbol.Down
		}
	}
	return symbol.Up
}

// hangPipe is the pipe before each sign on a dead end, mm: short, or as long as its label
// where it is level.
func (b *builder) hangPipe(l *line) float64 {
	const least = 4.0
	upright := b.hangWay(l) == symbol.Up || b.hangWay(l) == symbol.Down
	length := least
	for _, p := range l.pipes {
		switch h := b.heightOf(p); {
		case !upright:
			length = max(length, b.lengthOf(p))
		case h > 0:
			length = max(length, h+2)
		}
	}
	return length
}

func (b *builder) hangLength(l *line) float64 {
	sum := 0.0
	for _, n := range l.nodes {
		sum += b.hangPipe(l) + n.Symbol.Box.W()
		if n.Symbol.Box.H() > n.Symbol.Box.W() {
			sum += 2
		}
	}
	return sum + 2
}

// hangs places the parts of dead ends one after the other away from their tee. A line of
// air that comes from its far end is walked from there.
func (b *builder) hangs() {
	for _, l := range b.lines {
		if !l.hang {
			continue
		}
		host := l.host()
		way := b.hangWay(l)
		v := way.Vector()
		at := host.At
		reach := 0.0 // from the host's middle to its edge
		box := host.Symbol.BoxAt(scene.Point{}, host.Way)
		if host.Part.Kind != graph.Tee {
			switch way {
			case symbol.Up:
				reach = -box.MinY
			case symbol.Down:
				reach = box.MaxY
			case symbol.Left:
				reach = -box.MinX
			case symbol.Right:
				reach = box.MaxX
			}
		}
		at.X += v.X * reach
		at.Y += v.Y * reach
		nodes := append([]*Node{}, l.nodes...)
		outward := l.start != nil
		if !outward {
			slices.Reverse(nodes)
		}
		for _, n := range nodes {
			n.Way = way
			near, far := -n.Symbol.In, n.Symbol.Out
			if !outward { // its outlet is towards the host
				n.Way = opposite(way)
				near, far = n.Symbol.Out, -n.Symbol.In
			}
			d := b.hangPipe(l) + near
			n.At = scene.Point{X: at.X + v.X*d, Y: at.Y + v.Y*d}
			at = scene.Point{X: n.At.X + v.X*far, Y: n.At.Y + v.Y*far}
		}
	}
}

func opposite(w symbol.Way) symbol.Way { return (w + 2) % 4 }
