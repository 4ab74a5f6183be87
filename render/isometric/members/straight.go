package members

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/render/isometric/space"
)

// slantShare is how far slants are drawn along each axis, against each other: unlike, for a slant
// of 45 degrees drawn alike along two axes would lie over the third.
var slantShare = [3]float64{1, 0.6, 1.5}

// slant is a straight line of several members aslant: the levels of the places on it, in their order,
// and how it runs along each axis, not signed.
type slant struct {
	at  [][3]int
	way [3]float64
}

// slantsOf gathers the slanting lines that more than one member lies on.
func slantsOf(ms []Member, levels *space.Space) []slant {
	type line struct {
		from, way graph.Vec
		places    []graph.Vec
	}
	var lines []line
	for i := range ms {
		m := &ms[i]
		if len(space.AxesOf(m.Way())) < 2 {
			continue
		}
		k := slices.IndexFunc(lines, func(l line) bool { return onLine(m.A, l.from, l.way) && onLine(m.B, l.from, l.way) })
		if k < 0 {
			k = len(lines)
			lines = append(lines, line{from: m.A, way: m.Way().Unit()})
		}
		lines[k].places = append(lines[k].places, m.A, m.B)
	}
	var out []slant
	for _, l := range lines {
		slices.SortFunc(l.places, func(a, b graph.Vec) int { return cmp.Compare(a.Sub(l.from).Dot(l.way), b.Sub(l.from).Dot(l.way)) })
		places := slices.CompactFunc(l.places, func(a, b graph.Vec) bool { return b.Sub(a).Len() < 2*space.SameLevel })
		if len(places) < 3 {
			continue
		}
		s := slant{way: [3]float64{math.Abs(l.way.X), math.Abs(l.way.Y), math.Abs(l.way.Z)}}
		for _, v := range places {
			s.at = append(s.at, [3]int{levels[0].Index(v.X), levels[1].Index(v.Y), levels[2].Index(v.Z)})
		}
		out = append(out, s)
	}
	return out
}

// onLine reports whether a place lies on a line.
func onLine(v, from, way graph.Vec) bool {
	return v.Sub(from).Across(way).Len() < space.SameLevel
}

// straightRounds bounds how often the gaps are gone through; three or four are the rule.
const straightRounds = 40

// straighten widens gaps until every slanting line is drawn straight: each of its stretches as much
// longer than the next along one axis as along the others. Real lengths times the shares do that for
// all lines at once, so no gap needs to be more than the largest multiple of them there is.
func straighten(gaps [3][]float64, levels *space.Space, slants []slant) {
	natural := func(a, i int) float64 { return slantShare[a] * (levels[a].Real[i+1] - levels[a].Real[i]) }
	most := 0.0
	for a := range gaps {
		for i, g := range gaps[a] {
			most = math.Max(most, g/natural(a, i))
		}
	}
	extent := func(a, from, to int) (sum, room float64) {
		for i := min(from, to); i < max(from, to); i++ {
			sum += gaps[a][i]
			room += math.Max(0, most*natural(a, i)-gaps[a][i])
		}
		return sum, room
	}
	for range straightRounds {
		moved := false
		for _, s := range slants {
			for k := 1; k < len(s.at); k++ {
				long := 0.0
				for a := range gaps {
					if sum, _ := extent(a, s.at[k-1][a], s.at[k][a]); sum > 0 && s.way[a] > 0 {
						long = math.Max(long, sum/(slantShare[a]*s.way[a]))
					}
				}
				for a := range gaps {
					sum, room := extent(a, s.at[k-1][a], s.at[k][a])
					want := long*slantShare[a]*s.way[a] - sum
					if sum == 0 || room == 0 || want < 1e-4 {
						continue
					}
					for i := min(s.at[k-1][a], s.at[k][a]); i < max(s.at[k-1][a], s.at[k][a]); i++ {
						gaps[a][i] += want * math.Max(0, most*natural(a, i)-gaps[a][i]) / room
					}
					moved = true
				}
			}
		}
		if !moved {
			return
		}
	}
}
