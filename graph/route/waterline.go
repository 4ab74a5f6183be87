package route

import (
	"math"

	"dryfit/graph"
)

// Levels tells how far below the tub's water things lie. It is worked out once of a layout.
//
// A level is known where legs lead to it from a pump, a tub's port or another part whose depth
// below the water the description gives. A part on the way whose ports no measure ties together
// counts as it is drawn, and how far its ports may differ in height is told beside it: see Loose.
// Runs known by their length alone lead nowhere, and neither does the tub, whose openings lie
// wherever they lie.
type Levels struct {
	l     *Layout
	level map[int]int        // group of Layout.Groups -> level it belongs to
	line  map[int]float64    // level -> height of the water in the layout, mm from its datum
	said  map[int]foot       // level -> the part whose depth put the water there
	apart map[string]Apart   // id of a part -> see Levels.Apart
	loose map[int]loose      // group -> see Loose; not there where every measure on the way is given
	low   map[string]float64 // id of a part -> depth of its lowest placed port, mm; not there where not known
	runs  [][]float64        // see Run
}

// foot is a part whose depth is given, and the group of the port it was counted from, below 0
// where that is not the port that is meant.
type foot struct {
	part  *graph.Part
	group int
}

// Apart is a depth below the water that the description gives of a part, against the one that
// legs from another such part lead to.
type Apart struct {
	From   *graph.Part // the part whose depth the levels stand on
	LegsMM float64     // how far the part lies below the water by the legs from there
	Tied   bool        // every measure on the way is given: no part is passed whose ports nothing ties together
}

// Levels returns the levels of a layout; of a nil layout nothing is known but what the
// description says of a part.
func (l *Layout) Levels() Levels {
	if l == nil || l.levels == nil {
		return levelsOf(l)
	}
	return l.levels()
}

func levelsOf(l *Layout) Levels {
	v := Levels{l: l, level: map[int]int{}, line: map[int]float64{}, loose: map[int]loose{}, said: map[int]foot{}, apart: map[string]Apart{}}
	if l == nil {
		return v
	}
	for _, p := range l.Circuit.Parts {
		if p.Kind == graph.Tub {
			continue
		}
		first := true
		one := 0
		for _, port := range p.Ports {
			key := p.ID + "." + port.Name
			if _, placed := l.Positions[key]; !placed {
				continue
			}
			if g := v.of(key); first {
				one, first = g, false
			} else if g != one {
				v.join(one, g)
			}
		}
	}
	for _, kind := range []graph.Kind{graph.Pump, graph.Tub} {
		for _, p := range l.Circuit.OfKind(kind) {
			v.take(p)
		}
	}
	for _, p := range l.Circuit.Parts {
		if p.Kind != graph.Pump && p.Kind != graph.Tub {
			v.take(p)
		}
	}
	v.loosen()
	v.low, v.runs = make(map[string]float64, len(l.Circuit.Parts)), make([][]float64, len(l.Paths))
	for _, p := range l.Circuit.Parts {
		if mm, ok := v.lowest(p); ok {
			v.low[p.ID] = mm
		}
	}
	for i := range l.Paths {
		v.runs[i] = v.run(i)
	}
	return v
}

// of returns the level a port belongs to.
func (v Levels) of(key string) int {
	g := v.l.Groups[key]
	if at, ok := v.level[g]; ok {
		return at
	}
	return g
}

// join makes one level of two.
func (v Levels) join(a, b int) {
	for g, at := range v.level {
		if at == b {
			v.level[g] = a
		}
	}
	v.level[a], v.level[b] = a, a
}

// take puts the water where a part's own depth below it says. A pump's eye lies at its first
// port, and so does what is said of another part; every port of a tub lies as deep as it says.
func (v Levels) take(p *graph.Part) {
	if !p.BelowWaterSet {
		return
	}
	for i, port := range p.Ports {
		key := p.ID + "." + port.Name
		at, placed := v.l.Positions[key]
		if !placed {
			continue
		}
		level, group := v.of(key), v.l.Groups[key]
		if i > 0 && p.Kind != graph.Tub {
			group = -1 // how high this port stands over the one that is meant, nothing says
		}
		if line, known := v.line[level]; !known {
			v.line[level], v.said[level] = at.Z+p.BelowWaterMM, foot{p, group}
		} else if from := v.said[level]; from.part != p {
			v.apart[p.ID] = Apart{From: from.part, LegsMM: line - at.Z, Tied: group == from.group && group >= 0}
		}
		if p.Kind != graph.Tub {
			return
		}
	}
}

// Part returns how far the lowest placed port of a part lies below the water line, mm,
// negative above it: as the description says of the part, else by the layout. It is false
// where nothing tells.
func (v Levels) Part(p *graph.Part) (mm float64, ok bool) {
	if p.BelowWaterSet {
		return p.BelowWaterMM, true
	}
	mm, ok = v.low[p.ID]
	return mm, ok
}

// Port returns how far below the water a port of a part lies, mm, negative above it: of a part whose depth
// the description gives that, of another port than its first as much higher or lower as measures tie the
// two; else by the layout, else as deep as the part. It is false where nothing tells.
func (v Levels) Port(p *graph.Part, port string) (mm float64, ok bool) {
	if !p.BelowWaterSet {
		if mm, ok = v.port(p.ID + "." + port); ok {
			return mm, true
		}
		return v.Part(p)
	}
	if v.l == nil || p.Kind == graph.Tub || len(p.Ports) == 0 {
		return p.BelowWaterMM, true
	}
	first, key := p.ID+"."+p.Ports[0].Name, p.ID+"."+port
	from, one := v.l.Positions[first]
	at, other := v.l.Positions[key]
	if !one || !other || v.l.Groups[first] != v.l.Groups[key] {
		return p.BelowWaterMM, true
	}
	return p.BelowWaterMM + from.Z - at.Z, true
}

// Apart returns where legs lead to, of a part whose own depth the description gives too. It is
// false where none do.
func (v Levels) Apart(p *graph.Part) (Apart, bool) {
	a, ok := v.apart[p.ID]
	return a, ok
}

// Opening returns how far below the water a port of a tub lies by the legs that lead to it from
// a part whose depth the description gives. It is false where none do, and where the tub gives
// its own.
func (v Levels) Opening(ref graph.PortRef) (Apart, bool) {
	mm, ok := v.port(ref.String())
	if !ok {
		return Apart{}, false
	}
	key := ref.String()
	from := v.said[v.of(key)]
	if from.part == nil || from.part.Kind == graph.Tub {
		return Apart{}, false
	}
	return Apart{From: from.part, LegsMM: mm, Tied: from.group >= 0 && from.group == v.l.Groups[key]}, true
}

// lowest is the depth of the lowest placed port of a part.
func (v Levels) lowest(p *graph.Part) (mm float64, ok bool) {
	low := math.Inf(-1)
	for _, port := range p.Ports {
		if below, ok := v.port(p.ID + "." + port.Name); ok {
			low = max(low, below)
		}
	}
	return low, !math.IsInf(low, 0)
}

// port is the depth of a port by the layout.
func (v Levels) port(key string) (mm float64, ok bool) {
	if v.l == nil {
		return 0, false
	}
	line, known := v.line[v.of(key)]
	at, placed := v.l.Positions[key]
	return line - at.Z, known && placed
}

// Rise returns how far the highest placed port of a part stands above the first port of
// another, mm, whether or not it is known where the water stands. It is false where no legs
// lead from one to the other.
func (v Levels) Rise(from, to *graph.Part) (mm float64, ok bool) {
	if v.l == nil || len(from.Ports) == 0 {
		return 0, false
	}
	base := from.ID + "." + from.Ports[0].Name
	foot, placed := v.l.Positions[base]
	if !placed {
		return 0, false
	}
	mm = math.Inf(-1)
	for _, port := range to.Ports {
		key := to.ID + "." + port.Name
		if at, placed := v.l.Positions[key]; placed && v.of(key) == v.of(base) {
			mm = max(mm, at.Z-foot.Z)
		}
	}
	return mm, !math.IsInf(mm, 0)
}

// end is the depth of a run's end: by the layout, else that of the part it ends at, whose
// ports lie at one level for all that is known.
func (v Levels) end(ref graph.PortRef) (mm float64, ok bool) {
	if mm, ok = v.port(ref.String()); ok || v.l == nil {
		return mm, ok
	}
	if p := v.l.Stage.Part(ref.Part); p != nil && p.BelowWaterSet {
		return p.BelowWaterMM, true
	}
	return 0, false
}

// Run returns how far below the water line the points of a path lie (see Path.Points), mm,
// from its start to its end: of a run known by its length alone its two ends. It is nil where
// nothing tells.
func (v Levels) Run(i int) []float64 {
	if i >= len(v.runs) {
		return nil
	}
	return v.runs[i]
}

func (v Levels) run(i int) []float64 {
	path := &v.l.Paths[i]
	first, okFirst := v.end(path.Run.From)
	last, okLast := v.end(path.Run.To)
	n := len(path.Points)
	switch {
	case n == 0 && okFirst && okLast:
		return []float64{first, last}
	case n == 0 && path.LengthMM == 0 && okFirst:
		return []float64{first, first}
	case n == 0 && path.LengthMM == 0 && okLast:
		return []float64{last, last}
	case n == 0 || !okFirst && !okLast:
		return nil
	}
	top := first + path.Points[0].Z
	if !okFirst {
		top = last + path.Points[n-1].Z
	}
	out := make([]float64, n)
	for k, p := range path.Points {
		out[k] = top - p.Z
	}
	return out
}

// Below returns how far the lowest placed port of a part lies below the water line: see
// Levels.Part. A nil layout tells nothing.
func (l *Layout) Below(p *graph.Part) (mm float64, ok bool) { return l.Levels().Part(p) }
