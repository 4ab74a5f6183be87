package rule

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// heatRules say what becomes of the element heater and how warm the water may be.
func heatRules() []*Rule {
	return []*Rule{
		{
			Name:     "element-state",
			Asks:     "An element heater on the tub is declared disconnected, or its interlock with the unit is named.",
			Why:      "Two heaters that don't know of each other heat against each other, and an element that heats without flow boils its tube dry.",
			Source:   "common practice, no source; the work itself is a qualified electrician's (IEC 60364-7-702)",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    elementState,
		},
		{
			Name:     "switch-proves-flow",
			Asks:     "What a flow or pressure switch before the unit proves is known: not that the unit has its flow.",
			Why:      "A pressure switch proves pressure: the unit's back pressure can hold it closed with almost no flow. A flow switch in the line proves the line's flow, which the bypass keeps up when the unit has none.",
			Source:   "heating and ventilation service practice; no standard",
			Severity: graph.Warning,
			Check:    switchProvesFlow,
		},
		{
			Name:     "water-is-heated",
			Asks:     "The water is kept warm enough for a heat pump to heat it: 15 °C or more, no colder than the tap's and than the coldest air.",
			Why:      "Colder water has to be cooled: what a unit gives as a heater says nothing of that, and its exchanger may freeze.",
			Source:   "common practice, no source: heat pumps for pools and tubs are set from 15 °C up",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    waterIsHeated,
		},
		{
			Name:     "one-water-described",
			Asks:     "Where the pipes of two tubs never meet, [water] describes that which the unit heats.",
			Why:      "Both are worked out at one temperature. Of the unit's it decides heat, ratings and what the unit gets; of the other how easily its water flows in old pipe.",
			Source:   "friction of smooth pipe by the fourth root of the viscosity (Blasius, from memory)",
			Severity: graph.Note,
			Anywhere: true,
			Check:    oneWaterDescribed,
		},
		{
			Name:     "water-not-above-40",
			Asks:     "The water is 40 °C at most.",
			Why:      "Hotter water harms bathers, and the pipe's rating falls fast.",
			Source:   "EN 17125, IEC 60335-2-60 and UL 1563: 40 °C (104 °F) at most (from memory)",
			Severity: graph.Error,
			Anywhere: true,
			Check:    waterNotAbove40,
		},
	}
}

func elementState(in *Input, report Report) {
	v := in.ask()
	unit := v.c.TheUnit()
	if unit == nil {
		unheated(v, report)
		return
	}
	for _, e := range v.c.OfKind(graph.ElementHeater) {
		if v.net.Apart(e) || e.Element != nil && (e.Element.Disconnected || e.Element.Interlock != "") {
			continue
		}
		// What becomes of it is part of the job, though the element was there before.
		report(unit.Existing, graph.Diagnostic{
			Pos: e.Pos, Severity: graph.Warning, Related: []graph.Related{here(unit)},
			Message: graph.Say("what becomes of element heater %q is not said: 0 of disconnected = true and interlock given, needs 1", e.ID),
			Hint:    "settle it with the electrician, then write disconnected = true, or what keeps the two apart: interlock = \"contact\", \"changeover\", \"set-point\" (with its set-point) or \"controller-mode\"",
		})
	}
}

// unheated reports that the elements of a job without a heat pump are all disconnected, and nothing else heats water
// that has to be heated.
func unheated(v *view, report Report) {
	off := v.c.OfKind(graph.ElementHeater)
	if v.set.KeptCold() || len(off) == 0 || len(v.net.OtherSources()) > 0 || slices.ContainsFunc(off, func(e *graph.Part) bool { return e.Element == nil || !e.Element.Disconnected }) {
		return
	}
	report(false, graph.Diagnostic{
		Pos: key(off[0], "disconnected"), Severity: graph.Warning,
		Message: graph.Say("%s disconnected, and no heat pump is described: 0 sources heat the water, needs 1", areOff(off)),
		Hint:    "describe the unit that is to be fitted, for then it heats until that is done; or write disconnected = false of the tub as it stands",
	})
}

// areOff names elements that are off: "element heater \"a\" is", "element heaters \"a\" and \"b\" are".
func areOff(elements []*graph.Part) quantity.Text {
	if len(elements) == 1 {
		return graph.Say("element heater %q is", elements[0].ID)
	}
	return graph.Say("element heaters %s are", partNames(elements))
}

func waterIsHeated(in *Input, report Report) {
	v := in.ask()
	unit := v.c.TheUnit()
	t := v.waterC()
	if unit == nil || !v.c.Site.KeptCold(t) {
		return
	}
	below := quantity.Temperature.Of(graph.HeatedFromC)
	switch s := v.c.Site; {
	case s.FillC.Set && t < s.FillC.V:
		below = quantity.Temperature.Of(s.FillC.V)
	case s.AirSet && t < s.AirC:
		below = quantity.Temperature.Of(s.AirC)
	}
	report(unit.Existing, graph.Diagnostic{
		Pos: or(v.c.Water.KeyPos["temperature"], v.c.Water.Pos), Severity: graph.Warning, Related: []graph.Related{here(unit)},
		Message: graph.Say("the water is kept at %s; below %s %q would have to cool it", v.celsius(t), below, unit.ID),
		Hint:    "flows, pipes and lists hold; of heat nothing is worked out: have the maker say what it cools at this water and the warmest air, how cold its water may be set, and what keeps its exchanger from freezing",
	})
}

// oneWaterDescribed tells of tubs of another water than the unit's: there is one [water] for all.
func oneWaterDescribed(in *Input, report Report) {
	v := in.ask()
	unit := v.c.TheUnit()
	if unit == nil {
		return
	}
	for _, tub := range v.c.OfKind(graph.Tub) {
		if !v.net.Apart(tub) {
			continue
		}
		t, other := v.waterC(), coldTub
		if t < (coldTub+settle.UsualC)/2 {
			other = settle.UsualC
		}
		here, there := formula.NewWater(t), formula.NewWater(other)
		more := math.Pow(there.Viscosity/here.Viscosity*here.Density/there.Density, 0.25) - 1
		word := "more"
		if more < 0 {
			word = "less"
		}
		report(unit.Existing, graph.Diagnostic{
			Pos: tub.Pos, Severity: graph.Note,
			Message: graph.Say("[water] is taken for both waters, %s: that which %q heats, and that of %q, whose pipes never meet it", v.celsius(t), unit.ID, tub.ID),
			Hint: graph.Say("write in [water] what %q heats, volume and temperature; were %q kept at %s its pipes would lose some %.0f %% %s, which moves nothing of the unit's",
				unit.ID, tub.ID, quantity.Temperature.Of(other), 100*math.Abs(more), word),
		})
		return
	}
}

// coldTub is what a plunge kept cold is at, °C; one kept hot is at settle.UsualC. Common practice, no
// source.
const coldTub = 10.0

func switchProvesFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		kept := keptElement(b)
		needs := graph.Say("%q", b.Unit.ID)
		if least, _, _ := v.limits(b.Unit); least > 0 {
			needs += graph.Say(", which needs %s", v.flowLimit(least))
		}
		for _, p := range slices.Concat(b.up.Parts, stubs(v, b.up)) {
			d := graph.Diagnostic{Pos: p.Pos, Related: []graph.Related{here(b.Unit)}, Severity: graph.Note}
			switch {
			case p.Kind == graph.PressureSwitch && kept != nil:
				d.Severity = graph.Warning
				d.Related = append(d.Related, here(kept))
				d.Message = graph.Say("pressure switch %q proves %s through %s: the unit's back pressure can hold it closed with almost no flow, while element %q stays in use", p.ID, v.flow(0), needs, kept.ID)
				d.Hint = "have the electrician see to it that the element is locked by a flow switch, or by the unit, rather than by pressure alone"
			case p.Kind == graph.PressureSwitch:
				d.Message = graph.Say("pressure switch %q proves %s through %s: the unit's back pressure can hold it closed with almost no flow", p.ID, v.flow(0), needs)
				d.Hint = "rely on the unit's own flow switch; tell the electrician what the switch still switches"
			case p.Kind == graph.FlowSwitch && len(v.net.Coming(p)) > 0 && !onBranch(b, p):
				d.Message = graph.Say("flow switch %q in the line proves the line's flow and %s through %s: the bypass can take it all", p.ID, v.flow(0), needs)
				d.Hint = "rely on the unit's own flow switch, and test it by shutting an isolator slowly; the electrician decides what each switch locks"
			default:
				continue
			}
			report(b.Unit.Existing, d)
		}
	}
}

// stubs returns the parts in the dead ends that hang on a reach: a pressure switch often
// stands in one.
func stubs(v *view, on *stream.Reach) []*graph.Part {
	var out []*graph.Part
	for _, d := range v.net.DeadEnds() {
		if d.From != nil && on.HasPart(d.From.ID) {
			out = append(out, d.Parts...)
		}
	}
	return out
}

// keptElement returns an element heater on the unit's line that is not disconnected, or nil.
func keptElement(b branch) *graph.Part {
	for _, list := range [][]*graph.Part{b.up.Parts, b.down.Parts} {
		for _, p := range list {
			if p.Kind == graph.ElementHeater && (p.Element == nil || !p.Element.Disconnected) {
				return p
			}
		}
	}
	return nil
}

func onBranch(b branch, p *graph.Part) bool {
	for _, q := range b.ToUnitParts {
		if q == p {
			return true
		}
	}
	return false
}

func waterNotAbove40(in *Input, report Report) {
	v := in.ask()
	if t := v.waterC(); t > graph.HottestC {
		report(false, graph.Diagnostic{
			Pos: or(v.c.Water.KeyPos["temperature"], v.c.Water.Pos), Severity: graph.Error,
			Message: graph.Say("the water has %s; %s is the most a bather may meet", v.celsius(t), quantity.Temperature.Of(40)),
			Hint:    graph.Say("write %s or less, set the controller and the unit to it, and leave the high limit active", quantity.Temperature.Of(40)),
		})
	}
}
