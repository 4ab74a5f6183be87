package spread

import (
	"cmp"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// unknown is one input that is not known exactly.
type unknown struct {
	what       string // in words
	number     settle.Number
	part       string   // id; "" for a class
	at         []string // ids of the parts and runs it was met at
	slot       string   // what it is one of, see slots
	coordinate int      // of the sample
	span       tables.Span
	adds       bool // span is added to the number, not a share of it
	set        func(m *hydraulic.Model, p *hydraulic.Perturb, value float64)
	used       used
	// power of the number a loss goes with, where that is more than one: four of a nozzle's bore, five of
	// a pipe's; for what is worth moving.
	power float64
	taken *float64    // what it is taken as by what was read; nil: as described
	by    []graph.Pos // where that was read
}

// used is what was used for an unknown, and whose word that is.
type used struct {
	key    settle.Key    // of the settled value; zero: value says it
	value  quantity.Text // in words, where no settled value says it
	source quantity.Text
	given  bool // the description says it
	guess  bool // nobody gave it, or the description says it is assumed
}

// byClass is what a class of the spreads says of a number that no settled value holds.
func byClass(class string, value quantity.Text) used {
	source := tables.SpreadSource(class, assumed)
	return used{value: value, source: source, guess: true}
}

// bySettled is a settled value of a part or run, as well known as that is.
func bySettled(key settle.Key, from settle.Origin, known graph.Knowledge) used {
	given := from.How == settle.Given || from.How == settle.OwnRow
	return used{key: key, source: quantity.Text(from.Row) + from.Why, given: given, guess: !given || known == graph.Assumed}
}

// value returns what the unknown is at a quantile u, 0 to 1: a factor, or what is added.
func (u *unknown) value(at float64) float64 { return u.standard(deviations(at)) }

// standard returns what the unknown is so many standard deviations from its middle.
func (u *unknown) standard(z float64) float64 {
	if u.adds {
		return u.span.Middle + aside(z, u.span.Middle-u.span.Low, u.span.High-u.span.Middle)
	}
	return factorAside(z, u.span)
}

// asDescribed is the value that leaves the description as it is.
func (u *unknown) asDescribed() float64 {
	if u.adds {
		return 0
	}
	return 1
}

// asWideAs makes what is off together as little known as the least known of what it was met at, in its span
// and in whose word it is: one run measured makes the others no surer, and the order of the file decides nothing.
func (u *unknown) asWideAs(other *unknown) {
	if other.span.High-other.span.Low > u.span.High-u.span.Low {
		u.span, u.used = other.span, other.used
	} else if other.span == u.span && other.used.value != u.used.value {
		u.used.value = eachItsOwn
	}
}

// eachItsOwn is what was used of what is off together and is not alike: no one of them stands for all.
const eachItsOwn = "each its own"

// unknowns lists what moves the models of what may be off, in the order of the circuit: a walk
// over what was settled. The same number in several models (before and after, every mode) is
// one unknown. What one handbook gives is off together: K of all fittings is one unknown, and
// so are the bore of all pipe of one spec and the joints of one hand's work.
func unknowns(models []*hydraulic.Model) []unknown {
	var out []unknown
	seen := map[string]int{} // its place in out
	for _, m := range models {
		runs := map[string]*hydraulic.ModelRun{}
		for i := range m.Runs {
			runs[m.Runs[i].Run.ID] = &m.Runs[i]
		}
		for _, n := range m.Layout.Stage.Unknowns() {
			var list []unknown
			if n.OfRun {
				list = ofRun(runs[n.At], n)
			} else {
				list = ofPart(m, &m.Parts[m.PartAt[n.At]], n)
			}
			for i := range list {
				u := &list[i]
				key := u.what + "\x00" + u.part
				k, known := seen[key]
				if !known && u.span.High > u.span.Low {
					k, known = len(out), true
					seen[key] = k
					u.takenBy(m.Layout.Circuit.Fit)
					out = append(out, *u)
				}
				if known {
					out[k].met(n.At)
					out[k].asWideAs(u)
				}
			}
		}
	}
	return out
}

// start is an unknown as it was settled, of a part of a kind or of a run, without what it moves.
func start(n settle.Unknown, kind graph.Kind) unknown {
	u := unknown{what: n.Class, number: n.Number, span: n.Span, adds: n.Adds, slot: slotOf(n, kind)}
	if n.Class == "" {
		u.what, u.part = n.Words, n.Whose
	}
	return u
}

const assumed = "assumed"

// onLoss returns what sets the factor of a part's loss to a power of a value.
func onLoss(id string, power float64) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
		timesPart(m, &q.Loss, id, math.Pow(v, power))
	}
}

// compareInfluence puts what matters most first.
func compareInfluence(a, b Influence) int {
	return cmp.Or(compareAlike(b.Effect, a.Effect), cmp.Compare(a.What, b.What), cmp.Compare(a.Mode, b.Mode))
}

// CompareHarm puts first what moves the unit's or any jets' flow most (the pump's where there is
// neither), of what moves as much what moves the pump's head more.
func CompareHarm(a, b *Influence) int {
	return cmp.Or(compareAlike(max(b.Harm(), b.Jets), max(a.Harm(), a.Jets)), compareAlike(b.Head, a.Head))
}

// compareAlike compares two effects, of which those count as one that are alike.
func compareAlike(a, b float64) int {
	return cmp.Compare(math.Round(a/alike), math.Round(b/alike))
}
