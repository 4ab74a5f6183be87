package rule

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/graph/settle"
)

// supplyRules hold the unit against the coldest day and the supply against what it feeds.
// They read the design day, never a year.
func supplyRules() []*Rule {
	return []*Rule{
		{
			Name:     "unit-holds-tub",
			Asks:     "The unit makes up what the tub loses, cover on, in the coldest air the site is said to have.",
			Why:      "A unit that is too small lets the tub cool for as long as the cold lasts.",
			Source:   "balance of heat; loss and output by the methods of dryfit heat",
			Severity: graph.Warning,
			Compares: true,
			Check:    unitHoldsTub,
		},
		{
			Name:     "supply-fits",
			Asks:     "What can run together on a circuit of the supply draws no more than its rating.",
			Why:      "An overloaded circuit trips, and a plug that carries its full current for hours gets hot.",
			Source:   "currents added as numbers: I = P/(U cos φ); for the electrician to check (IEC 60364, from memory)",
			Severity: graph.Warning,
			Compares: true,
			Check:    supplyFits,
		},
		{
			Name:     "supply-protects-unit",
			Asks:     "The protection of a circuit that feeds the unit is no larger than the unit's plate asks for, and its voltage is the plate's.",
			Why:      "A fuse or breaker above it does not trip for the unit's own cable and compressor before they burn.",
			Source:   "the unit's plate; IEC 60364-4-43, in North America NEC 440 (from memory); for the electrician to decide",
			Severity: graph.Warning,
			Compares: true,
			Check:    supplyProtectsUnit,
		},
		{
			Name:     "supply-drop",
			Asks:     "The cable loses at most a twentieth of the voltage with everything on it that can run together.",
			Why:      "A compressor that starts on a low voltage stalls.",
			Source:   "5 % for other uses than lighting: BS 7671 appendix 4 and IEC 60364-5-52 annex G (from memory)",
			Severity: graph.Warning,
			Compares: true,
			Check:    supplyDrop,
		},
	}
}

func unitHoldsTub(in *Input, report Report) {
	d := in.Design
	unit := in.ask().c.TheUnit()
	if d == nil || unit == nil || !d.Said || d.LostW <= 0 {
		return
	}
	held, existing := d.HeldW, unit.Existing
	var with []string
	for _, other := range d.Beside {
		held += other.OutputW
		with = append(with, other.ID)
		if p := in.ask().c.Part(other.ID); p != nil {
			existing = existing && p.Existing
		}
	}
	if held*cmp.Or(d.MayRun, 1) >= d.LostW {
		return
	}
	if in.ask().elementHolds(d.LostW) {
		return
	}
	backUp := in.ask().backUp()
	hint := "take a larger unit, " + backUp + ", or lose less: dryfit heat says what a better cover takes off"
	if least := in.ask().part(unit).LeastAir; least.Known && least.V > d.AirC {
		hint = graph.Say("a larger one of its kind stops there too: take a unit that works in air of %s, or %s", quantity.Temperature.Of(d.AirC), backUp)
	}
	gives := graph.Say("%q gives %s in air of %s", unit.ID, quantity.Power.Of(d.HeldW), quantity.Temperature.Of(d.AirC))
	if len(with) > 0 {
		gives = graph.Say("%s together give %s in air of %s", names(append([]string{unit.ID}, with...), func(s string) string { return s }), quantity.Power.Of(held), quantity.Temperature.Of(d.AirC))
	}
	message := gives + graph.Say("; the tub loses %s there", quantity.Power.Of(d.LostW))
	if held >= d.LostW { // long enough a day it would
		message = gives + graph.Say(", but may heat %d %% of the day only; the tub loses %s there", int(100*d.MayRun+0.5), quantity.Power.Of(d.LostW))
		hint = "let the pump run more hours a day, or as long as the unit calls for it; give [use] heating more of the day; or " + backUp
	}
	if d.StopsTaken && d.AirC < d.StopsC {
		message = graph.Say("in what air %q stops is not said, and taken to be %s; in air of %s the tub loses %s", unit.ID, quantity.Temperature.Of(d.StopsC), quantity.Temperature.Of(d.AirC), quantity.Power.Of(d.LostW))
		hint = graph.Say("read it from its sheet and write least-air, such as \"%s\"; where that is no colder: ", quantity.Temperature.About(-15)) + hint
	}
	if d.RatingsAssumed {
		hint += "; its ratings are the catalogue's for its size: give those of its sheet first"
	}
	report(existing, graph.Diagnostic{
		Pos: unit.Pos, Severity: graph.Warning, Unit: unit.ID,
		Message: message,
		Hint:    hint,
	})
}

// elementHolds reports whether an element that stays in use under a named interlock makes up a
// loss alone, W: while the unit is locked out nothing else does.
func (v *view) elementHolds(lostW float64) bool {
	for _, e := range v.c.OfKind(graph.ElementHeater) {
		if power := v.part(e).Power; v.staysInUse(e) && power.How != settle.Assumed && power.V >= lostW {
			return true
		}
	}
	return false
}

// staysInUse reports whether an element of the unit's water goes on heating, under an interlock that is named.
func (v *view) staysInUse(e *graph.Part) bool {
	return e.Element != nil && !v.net.Apart(e) && !e.Element.Disconnected && e.Element.Interlock != ""
}

// backUp is what is left to do for the element to hold the tub where the unit does not.
func (v *view) backUp() quantity.Text {
	for _, e := range v.c.OfKind(graph.ElementHeater) {
		switch {
		case !v.staysInUse(e):
		case v.part(e).Power.How == settle.Assumed:
			return graph.Say("write the power of %q, which stays as a back-up", e.ID)
		default:
			return graph.Say("a stronger element than %q", e.ID)
		}
	}
	return "keep the element as a back-up and write its interlock and power"
}

func supplyFits(in *Input, report Report) {
	if in.Design == nil {
		return
	}
	for _, s := range in.Design.Supplies {
		if !s.Pos.IsValid() || len(s.Together) == 0 {
			continue
		}
		worst := s.Together[0]
		limit, what := s.RatingA, "the circuit's rating"
		if worst.OverA <= 0 && worst.OverLong > 0 {
			limit, what = s.LongA, "what may run for hours"
		}
		if worst.OverA <= 0 && worst.OverLong <= 0 {
			continue
		}
		verb, digits, hint := "together draw", 1, "the electrician decides: "+s.Apart
		if len(worst.IDs) == 1 {
			verb = "draws"
		}
		if worst.RunningA-limit < 0.1 {
			digits = 2
		}
		if s.OnOneOfThree(worst) {
			hint += "; the supply is taken to have three phases, one of which bears all that runs on one: shared out, or between two or on all three, each bears less"
		}
		report(in.wereThere(s, worst.IDs), graph.Diagnostic{
			Pos: s.Pos, Severity: graph.Warning,
			Message: graph.Say("%s %s %.*f A; %s is %.*f A", s.Called(worst.IDs), verb, digits, worst.RunningA, what, digits, limit),
			Hint:    hint,
		})
	}
}

func supplyProtectsUnit(in *Input, report Report) {
	if in.Design == nil {
		return
	}
	for _, unit := range in.ask().c.Units() {
		supplySuitsPlate(in, unit, report)
		supplySuitsFuse(in, unit, report)
	}
}

// supplySuitsFuse holds the rating of a unit's circuit against the fuse or breaker its plate asks for.
func supplySuitsFuse(in *Input, unit *graph.Part, report Report) {
	fuse := in.ask().part(unit).Fuse
	if !fuse.Known || fuse.How != settle.Given && fuse.How != settle.OwnRow { // the catalogue's is that of a size
		return
	}
	for _, s := range in.Design.Supplies {
		feeds := slices.ContainsFunc(s.Loads, func(l heat.Consumer) bool { return l.ID == unit.ID })
		if !s.Pos.IsValid() || !feeds || s.RatingA <= fuse.V {
			continue
		}
		report(unit.Existing, graph.Diagnostic{
			Pos: s.Pos, Severity: graph.Warning, Related: []graph.Related{here(unit)},
			Message: graph.Say("%q hangs on a circuit of %.0f A; its plate asks for a fuse or breaker of %.0f A", unit.ID, s.RatingA, fuse.V),
			Hint:    graph.Say("the electrician decides: a circuit of its own of %.0f A, or a fuse or breaker of that before the unit; then write the unit's circuit as a [[supply]] of its own, feeds = [%q]", fuse.V, unit.ID),
		})
	}
}

// plateShare is how far the voltage of a supply may lie from that of a plate: 10 % by EN 50160, and what
// plates of 220, 230 and 240 V differ by. Judgement.
const plateShare = 0.15

// supplySuitsPlate holds the voltage on a unit's plate against that of its circuit: as it is said, from one of
// three phases to the neutral, or from one of the two legs North America has to the neutral.
func supplySuitsPlate(in *Input, unit *graph.Part, report Report) {
	if unit.Unit == nil || unit.Unit.VoltageV <= 0 {
		return
	}
	plate := unit.Unit.VoltageV // as written: what it is settled at is its supply's
	for _, s := range in.Design.Supplies {
		if !s.Pos.IsValid() || !slices.ContainsFunc(s.Loads, func(l heat.Consumer) bool { return l.ID == unit.ID }) {
			continue
		}
		phases, one := catalog.Phases(s.VoltageV)
		has := []float64{s.VoltageV, one}
		if region := in.ask().c.Site.Region; phases == 1 && region != "eu" && region != "uk" {
			has = append(has, one/2)
		}
		if slices.ContainsFunc(has, func(v float64) bool { return math.Abs(v-plate) <= plateShare*plate }) {
			continue
		}
		report(unit.Existing, graph.Diagnostic{
			Pos: s.Pos, Severity: graph.Warning, Related: []graph.Related{here(unit)},
			Message: graph.Say("the plate of %q says %s; it hangs on a circuit of %s", unit.ID, quantity.Voltage.Of(plate), quantity.Voltage.Of(s.VoltageV)),
			Hint:    "read the plate again: one of the two is wrong, or the electrician gives it another circuit",
		})
	}
}

func supplyDrop(in *Input, report Report) {
	if in.Design == nil {
		return
	}
	for _, s := range in.Design.Supplies {
		if !s.Drop || s.VoltageV <= 0 || s.DropV <= mostDrop*s.VoltageV {
			continue
		}
		report(in.wereThere(s, s.Together[0].IDs), graph.Diagnostic{
			Pos: s.Pos, Severity: graph.Warning,
			Message: graph.Say("the cable loses %.1f V of %.0f V with %s; it may lose %.1f V", s.DropV, s.VoltageV, s.Called(s.Together[0].IDs), mostDrop*s.VoltageV),
			Hint:    graph.Say("the electrician decides: a cable of %.1f times the copper or more, or of %.0f %% of the length or less", math.Ceil(10*overTable*s.DropV/(mostDrop*s.VoltageV))/10, math.Floor(100*mostDrop*s.VoltageV/s.DropV)),
		})
	}
}

// mostDrop is the most of its voltage a cable may lose, as the rule's own sentence says it.
const mostDrop = 0.05

// overTable is by how much more copper is asked for than the drop of the cable that is there gives: the
// table's millivolts fall by up to three hundredths less than the copper grows (2.5 to 25 mm²: 43.7 to 45
// mV/A/m times mm²; BS 7671 appendix 4, from memory).
const overTable = 1.03

// wereThere reports whether nothing of what draws together is new, be it a unit or anything else that
// the job adds.
func (in *Input) wereThere(s job.Supply, ids []string) bool {
	c := in.ask().c
	return !slices.ContainsFunc(ids, func(id string) bool {
		part, _ := s.Part(id)
		p := c.Part(part)
		return p != nil && p.New()
	})
}
