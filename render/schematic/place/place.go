// Package place asks Graphviz where boxes should stand so that the water runs from left to
// right with few crossings.
//
// Only numbers go in and come out: the boxes are called n0, n1, … and no text of a user
// reaches the layout engine, which could be hung or killed by it. Lengths are in mm, Y down.
package place

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfit/render/schematic/engine"
)

// Box is something to be placed, W by H mm.
type Box struct{ W, H float64 }

// Edge says that water goes from one box to another, by index.
type Edge struct {
	From, To int
	Weight   int  // how much it wants to be short and straight: 1 to 10
	Free     bool // does not decide which box stands further right: the return to the tub
}

// Point is the middle of a box, mm, Y down.
type Point struct{ X, Y float64 }

// Limits of what is handed to the engine.
const (
	mostBoxes = 12000
	mostEdges = 50000
	mostSize  = 5000 // mm
	manyBoxes = 150  // above that the engine's search for fewer crossings and shorter ways is cut short
)

// Boxes returns the middles of the boxes. gapX and gapY are the least distances between
// boxes in a row and between rows, mm. The error says what came back wrong.
func Boxes(boxes []Box, edges []Edge, gapX, gapY float64) ([]Point, error) {
	if len(boxes) == 0 {
		return nil, nil
	}
	if len(boxes) > mostBoxes || len(edges) > mostEdges {
		return nil, fmt.Errorf("%d boxes and %d edges are more than can be placed", len(boxes), len(edges))
	}
	text, err := dot(boxes, edges, gapX, gapY)
	if err != nil {
		return nil, err
	}
	out, err := engine.Layout(text)
	if err != nil {
		return nil, err
	}
	return read(out, len(boxes))
}

// dot writes the graph in the DOT language: numbers only. Sizes are in inches there.
func dot(boxes []Box, edges []Edge, gapX, gapY float64) ([]byte, error) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "digraph{rankdir=LR;splines=false;nodesep=%s;ranksep=%s;node[shape=box,fixedsize=true,label=\"\"];edge[dir=none];\n",
		inches(gapY), inches(gapX))
	if len(boxes) > manyBoxes {
		b.WriteString("mclimit=0.1;nslimit=0.5;nslimit1=0.5;\n")
	}
	for i, x := range boxes {
		if !(x.W > 0 && x.H > 0 && x.W < mostSize && x.H < mostSize) {
			return nil, fmt.Errorf("box %d of %g x %g mm can't be placed", i, x.W, x.H)
		}
		fmt.Fprintf(&b, "n%d[width=%s,height=%s];\n", i, inches(x.W), inches(x.H))
	}
	for _, e := range edges {
		if e.From < 0 || e.To < 0 || e.From >= len(boxes) || e.To >= len(boxes) {
			return nil, fmt.Errorf("edge from %d to %d leads to no box", e.From, e.To)
		}
		if e.Free && len(boxes) > manyBoxes {
			continue // across so many ranks it costs far more than it tells
		}
		w := min(max(e.Weight, 1), 10)
		fmt.Fprintf(&b, "n%d->n%d[weight=%d", e.From, e.To, w)
		if e.Free {
			b.WriteString(",constraint=false")
		}
		b.WriteString("];\n")
	}
	b.WriteString("}\n")
	return b.Bytes(), nil
}

func inches(mm float64) string { return strconv.FormatFloat(mm/25.4, 'f', 4, 64) }

// read takes the positions out of the engine's JSON and checks that every box came back,
// once, at a real place.
func read(out []byte, n int) ([]Point, error) {
	var doc struct {
		BB      string `json:"bb"`
		Objects []struct {
			Name string `json:"name"`
			Pos  string `json:"pos"`
		} `json:"objects"`
	}
	if err := json.Unmarshal(out, &doc); err != nil {
		return nil, fmt.Errorf("reading the layout: %w", err)
	}
	bb := strings.Split(doc.BB, ",")
	if len(bb) != 4 {
		return nil, errors.New("the layout has no bounding box")
	}
	top, err := strconv.ParseFloat(bb[3], 64)
	if err != nil {
		return nil, fmt.Errorf("reading the layout: %w", err)
	}
	pts := make([]Point, n)
	seen := make([]bool, n)
	for _, o := range doc.Objects {
		i, err := strconv.Atoi(strings.TrimPrefix(o.Name, "n"))
		if err != nil || i < 0 || i >= n || seen[i] {
			return nil, fmt.Errorf("the layout has an unknown box %.20q", o.Name)
		}
		xs, ys, ok := strings.Cut(o.Pos, ",")
		x, err1 := strconv.ParseFloat(xs, 64)
		y, err2 := strconv.ParseFloat(ys, 64)
		if !ok || err1 != nil || err2 != nil || math.IsNaN(x+y) || math.IsInf(x+y, 0) {
			return nil, fmt.Errorf("the layout has no place for box %d", i)
		}
		const mmPerPt = 25.4 / 72
		pts[i] = Point{x * mmPerPt, (top - y) * mmPerPt}
		seen[i] = true
	}
	for i, s := range seen {
		if !s {
			return nil, fmt.Errorf("box %d did not come back from the layout", i)
		}
	}
	return pts, nil
}
