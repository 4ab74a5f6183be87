package tables

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dryfit/catalog/data"
)

// opening is the loss of a kind of hand valve as it is shut.
type opening struct {
	k      [][2]float64 // share open -> K on the bore, rising in share
	source string
}

var openings = sync.OnceValue(func() map[string]opening {
	out := map[string]opening{}
	s := data.Read("openings.csv")
	for _, line := range s.Lines {
		o := opening{source: line[2]}
		for item := range strings.SplitSeq(line[1], ";") {
			at, k, _ := strings.Cut(item, "%:")
			x, err := strconv.ParseFloat(strings.TrimSpace(at), 64)
			if err != nil {
				panic(fmt.Sprintf("catalog: %s: %v", s.Name, err))
			}
			o.k = append(o.k, [2]float64{x / 100, s.Number(strings.TrimSpace(k))})
		}
		out[line[0]] = o
	}
	return out
})

// OpeningK returns K [-] of a hand valve of a kind on its bore at a share open between 0 and
// 1, and where that comes from; full is its K fully open. Between the points of the table
// its logarithm goes straight with the share; nearer to shut than the first point K goes on
// by the power of the share that the first two points have, to +Inf shut. Points that lose no
// more than the valve does fully open are of a better valve and are left out: no valve loses
// more for being opened. For kinds that have no table, or no point left, K goes by the square
// of the share.
func OpeningK(kind string, share, full float64) (k float64, source string) {
	o, ok := openings()[kind]
	switch {
	case share >= 1:
		return full, o.source
	case share <= 0:
		return math.Inf(1), o.source
	}
	var points [][2]float64
	if ok {
		points = slices.DeleteFunc(slices.Clone(o.k), func(p [2]float64) bool { return p[1] <= full })
	}
	if len(points) == 0 {
		return full / (share * share), "K by the square of the share open: common practice, no source"
	}
	points = append(points, [2]float64{1, max(full, 1e-3)})
	i := 0
	for i < len(points)-2 && share > points[i+1][0] {
		i++
	}
	a, b := points[i], points[i+1]
	x := (share - a[0]) / (b[0] - a[0])
	if x < 0 {
		x = math.Log(share/a[0]) / math.Log(b[0]/a[0])
	}
	return math.Exp(math.Log(a[1]) + x*math.Log(b[1]/a[1])), o.source
}

// CurveK returns K [-] of a hand valve at a share open by a maker's curve, whose Kv goes from nothing to
// that of the valve fully open; full is its K fully open.
func CurveK(curve [][2]float64, share, full float64) float64 {
	s := max(OpenShare(curve, share), 1e-3)
	return full / (s * s)
}

// OpenShare returns the share of the fully open Kv on a maker's curve, by straight lines
// between its points; the share open where there is none.
func OpenShare(curve [][2]float64, position float64) float64 {
	x0, y0 := 0.0, 0.0
	for _, p := range curve {
		if position <= p[0] {
			return onLine(position, x0, y0, p[0], p[1])
		}
		x0, y0 = p[0], p[1]
	}
	return onLine(position, x0, y0, 1, 1)
}

// onLine is what a straight line through two points has at x.
func onLine(x, x0, y0, x1, y1 float64) float64 {
	if x1 <= x0 {
		return y1
	}
	return y0 + (min(x, x1)-x0)/(x1-x0)*(y1-y0)
}
