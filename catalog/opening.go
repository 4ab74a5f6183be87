package catalog

import "sync"

// opening is the opening curve of a kind of hand valve.
type opening struct {
	curve  [][2]float64
	source string
}

var openings = sync.OnceValue(func() map[string]opening {
	out := map[string]opening{}
	s := readSheet("openings.csv")
	for _, line := range s.lines {
		var r Row
		v, err := cellValue(points, line[1])
		if err == nil {
			err = setOpening(&r, v)
		}
		if err != nil {
			panic("catalog: " + s.name + ": " + err.Error())
		}
		out[line[0]] = opening{r.Opening, line[2]}
	}
	return out
})

// Opening returns how much of its full-open Kv a hand valve of the kind keeps as it is shut
// (share open, share of Kv; both 0 to 1, rising), for a valve whose row has no curve of its
// own, and where that comes from; nil for other kinds. It is assumed for whatever valve is
// fitted.
func Opening(kind string) (curve [][2]float64, source string) {
	o := openings()[kind]
	return o.curve, o.source
}
