package spread

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// stands is what the line of each running pump may have put on it: what it stands, warm, less
// the weight of the water above it. Index: the pump's, in parts.
type stands struct {
	unit    map[int]limit // of the unit, where the pump is the one it hangs on
	pipe    map[int]limit // of the weakest pipe or fitting after the pump
	weakest string        // id of what has least left, of all, over what its pump puts on it as described
	metre   float64       // of the water, Pa
	// Ids of the pumps that press most on the unit, and on the weakest pipe or fitting.
	unitPump, pipePump string
	// Ids of the unit, and of the weakest pipe or fitting, where nothing says how far below the
	// water it lies; "" where it is known, or there is none.
	unitLevel, pipeLevel string
}

// limit is what is left of a rating for the pump, Pa: of the weakest whose level is known, and
// of the weakest whose level is not, as if that lay at the water's surface; and what hangs on parts
// whose ports no measure ties together.
type limit struct {
	known, unknown float64
	hung           []hung
}

// hung is a rating, Pa, of what lies so far below the water as it is drawn, and by how much it may lie
// deeper or higher, m.
type hung struct{ rating, below, loose float64 }

var noLimit = limit{known: math.Inf(1), unknown: math.Inf(1)}

// least is what is left where all of unknown level lies so far below the water, m, and what hangs
// loosely as far from where it is drawn as that is from its middle.
func (l limit) least(depth, metre float64) float64 {
	least := min(l.known, l.unknown-depth*metre)
	at := level()
	side := depth/at.Middle - 1
	if depth > at.Middle {
		side = (depth - at.Middle) / (at.High - at.Middle)
	}
	for _, h := range l.hung {
		least = min(least, h.rating-max(h.below+side*h.loose, 0)*metre)
	}
	return least
}

// hang is take of what may lie deeper or higher than it is drawn, mm.
func (l limit) hang(rating, belowMM, looseMM float64, known bool, metre float64) limit {
	if !known || looseMM == 0 {
		return l.take(rating, belowMM, known, metre)
	}
	l.hung = append(slices.Clip(l.hung), hung{rating, belowMM / 1000, looseMM / 1000})
	return l
}

// take lowers a limit to what is left of a rating, at a level in mm below the water.
func (l limit) take(rating, belowMM float64, known bool, metre float64) limit {
	if !known {
		l.unknown = min(l.unknown, rating)
		return l
	}
	l.known = min(l.known, rating-max(belowMM, 0)/1000*metre)
	return l
}

// alikePa is how much less one must have left than another to be the weaker, Pa.
const alikePa = 1

// levelClass is the class of the spreads that level is of.
const levelClass = tables.SpreadLevel

// level is how far below the water something lies of which nothing says it, in m.
func level() tables.Span {
	return tables.Spread(levelClass, assumed)
}

// standsOf finds what stands least after each pump that runs in a mode; likely is the mode as described.
func standsOf(m *hydraulic.Model, likely *hydraulic.Solution, lay *route.Layout, unit int) stands {
	set, levels := lay.Stage, lay.Levels()
	out := stands{unit: map[int]limit{}, pipe: map[int]limit{}, metre: set.Water.Metre()}
	least := math.Inf(1)
	for _, i := range strongestFirst(m, likely) {
		under := set.Net().Downstream(m.Parts[i].Part)
		take := func(id string, rating, belowMM, looseMM float64, known bool) {
			if rating <= 0 {
				return
			}
			old, ok := out.pipe[i]
			if !ok {
				old = noLimit
			}
			out.pipe[i] = old.hang(rating, belowMM, looseMM, known, out.metre)
			left := noLimit.hang(rating, belowMM, looseMM, known, out.metre).least(level().High, out.metre) - likely.Parts[i].GreatestPa
			if left < least-alikePa {
				least, out.weakest, out.pipeLevel, out.pipePump = left, id, "", m.Parts[i].Part.ID
				if !known {
					out.pipeLevel = id
				}
			}
		}
		for _, r := range under.Runs { // of those alike the nearest to the pump is named
			k := m.RunAt[r.ID]
			deepest := 0.0
			for _, mm := range m.Below[k] {
				deepest = max(deepest, mm)
			}
			loose, _ := levels.LooseRun(k)
			take(r.ID, set.Run(r.ID).Derated.V, deepest, loose, len(m.Below[k]) > 0)
		}
		for _, of := range under.Parts {
			k := m.PartAt[of.ID]
			q := &m.Parts[k]
			loose, _ := levels.Loose(q.Part)
			if q.Part.Kind.Plumbing() {
				take(q.Part.ID, set.Part(q.Part.ID).Derated.V, q.Below, loose, q.LevelKnown())
			}
			if highest := set.Part(q.Part.ID).Highest.V; k == unit && highest > 0 && q.Part.Kind == graph.HeatPump {
				out.unit[i], out.unitPump = noLimit.hang(highest, q.Below, loose, q.LevelKnown(), out.metre), cmp.Or(out.unitPump, m.Parts[i].Part.ID)
				if !q.LevelKnown() {
					out.unitLevel = q.Part.ID
				}
			}
		}
	}
	return out
}

// strongestFirst are the pumps that run, by what they put on their lines; those alike by their ids.
func strongestFirst(m *hydraulic.Model, likely *hydraulic.Solution) []int {
	var out []int
	for i := range m.Parts {
		if m.Parts[i].Pump != nil {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(cmp.Compare(likely.Parts[b].GreatestPa, likely.Parts[a].GreatestPa), cmp.Compare(m.Parts[a].Part.ID, m.Parts[b].Part.ID))
	})
	return out
}

// press keeps by how much unit and pipe stand more than what the pumps of a sample put on them,
// where what is of unknown level lies so far below the water, m.
func (m *spreadMode) press(sol *hydraulic.Solution, past bool, depth float64) {
	margin := func(of map[int]limit) (float64, bool) {
		least := math.Inf(1)
		for i, left := range of {
			least = min(least, left.least(depth, m.stands.metre)-sol.Parts[i].GreatestPa)
		}
		return least, len(of) > 0
	}
	if v, ok := margin(m.stands.unit); ok {
		m.unitMargin = append(m.unitMargin, sampled{v, past})
	}
	if v, ok := margin(m.stands.pipe); ok {
		m.pipeMargin = append(m.pipeMargin, sampled{v, past})
	}
}
