package rule

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// liftRules say how high above the water a unit and its pipes may stand.
func liftRules() []*Rule {
	return []*Rule{
		{
			Name:     "pump-lifts-to-unit",
			Asks:     "In every mode in which the unit is to heat, its pump's shut-off head is above the highest point of the unit and its pipes, counted from the water.",
			Why:      "Water leaves the tub no higher than that: what stands above it never fills by itself, and filled by hand it hangs as a siphon that is lost at a stop.",
			Source:   "hydrostatics: at no flow a pump holds a column as high as its shut-off head",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    pumpLiftsToUnit,
		},
		{
			Name:     "unit-above-air-pressure",
			Asks:     "While the pump runs the pressure at a bleed of the unit's pipes is not below that of the air, and at the unit and its unions not by more than 1 m of water.",
			Why:      "Below it every leak draws air in instead of letting water out, and so does a bleed that is opened.",
			Source:   "hydrostatics: the pressure falls with the height above the water",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    unitAboveAirPressure,
		},
	}
}

// lift is what the pumps before a unit hold up at no flow in a mode.
type lift struct {
	mode  string
	pumps []*graph.Part
	headM float64 // m of water, the most they come to: of pumps in series the sum, of pumps side by side the greatest
}

// words names what lifts: `pump "a" lifts`, `pumps "a" and "b" in series lift`.
func (l lift) words() quantity.Text {
	if len(l.pumps) == 1 {
		return graph.Say("pump %q lifts", l.pumps[0].ID)
	}
	return graph.Say("pumps %s in series lift", partNames(l.pumps))
}

// lifts returns those of the modes in which a unit is meant to have flow; a mode in which the
// curve of one of the pumps is not known is left out.
func (v *view) lifts(in *Input, b branch) []lift {
	var out []lift
	for _, m := range modesOf(in, b) {
		loads, known := v.running(m.solution, b.up.HasPart)
		i := slices.IndexFunc(loads, func(l *load) bool { return l.on.HasPart(b.Unit.ID) })
		if !known || i < 0 {
			continue
		}
		l := lift{mode: m.solution.Mode.Name, headM: loads[i].headM()}
		for one := loads[i]; one != nil; one = one.before {
			l.pumps = append(l.pumps, one.pump.Part)
		}
		out = append(out, l)
	}
	return out
}

// running are the loads of those pumps among some that run in a solution, each at its speed there, the most first;
// known: the curve of each is.
func (v *view) running(s *hydraulic.Solution, among func(id string) bool) (loads []*load, known bool) {
	for _, p := range v.c.Pumps() {
		if !among(p.ID) || !runsIn(s, p) {
			continue
		}
		offs := shutOffs(v.part(p), v.set.Water)
		k := slices.IndexFunc(offs, func(off shutOff) bool { return off.speed == s.Mode.Speeds[p.ID] })
		if k < 0 && len(offs) == 1 && len(v.part(p).Speeds.V) == 1 {
			k = 0
		}
		if k < 0 {
			return nil, false
		}
		loads = append(loads, &load{off: offs[k], pump: v.part(p), on: v.net.Pressed(p)})
	}
	chain(loads)
	mostFirst(loads)
	return loads, true
}

// top returns how far the highest point of a unit and its pipes stands above the water, mm, of
// those whose level is known, and what it is.
func (v *view) top(b branch) (mm float64, what quantity.Text, known bool) {
	mm = math.Inf(-1)
	for _, p := range v.raised(b) {
		if below, ok := v.levels.Part(p); ok && -below > mm {
			mm, what = -below, called(b, p)
		}
	}
	for _, runs := range [][]*graph.Run{b.ToUnitRuns, b.FromUnitRuns, b.StubRuns} {
		for _, r := range runs {
			points := v.levels.Run(v.runAt[r.ID])
			if len(points) == 0 {
				continue
			}
			if up := -slices.Min(points); up > mm+graph.LevelMM {
				mm, what = up, graph.Say("run %q", r.Said())
			}
		}
	}
	return mm, what, !math.IsInf(mm, 0)
}

// called names a part on a unit's pipes, or the unit itself.
func called(b branch, p *graph.Part) quantity.Text {
	if p == b.Unit {
		return graph.Say("%q", p.ID)
	}
	return graph.Say("%s %q", p.Kind, p.ID)
}

// raised are the unit and the parts on its pipes.
func (v *view) raised(b branch) []*graph.Part {
	return slices.Concat([]*graph.Part{b.Unit}, b.ToUnitParts, b.FromUnitParts, b.StubParts)
}

func pumpLiftsToUnit(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		all := v.lifts(in, b)
		mm, what, known := v.top(b)
		if !known {
			v.liftUnknown(b, all, report)
			continue
		}
		var weakest, able *lift
		for i := range all {
			l := &all[i]
			switch {
			case l.headM*1000 > mm:
				able = l
			case weakest == nil || l.headM < weakest.headM:
				weakest = l
			}
		}
		if weakest == nil {
			continue
		}
		d := graph.Diagnostic{Pos: key(b.Unit, "below-water"), Severity: graph.Error, Related: []graph.Related{here(weakest.pumps[0])}}
		d.Mode = weakest.mode
		d.Message = graph.Say("mode %q: %s stands %s above the water; %s water %s at most (shut-off), %s too little: from the tub it never fills %q",
			weakest.mode, what, v.length(mm), weakest.words(), v.length(weakest.headM*1000), v.length(mm-weakest.headM*1000), b.Unit.ID)
		d.Hint = graph.Say("lead the unit and its pipes lower than %s above the water, or take a pump with a shut-off head above %s; filled by hand the water hangs as a siphon, and is lost when the pump stops and air comes in",
			v.length(weakest.headM*1000), v.length(mm))
		if able != nil {
			d.Message += graph.Say("; mode %q lifts it %s, but what it filled only hangs there in mode %q", able.mode, v.length(able.headM*1000), weakest.mode)
		}
		report(b.Unit.Existing, d)
	}
}

// liftUnknown warns of a unit of unknown level that the legs lead as high above its pump as the
// pump lifts, or higher: then only the depth of the pump below the water decides.
func (v *view) liftUnknown(b branch, all []lift, report Report) {
	if len(all) == 0 {
		return
	}
	weakest := all[0]
	for _, l := range all {
		if l.headM < weakest.headM {
			weakest = l
		}
	}
	rise, top := math.Inf(-1), b.Unit
	for _, p := range v.raised(b) {
		if mm, ok := v.levels.Rise(b.Pump, p); ok && mm > rise {
			rise, top = mm, p
		}
	}
	if math.IsInf(rise, -1) {
		v.liftUntied(b, weakest, report)
		return
	}
	if rise < weakest.headM*1000 {
		return
	}
	report(b.Unit.Existing, graph.Diagnostic{
		Pos: key(b.Unit, "below-water"), Severity: graph.Warning, Related: []graph.Related{here(b.Pump)},
		Mode: weakest.mode, Message: graph.Say("mode %q: %s stands %s above pump %q, and %s water %s at most above the tub's (shut-off); nothing says how far below the water that pump lies",
			weakest.mode, called(b, top), v.length(rise), b.Pump.ID, weakest.words(), v.length(weakest.headM*1000)),
		Hint: graph.Say("measure from the water line down to the eye of %q and write below-water on it: more than %s is needed, or the unit and its pipes led lower", b.Pump.ID, v.length(rise-weakest.headM*1000)),
	})
}

// raisedMM is how far above the water a unit of unknown level may stand, mm: on a terrace above a sunken
// pool, on a bracket at the wall. Judgement, no source.
const raisedMM = 1500

// liftUntied warns of a unit that no legs lead to from its pump, where that lifts no higher than a unit
// may stand.
func (v *view) liftUntied(b branch, weakest lift, report Report) {
	if weakest.headM*1000 > raisedMM {
		return
	}
	report(b.Unit.Existing, graph.Diagnostic{
		Pos: key(b.Unit, "below-water"), Severity: graph.Warning, Related: []graph.Related{here(b.Pump)},
		Mode: weakest.mode, Message: graph.Say("mode %q: %s water %s at most above the tub's (shut-off), and nothing says how high %q stands",
			weakest.mode, weakest.words(), v.length(weakest.headM*1000), b.Unit.ID),
		Hint: graph.Say("measure from the water line to the highest point of %q and write below-water on it, above the water with a minus: less than %s above it", b.Unit.ID, v.length(weakest.headM*1000)),
	})
}

// leastPull returns how far below the air's the pressure at a part must be to be told, Pa: at a
// bleed, which draws air in whenever it is opened, 10 mm of water, as near as a level is
// measured; at a joint a metre of water, which a sound one holds before any pump too. Common
// practice, no source.
func (v *view) leastPull(p *graph.Part) float64 {
	if p.Kind == graph.AirBleed {
		return 0.01 * v.set.Water.Metre()
	}
	return v.set.Water.Metre()
}

func unitAboveAirPressure(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		var worst *hydraulic.PartFlow
		var mode string
		var pulled []*graph.Part
		for _, m := range modesOf(in, b) {
			for _, p := range v.raised(b) {
				if p != b.Unit && p.Kind != graph.Union && p.Kind != graph.AirBleed || v.net.Suction(b.Pump).HasPart(p.ID) {
					continue
				}
				f := m.solution.Part(p.ID)
				if f == nil || !f.LevelKnown || f.StaticPa > -v.leastPull(p) {
					continue
				}
				if !slices.Contains(pulled, p) {
					pulled = append(pulled, p)
				}
				if worst == nil || f.StaticPa < worst.StaticPa {
					worst, mode = f, m.solution.Mode.Name
				}
			}
		}
		if worst == nil {
			continue
		}
		// Less pipe takes more water, and of that its pressure falls again: a thirtieth more, to
		// whole centimetres. Judgement; held by a test that follows it.
		lower := math.Ceil(-worst.StaticPa/v.set.Water.Metre()*1000*31/30/10) * 10
		least := 0.0
		if worst.Part.Kind != graph.AirBleed {
			least = -v.leastPull(worst.Part)
		}
		d := graph.Diagnostic{Pos: b.Unit.Pos, Severity: graph.Warning, Related: []graph.Related{here(worst.Part)}}
		d.Mode = mode
		d.Message = graph.Say("mode %q: %s at %s while the pump runs, below the air's pressure; it needs %s or more", mode, v.pressure(worst.StaticPa), called(b, worst.Part), v.pressure(least))
		pulled = slices.DeleteFunc(pulled, func(p *graph.Part) bool { return p == worst.Part })
		if len(pulled) > 0 {
			d.Message += graph.Say("; at %s it is below the air's too", partNames(pulled))
		}
		d.Hint = v.lowerHint(b, worst.Part, lower) + "; else every leak there draws air in, and no bleed or union there may be opened, with the pump running or not"
		report(b.Unit.Existing && worst.Part.Existing, d)
	}
}

// lowerHint says what comes down by a length, mm, for a part on a unit's pipes to: the unit with its
// pipes; the pipes alone, where they stand over the unit; or the line, where that is as high itself.
func (v *view) lowerHint(b branch, p *graph.Part, mm float64) quantity.Text {
	below, _ := v.levels.Part(p)
	needed, line := below+mm, 0.0
	for _, tee := range []*graph.Part{b.TeeIn, b.TeeOut} {
		if tee == nil {
			continue
		}
		if at, ok := v.levels.Part(tee); ok {
			line = max(line, needed-at)
		}
	}
	if line > graph.LevelMM {
		return graph.Say("cut the line where it lies %s lower or more, and lead the unit and its pipes no higher than that, to the air's pressure", v.length(math.Ceil(line/10)*10))
	}
	if at, ok := v.levels.Part(b.Unit); ok && at >= needed {
		return graph.Say("lead the unit's pipes, which rise above it to %s, %s lower there or more, to the air's pressure", called(b, p), v.length(mm))
	}
	return graph.Say("lead the unit and its pipes %s lower or more, to the air's pressure", v.length(mm))
}
