package rule

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// noticed is the share by which a flow, a rise, a pressure or a velocity that was bad before the work
// may be worse after it and still be what was there before: as much as the jets may lose. Common
// practice, no source.
const noticed = mostJetsLoss

// amount is what is judged of a part's flow.
type amount func(*hydraulic.PartFlow) float64

// through is the water that passes a part, m³/s, either way.
func through(f *hydraulic.PartFlow) float64 { return math.Abs(hydraulic.Passing(f.Flow)) }

// riseOf is by how much the water warms in a unit, K; without end where it stands.
func riseOf(f *hydraulic.PartFlow) float64 {
	if math.Abs(f.Flow) < standing {
		return math.Inf(1)
	}
	return f.RiseK
}

// static is the pressure at a part, Pa.
func static(f *hydraulic.PartFlow) float64 { return f.StaticPa }

// partBefore returns what passed a part in a mode, by solutions of the circuit before the work; nil
// where nobody knows.
func partBefore(list []hydraulic.Solution, part *graph.Part, mode string) *hydraulic.PartFlow {
	if s := sameMode(list, mode); s != nil && part.Existing {
		return s.Part(part.ID)
	}
	return nil
}

// WasTooLittle reports whether an old part's amount was below its least before the work too, and the work
// takes nothing of it that counts; all in one unit.
func WasTooLittle(was, now, least float64) bool { return was < least && now >= (1-noticed)*was }

// WasTooMuch is WasTooLittle of more than a most.
func WasTooMuch(was, now, most float64) bool { return was > most && now <= (1+noticed)*was }

// hadTooLittle reports whether an old part had less than a least of an amount in a mode before the
// work too, and the work takes nothing of it that counts: before holds the solutions of that time.
// Where that is not known, it was so. Of a new part nothing was so.
func hadTooLittle(before []hydraulic.Solution, part *graph.Part, mode string, least, now float64, of amount) bool {
	if !part.Existing {
		return false
	}
	f := partBefore(before, part, mode)
	return f == nil || WasTooLittle(of(f), now, least)
}

// hadTooMuch is hadTooLittle of more than a most.
func hadTooMuch(before []hydraulic.Solution, part *graph.Part, mode string, most, now float64, of amount) bool {
	if !part.Existing {
		return false
	}
	f := partBefore(before, part, mode)
	return f == nil || WasTooMuch(of(f), now, most)
}

// gotBefore says what an old part got in a mode before the work; "" where it gets as much now, as it
// is printed, or nobody knows.
func (v *view) gotBefore(before []hydraulic.Solution, part *graph.Part, mode string, now float64) quantity.Text {
	f := partBefore(before, part, mode)
	if f == nil {
		return ""
	}
	return v.was(now, through(f), "it gets", v.flow)
}

// was says what an amount was before the work; "" where it prints as the same.
func (v *view) was(now, was float64, verb string, of func(float64) quantity.Amount) quantity.Text {
	units := quantity.SystemOf(v.c.Job.Units)
	if math.IsInf(was, 0) || graph.Say("%s", of(now)).In(units) == graph.Say("%s", of(was)).In(units) {
		return ""
	}
	return graph.Say("; before the work %s %s", verb, of(was))
}

// runBefore returns what passed an old run in a mode before the work, or the run it is left of; nil
// where nobody knows.
func runBefore(in *Input, run *graph.Run, mode string) *hydraulic.RunFlow {
	s := sameMode(in.BeforeSolutions, mode)
	if s == nil || run.New() {
		return nil
	}
	for i := range s.Runs {
		if b := &s.Runs[i]; b.Run.ID == run.ID || b.Run.ID == in.remainsOf(run.ID) {
			return b
		}
	}
	return nil
}

// neverGot reports whether an old unit got a flow in no mode before the work, or nobody knows.
func neverGot(in *Input, unit *graph.Part, flow float64) bool {
	if !unit.Existing {
		return false
	}
	for i := range in.BeforeSolutions {
		if was := in.BeforeSolutions[i].Part(unit.ID); was != nil && math.Abs(was.Flow) >= flow {
			return false
		}
	}
	return true
}

// tellOnce is what is told once of each thing, in the order it was found: of the first mode in which
// the work makes it so, else of the first in which it is so.
type tellOnce struct {
	at   map[string]int
	told []onceTold
}

type onceTold struct {
	existing bool
	d        graph.Diagnostic
}

func (t *tellOnce) add(thing string, existing bool, d graph.Diagnostic) {
	at, been := t.at[thing]
	switch {
	case !been:
		t.at[thing] = len(t.told)
		t.told = append(t.told, onceTold{existing, d})
	case t.told[at].existing && !existing:
		t.told[at] = onceTold{existing, d}
	}
}

func (t *tellOnce) tell(report Report) {
	for _, one := range t.told {
		report(one.existing, one.d)
	}
}
