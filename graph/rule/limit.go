package rule

import (
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// limitRules judge what else the flows bring with them.
func limitRules() []*Rule {
	return []*Rule{
		{
			Name:     "line-least-flow",
			Asks:     "Filter, kept element and everything else in the line gets the least flow it asks for.",
			Why:      "Every bit of head the unit's branch costs is flow the rest of the line loses; a kept element trips below its least.",
			Source:   "the part's data sheet; element heaters 4.5 m3/h where it is silent (controller makers' notes, catalogue)",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    lineLeastFlow,
		},
		{
			Name:     "velocity",
			Asks:     "Water goes at most 1.83 m/s (6 ft/s) on the suction side and 2.44 m/s (8 ft/s) on the pressure side of new pipe.",
			Why:      "Faster water is heard, wears bends and takes the head that the jets are to have.",
			Source:   "ANSI/APSP/ICC-15 (2011) and International Swimming Pool and Spa Code 311.3 (2015), as described; not read in the code itself",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    velocity,
		},
		{
			Name:     "unit-temperature-rise",
			Asks:     "The water warms by at most 4 K in the unit.",
			Why:      "2 to 3 K is what units are rated at; from 4 K on low-flow protection trips, and the condensing temperature costs output.",
			Source:   "rated 2.5 K: AHRI 1160 (from memory); the 4 K from memory",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    unitTemperatureRise,
		},
		{
			Name:     "working-pressure",
			Asks:     "The pressure in every run and in the unit stays within its rating at the water's temperature in every mode.",
			Why:      "What holds at shut-off holds in use, unless two pumps drive one line.",
			Source:   "derating: PPI recommendation C (ASTM pipe) and a metric PVC-U table, in the catalogue",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    workingPressure,
		},
		{
			Name:     "pump-suction-head",
			Asks:     "The suction head available at a pump (NPSH) is above what the pump asks for at its flow.",
			Why:      "Below it the water boils in the eye: noise, no head, a worn wheel.",
			Source:   "NPSH as in ISO 9906 (from memory); the pump's data sheet",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    pumpSuctionHead,
		},
		{
			Name:     "jets-keep-flow",
			Asks:     "The jets lose at most a tenth of the flow they have today in their strongest mode.",
			Why:      "A loss in flow is nearly twice that in force at the jet, and the customer feels it.",
			Source:   "the tenth is common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    jetsKeepFlow,
		},
	}
}

// leastOf returns the flow a part of the line asks for, m³/s; 0, of no origin, where it asks for none.
func leastOf(p *settle.Part) settle.Value {
	switch {
	case p.Kind == graph.HeatPump: // judged by rules of its own
	case p.Kind == graph.ElementHeater && p.Element != nil && p.Element.Disconnected:
	default:
		return p.Least
	}
	return settle.Value{}
}

func lineLeastFlow(in *Input, report Report) {
	v := in.ask()
	for i := range in.Solutions {
		s := &in.Solutions[i]
		for k := range s.Parts {
			f := &s.Parts[k]
			asks := leastOf(v.part(f.Part))
			least := asks.V
			got := math.Abs(f.Flow)
			if least == 0 || got >= least || got < standing || v.astray(s, f) {
				continue
			}
			has, needs := v.flow(got), v.flowLimit(least)
			existing := hadTooLittle(in.BeforeSolutions, f.Part, s.Mode.Name, least, got, through)
			report(existing, graph.Diagnostic{
				Pos: key(f.Part, "least-flow"), Severity: graph.Warning,
				Mode: s.Mode.Name, Message: graph.Say("mode %q: %s %q gets %s; its least is %s", s.Mode.Name, f.Part.Kind, f.Part.ID, has, needs) + byRow(asks) + v.gotBefore(in.BeforeSolutions, f.Part, s.Mode.Name, got),
				Hint: sheetFirst(asks, "least-flow", v.moreInLine(s, f.Part, existing)),
			})
		}
	}
}

// moreInLine says what would bring a part of the line its least flow: what takes less of the water for the
// unit, where the work does and the unit is on that line.
func (v *view) moreInLine(s *hydraulic.Solution, p *graph.Part, existing bool) quantity.Text {
	for _, b := range v.branches {
		if existing || b.Pump == nil || !slices.Contains(b.Feeds(), v.net.LinePump(p)) {
			continue
		}
		open := ""
		switch e := b.Element(); {
		case e == nil:
		case e.Kind == graph.CheckValve:
			open = fmt.Sprintf("a weaker spring in %q, ", e.ID)
		case s.Mode.Opening(e) < 1:
			open = fmt.Sprintf("%q further open, ", e.ID)
		}
		return graph.Say("less loss for the unit: %slarger or shorter pipe to it, or a circulation pump of its own", open)
	}
	return "look first for a dirty filter and for valves of its line that stand half shut; then its pump moves too little"
}

// sameMode returns the solution of the mode with the name, or nil.
func sameMode(list []hydraulic.Solution, name string) *hydraulic.Solution {
	for i := range list {
		if list[i].Mode.Name == name {
			return &list[i]
		}
	}
	return nil
}

// The greatest velocities, m/s: 6 ft/s and 8 ft/s. Source: see the rule "velocity".
const (
	SuctionVelocity  = 6 * 0.3048
	PressureVelocity = 8 * 0.3048
)

func velocity(in *Input, report Report) {
	v := in.ask()
	type worst struct {
		run  *hydraulic.RunFlow
		mode string
	}
	most := map[string]worst{}
	for i := range in.Solutions {
		s := &in.Solutions[i]
		for k := range s.Runs {
			r := &s.Runs[k]
			if math.Abs(r.Velocity) > limitMS(r) && (most[r.Run.ID].run == nil || math.Abs(r.Velocity) > math.Abs(most[r.Run.ID].run.Velocity)) {
				most[r.Run.ID] = worst{r, s.Mode.Name}
			}
		}
	}
	for _, r := range v.c.Runs {
		w, ok := most[r.ID]
		if !ok || pathLength(in, r) == 0 {
			continue
		}
		sideName := "pressure"
		if w.run.Suction {
			sideName = "suction"
		}
		was := runBefore(in, r, w.mode)
		now := math.Abs(w.run.Velocity)
		if v.job && was != nil && now <= 1.01*math.Abs(was.Velocity) {
			continue // nobody touches it, and the work changes nothing there
		}
		existing, faster := !r.New(), quantity.Text("")
		if was != nil {
			before := math.Abs(was.Velocity)
			existing, faster = before > limitMS(w.run) && now <= (1+noticed)*before, v.was(now, before, "it goes", v.velocity)
		}
		hint := quantity.Text("a size larger")
		if v.unitOf(r) == "" { // a piece of a line as wide as the rest of it
			hint = "all of that line a size larger, or a pump that turns slower: one piece of it alone does little"
		}
		report(existing, graph.Diagnostic{
			Pos: r.Pos, Severity: graph.Warning, Unit: v.unitOf(r),
			Mode: w.mode, Message: graph.Say("mode %q: the water goes %s in run %q (%s, %s); on the %s side it needs %s or less", w.mode, v.velocity(now), r.Said(), v.wide(r, w.run.BoreMM), v.flow(math.Abs(w.run.Flow)), sideName, v.velocity(limitMS(w.run))) + faster,
			Hint: hint,
		})
	}
}

// wide is how wide a run is: its size, or the bore it is known by, mm.
func (v *view) wide(r *graph.Run, boreMM float64) quantity.Text {
	if r.Size.IsZero() {
		return graph.Say("bore %s", v.length(boreMM))
	}
	return quantity.Text(r.Size.String())
}

// unitOf returns the id of the unit whose pipes or bypass a run is in; "" of a run of the line.
func (v *view) unitOf(r *graph.Run) string {
	for _, b := range v.branches {
		if slices.Contains(b.ToUnitRuns, r) || slices.Contains(b.FromUnitRuns, r) || slices.Contains(b.BypassRuns, r) {
			return b.Unit.ID
		}
	}
	return ""
}

// remainsOf returns the run an old piece of pipe is left of; "" for none.
func (in *Input) remainsOf(id string) string {
	if in.After != nil {
		if r := in.After.Run(id); r != nil {
			return r.RemainsOf
		}
	}
	return ""
}

func limitMS(r *hydraulic.RunFlow) float64 {
	if r.Suction {
		return SuctionVelocity
	}
	return PressureVelocity
}

// mostRiseK is the greatest temperature rise in a unit, K, and riseTold what more of it is told: less reads
// as the same. Source: from memory.
const (
	mostRiseK = 4
	riseTold  = 0.05
)

func unitTemperatureRise(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		for _, m := range modesOf(in, b) {
			rise := m.solution.Part(b.Unit.ID).RiseK
			if rise < mostRiseK+riseTold || m.flow < standing {
				continue
			}
			name := m.solution.Mode.Name
			var was quantity.Text
			if f := partBefore(in.BeforeSolutions, b.Unit, name); f != nil {
				was = v.was(rise, riseOf(f), "it warms by", v.kelvin)
			}
			got, wanted, units := v.flow(m.flow), v.flow(m.flow*rise/mostRiseK), quantity.SystemOf(v.c.Job.Units)
			hint := graph.Say("%s would bring it down to that", wanted)
			if graph.Say("%s", got).In(units) == graph.Say("%s", wanted).In(units) {
				hint = "a little more flow would bring it down to that"
			}
			report(hadTooMuch(in.BeforeSolutions, b.Unit, name, mostRiseK, rise, riseOf), graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: graph.Warning, Unit: b.Unit.ID,
				Mode: name, Message: graph.Say("mode %q: the water warms by %s in %q at %s; it needs %s or less", name, v.kelvin(rise), b.Unit.ID, got, v.kelvin(mostRiseK)) + was,
				Hint: hint,
			})
		}
	}
}

func workingPressure(in *Input, report Report) {
	v := in.ask()
	t := v.waterC()
	worst := tellOnce{at: map[string]int{}}
	for i := range in.Solutions {
		s := &in.Solutions[i]
		for k := range s.Runs {
			r := &s.Runs[k]
			rating := v.run(r.Run).Derated.V
			if rating == 0 || r.StaticPa <= rating {
				continue
			}
			existing, was := !r.Run.New(), quantity.Text("")
			if b := runBefore(in, r.Run, s.Mode.Name); b != nil {
				existing, was = b.StaticPa > rating && r.StaticPa <= (1+noticed)*b.StaticPa, v.was(r.StaticPa, b.StaticPa, "it has", v.pressure)
			}
			worst.add("run "+r.Run.ID, existing, graph.Diagnostic{
				Pos: r.Run.Pos, Severity: graph.Error,
				Mode: s.Mode.Name, Message: graph.Say("mode %q: %s in run %q; at %s its %s %s is good for %s", s.Mode.Name, v.pressure(r.StaticPa), r.Run.Said(), v.celsius(t), r.Run.Spec, r.Run.Size, v.pressure(rating)) + was,
				Hint: "pipe of the next class, or one pump on the line",
			})
		}
		for _, b := range v.branches {
			most := v.part(b.Unit).Highest
			f, highest := s.Part(b.Unit.ID), most.V
			if f == nil || highest == 0 || f.StaticPa <= highest {
				continue
			}
			var was quantity.Text
			if old := partBefore(in.BeforeSolutions, b.Unit, s.Mode.Name); old != nil {
				was = v.was(f.StaticPa, old.StaticPa, "it has", v.pressure)
			}
			worst.add("unit "+b.Unit.ID, hadTooMuch(in.BeforeSolutions, b.Unit, s.Mode.Name, highest, f.StaticPa, static), graph.Diagnostic{
				Pos: key(b.Unit, "highest-pressure"), Severity: graph.Error,
				Mode: s.Mode.Name, Message: graph.Say("mode %q: %s at %q; it may see %s at the most", s.Mode.Name, v.pressure(f.StaticPa), b.Unit.ID, v.pressure(highest)) + byRow(most) + was,
				Hint: sheetFirst(most, "highest-pressure", "a unit for a higher pressure, or a pump with less head"),
			})
		}
	}
	worst.tell(report)
}

func pumpSuctionHead(in *Input, report Report) {
	v := in.ask()
	var tight []suction // of every pump whose level nothing gives, the mode that leaves it least
	for i := range in.Solutions {
		s := &in.Solutions[i]
		for k := range s.Parts {
			f := &s.Parts[k]
			if f.NPSHAvailableM == 0 || f.Part.Pump == nil || len(f.Part.Pump.NPSH) == 0 {
				continue
			}
			need := npshAt(f.Part.Pump.NPSH, math.Abs(f.Flow), s.Water.Density)
			if !f.NPSHKnown {
				tight = tighter(tight, suction{s, f, need})
				continue
			}
			if f.NPSHAvailableM >= need {
				continue
			}
			report(f.Part.Existing && hadLess(in, s.Mode.Name, f.Part, 0), graph.Diagnostic{
				Pos: key(f.Part, "npsh"), Severity: graph.Error,
				Mode: s.Mode.Name, Message: graph.Say("mode %q: pump %q has %s of suction head at %s; it needs %s", s.Mode.Name, f.Part.ID, v.head(f.NPSHAvailableM), v.flow(math.Abs(f.Flow)), v.head(need)),
				Hint: "clean the filter on the suction, open its valves, or shorten and widen it; never by new work between tub and pump",
			})
		}
	}
	for _, u := range tight {
		if u.spare() < highPump {
			report(u.f.Part.Existing && hadLess(in, u.s.Mode.Name, u.f.Part, highPump), v.nobodyKnowsHowDeep(u))
		}
	}
}

// mostJetsLoss is the share of their flow the jets may lose. Common practice, no source.
const mostJetsLoss = 0.10

func jetsKeepFlow(in *Input, report Report) {
	v := in.ask()
	var mode string
	var was float64
	for i := range in.BeforeSolutions {
		s := &in.BeforeSolutions[i]
		if q, _ := s.JetsFlow(); q > was {
			mode, was = s.Mode.Name, q
		}
	}
	after := sameMode(in.Solutions, mode)
	if was < standing || after == nil || !v.job {
		return
	}
	now, _ := after.JetsFlow()
	loss := 1 - now/was
	if loss <= mostJetsLoss {
		return
	}
	pos := graph.Pos{File: v.c.File}
	for _, u := range v.c.Units() {
		pos = or(pos, u.Pos)
	}
	if jets := v.c.OfKind(graph.JetGroup); len(jets) > 0 {
		pos = jets[0].Pos
	}
	report(false, graph.Diagnostic{
		Pos: pos, Severity: graph.Warning,
		Mode: mode, Message: graph.Say("mode %q: the jets get %s, %.0f %% less than today's %s; %.0f %% is the most a customer puts up with", mode, v.flow(now), 100*loss, v.flow(was), 100*mostJetsLoss),
		Hint: "a weaker spring, a bypass a size larger, or a circulation pump for the unit so that this one only drives the jets",
	})
}
