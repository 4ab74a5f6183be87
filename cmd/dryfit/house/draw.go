package main

import (
	"dryfit/render/scene"
	"dryfit/render/schematic/place"
)

// Sizes of the picture, mm.
const (
	boxHigh = 6.5
	letters = 3.0
	beside  = 3.0  // least between boxes of a floor
	between = 11.0 // floors
	margin  = 6.0
)

// node is a package on its floor, or where an arrow passes one.
type node struct {
	name  string
	floor int
	at    place.Point
}

func (n *node) wide() float64 {
	if n.name == "" {
		return 1.5
	}
	return scene.TextWidth(n.name, letters, false) + 4
}

// draw lays the packages out floor by floor, with the arrows of imports between them: those
// that are needed to get everywhere.
func draw(imports map[string][]string) (*scene.Scene, error) {
	var nodes []*node
	index := map[string]int{}
	add := func(n *node) int {
		nodes = append(nodes, n)
		return len(nodes) - 1
	}
	for f, names := range floors {
		for _, name := range names {
			index[name] = add(&node{name: name, floor: f})
		}
	}
	var edges []place.Edge
	var ways [][]int
	arrows := needed(imports)
	for _, names := range floors {
		for _, from := range names {
			for _, to := range arrows[from] {
				if _, ok := index[to]; !ok {
					continue // the test says so
				}
				way := []int{index[from]}
				for f := nodes[index[from]].floor + 1; f < nodes[index[to]].floor; f++ {
					way = append(way, add(&node{floor: f}))
				}
				way = append(way, index[to])
				for i := 1; i < len(way); i++ {
					edges = append(edges, place.Edge{From: way[i-1], To: way[i], Weight: 2})
				}
				ways = append(ways, way)
			}
		}
	}
	boxes := make([]place.Box, len(nodes))
	for i, n := range nodes {
		boxes[i] = place.Box{W: boxHigh, H: n.wide()} // the engine goes from left to right, floors from top to bottom
	}
	at, err := place.Boxes(boxes, edges, between, beside)
	if err != nil {
		return nil, err
	}
	for i, n := range nodes {
		n.at = place.Point{X: at[i].Y, Y: float64(n.floor)*(boxHigh+between) + boxHigh/2}
	}
	return paint(nodes, ways), nil
}

// paint draws the nodes and the arrows along their ways.
func paint(nodes []*node, ways [][]int) *scene.Scene {
	all := scene.Empty()
	for _, n := range nodes {
		all = all.Union(n.box())
	}
	shift := func(p scene.Point) scene.Point {
		return scene.Point{X: p.X - all.MinX + margin, Y: p.Y - all.MinY + margin}
	}
	s := &scene.Scene{Name: "The packages of dryfit and what they import", WidthMM: all.W() + 2*margin, HeightMM: all.H() + 2*margin}
	thin := scene.Style{StrokeMM: 0.18, Grey: 0.45}
	for _, way := range ways {
		path := scene.SubPath{}
		for i, k := range way {
			n := nodes[k]
			b := n.box()
			top, foot := scene.Point{X: n.at.X, Y: b.MinY}, scene.Point{X: n.at.X, Y: b.MaxY}
			switch {
			case i == 0:
				path.Start = shift(foot)
				continue
			case i == len(way)-1:
				path.Segments = append(path.Segments, bend(last(path), shift(top)))
			default:
				path.Segments = append(path.Segments, bend(last(path), shift(top)), scene.Segment{To: shift(foot)})
			}
		}
		tip := last(path)
		s.Items = append(s.Items, scene.Shape{Style: thin, Paths: []scene.SubPath{path}},
			scene.Shape{Style: scene.Style{Fill: true, FillGrey: 0.45}, Paths: []scene.SubPath{{Start: tip, Closed: true,
				Segments: []scene.Segment{{To: scene.Point{X: tip.X - 0.7, Y: tip.Y - 2}}, {To: scene.Point{X: tip.X + 0.7, Y: tip.Y - 2}}}}}})
	}
	for _, n := range nodes {
		if n.name == "" {
			continue
		}
		b := n.box()
		low, high := shift(scene.Point{X: b.MinX, Y: b.MinY}), shift(scene.Point{X: b.MaxX, Y: b.MaxY})
		s.Items = append(s.Items, scene.Shape{Style: scene.Style{StrokeMM: 0.35, Fill: true, FillGrey: 1}, Paths: []scene.SubPath{{Start: low, Closed: true,
			Segments: []scene.Segment{{To: scene.Point{X: high.X, Y: low.Y}}, {To: high}, {To: scene.Point{X: low.X, Y: high.Y}}}}}},
			scene.Text{At: shift(scene.Point{X: n.at.X, Y: n.at.Y}), Text: n.name, SizeMM: letters, Anchor: scene.Centre, Middle: true})
	}
	return s
}

func (n *node) box() scene.Box {
	w := n.wide() / 2
	return scene.Box{MinX: n.at.X - w, MinY: n.at.Y - boxHigh/2, MaxX: n.at.X + w, MaxY: n.at.Y + boxHigh/2}
}

// last is where a path has come to.
func last(p scene.SubPath) scene.Point {
	if n := len(p.Segments); n > 0 {
		return p.Segments[n-1].To
	}
	return p.Start
}

// bend is a curve that leaves a floor and comes to the next upright.
func bend(from, to scene.Point) scene.Segment {
	half := (to.Y - from.Y) / 2
	return scene.Segment{Curve: true, C1: scene.Point{X: from.X, Y: from.Y + half}, C2: scene.Point{X: to.X, Y: to.Y - half}, To: to}
}
