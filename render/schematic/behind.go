package schematic

import (
	"math"

	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
)

// behindCost is what it costs a label to stand on the far side of another pipe.
const behindCost = 14

// stretches is the straight stretches of all pipes, or the signs and marks, by the cells of a grid
// they lie in, so that what is near a label is found without asking all of them.
type stretches struct {
	boxes []scene.Box
	names []string // of the run or part each belongs to
	in    map[cell][]int
}

type cell struct{ x, y int }

// cellMM is the side of a cell, mm.
const cellMM = 25

func stretchesOf(pipes []*arrange.Pipe) *stretches {
	s := &stretches{in: map[cell][]int{}}
	for _, p := range pipes {
		for k := 1; k < len(p.Points); k++ {
			s.add("run:"+p.Run.ID, scene.Empty().Add(p.Points[k-1]).Add(p.Points[k]).Grow(0.1))
		}
	}
	return s
}

func (s *stretches) add(name string, b scene.Box) {
	eachCell(b, func(c cell) bool {
		s.in[c] = append(s.in[c], len(s.boxes))
		return false
	})
	s.boxes, s.names = append(s.boxes, b), append(s.names, name)
}

// eachCell calls do with the cells a box lies in until it returns true, and reports whether it
// did.
func eachCell(b scene.Box, do func(cell) bool) bool {
	for y := int(math.Floor(b.MinY / cellMM)); y <= int(math.Floor(b.MaxY/cellMM)); y++ {
		for x := int(math.Floor(b.MinX / cellMM)); x <= int(math.Floor(b.MaxX/cellMM)); x++ {
			if do(cell{x, y}) {
				return true
			}
		}
	}
	return false
}

// behind reports whether a pipe other than its own runs between a label and what it belongs to.
func (s *stretches) behind(r request, b scene.Box) bool {
	from, to, l := nearest(r, b)
	if l < 1 {
		return false
	}
	way := scene.Empty().Add(from).Add(to)
	return eachCell(way, func(c cell) bool {
		for _, i := range s.in[c] {
			if s.boxes[i].Overlaps(way) && s.names[i] != r.name {
				return true
			}
		}
		return false
	})
}
