package practice

import (
	"cmp"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
)

// Temp is a temperature, °C, where it is known.
type Temp struct {
	C     float64
	Known bool
}

// Level says where something stands against the water line of the tub.
type Level int

// The levels. What nobody measured is taken to stand below: that is the case that floods.
const (
	LevelUnknown Level = iota
	BelowWater
	AboveWater
)

// Below reports whether the water may run out there.
func (l Level) Below() bool { return l != AboveWater }

// whereItRuns says where the water of an open joint goes.
func (j *Job) whereItRuns() quantity.Text {
	switch {
	case j.PlugIn:
		return "onto the ground"
	case j.NoCabinet:
		return "onto the floor"
	}
	return "into the cabinet"
}

// Job is what the sentences ask of a job.
type Job struct {
	Unit     *Unit    // the one the job is about; nil: there is none
	Fellows  []Unit   // other units that have water
	Switches []Switch // of all units, where there are several
	Elements []Element
	Pump     Pump     // the pump of the unit's line
	Water    float64  // °C the tub is kept at
	Cold     bool     // which is cold: the unit cools it, see graph.Site.KeptCold
	Others   []string // exchangers by which another source than the units heats it, by tag
	SiteAir  Temp     // coldest it must be held at
	WarmRoom bool     // the tub stands in a room that frost does not reach
	Region   string   // "uk", "eu", "us" or ""
	Earthing string   // "tn-s", "tn-c-s", "tt" or ""

	Ways     []Way    // of every unit, what shuts it off and what is in the bypass past it
	To, From []string // isolators of the pipes to and from the units, by tag
	Bypass   []string // valves by hand in the bypasses
	Shut     bool     // what is in the bypass by hand stands shut in use
	Check    string   // check valve in the bypass; ""
	CheckAt  Level
	Aside    bool     // the water can pass the check by another way
	Beside   []string // valves by hand on that way, among those of Bypass: shut in use
	Planned  bool     // the check is one that the request asks for, so that a valve beside it can be asked for too
	Drains   []string
	Bleeds   []string
	Suctions []string  // valves between tub and pump
	Passing  []Passing // what the bypass passes with the unit shut off

	Dry        []string // pumps that stand above the water
	Filter     string   // "cartridge", "sand"; "": none described
	Skimmer    bool     // the tub has a skimmer or a filter well to fill at
	Jets       bool     // on the unit's line
	AnyJets    bool     // anywhere in the circuit
	Diverter   bool     // on the unit's line
	TwoSpeeds  bool     // of the unit's pump; Slow and Fast are what they are called
	Slow, Fast string
	Pockets    bool     // two thermometer pockets at the unit
	HoseAtPump bool     // the old pipe at the pump's outlet is hose
	PlugIn     bool     // all old pipe is hose: the plant stands in a box
	NoCabinet  bool     // the plant of a pool, in a shed, a cellar or a pit: nobody described a cabinet
	Cuts       bool     // old pipe is cut
	Bands      bool     // there are bands to saw it by
	MarkedOut  bool     // the section on marking out has the measures
	Valves     bool     // there are valves to hang labels on
	Leaves     []Unit   // units that are taken out
	CutsHose   bool     // an old hose is cut
	NewHose    bool     // new hose comes in
	Removes    bool     // something is taken out
	Gone       []string // what is taken out whole, by its names on paper
	GoneRigid  bool     // pipe that is no hose is among it
	Out        []Out    // the equipment among it
	Tails      []string // parts that stay, whose tails go with pipe that is cemented into them
	Pieces     bool     // there is new pipe to cut
	Saws       bool     // some of it with a saw
	NewCutHose bool     // some of it is hose
	Marked     bool     // the parts list marks parts to measure first
	Bench      bool     // part of the work is made on the bench
	Over       bool     // a piece is cut over its length: ^ in the cut list
	OnSite     bool     // a piece is cut on site: + in the cut list
	Arrows     bool     // a check goes into the old line
	Cement     bool
	Barbs      bool
	Threads    bool
	UnionNuts  bool
	Inch       bool          // cemented joints of inch pipe
	Metric     bool          // of metric PVC-U
	Flexible   bool          // flexible pipe that is glued
	JoinsOld   bool          // new pipe is cemented to old rigid pipe
	OldPipe    string        // material as printed on the old pipe; ""
	Outdoors   bool          // new pipe runs outside
	Wall       bool          // new pipe goes through a wall
	Holes      []Hole        // in walls of the cabinet, those of one wall and size together
	Hold       quantity.Text // the cure the hold point waits for, in words
	GreatestPa float64
	UnitPa     float64 // highest pressure of the unit; 0: not known
}

// Unit is the heat pump.
type Unit struct {
	ID                          string
	New                         bool // this work sets it down
	SetPoint, LeastAir          Temp
	StopsAtHighLimit, DrainPlug *bool
	Refrigerant                 string
	Flammable                   bool
	StandsOn                    string
	Inside                      bool // said to stand indoors
	Level                       Level
	Fed                         Fed
}

// Way is how the water comes to one unit: the valves that shut it off, and those by hand in the
// line past it, by their tags.
type Way struct {
	Unit            string
	Isolators, Past []string
}

// Element is a heater of the tub's own.
type Element struct {
	ID           string
	PowerW       float64
	Disconnected bool
	Interlock    string
	SetPoint     Temp
}

// Pump is the pump that moves the unit's water.
type Pump struct {
	ID          string
	PowerW      float64 // at the speed that heats; 0: not known
	AlwaysOn    bool
	RunsForHeat string
	Above       bool // it stands above the water
}

// Passing is what passes the unit in one mode while it is shut off.
type Passing struct {
	Mode  string  // in words
	Flow  float64 // m³/s
	Least float64 // what the line wants of it, m³/s; 0: nothing is known
}

// TooLittle reports whether the line wants more than passes.
func (p Passing) TooLittle() bool { return p.Least > 0 && p.Flow < p.Least }

// elementOff reports whether there is an element and every one of them is disconnected.
func (j *Job) elementOff() bool {
	for _, e := range j.Elements {
		if !e.Disconnected {
			return false
		}
	}
	return len(j.Elements) > 0
}

// HeatsAlone reports whether nothing but the unit heats the water: no element is left in use,
// and no other unit has water.
func (j *Job) HeatsAlone() bool {
	return j.unitAlone() && !j.several()
}

// of returns the elements of which something holds, in their order.
func (j *Job) of(holds func(*Element) bool) []*Element {
	var out []*Element
	for i := range j.Elements {
		if e := &j.Elements[i]; holds(e) {
			out = append(out, e)
		}
	}
	return out
}

// off reports whether an element is disconnected.
func (e *Element) off() bool { return e.Disconnected }

// kept reports whether an element stays in use under a named interlock.
func (e *Element) kept() bool { return !e.Disconnected && e.Interlock != "" }

// open reports whether it is not said what becomes of an element.
func (e *Element) open() bool { return !e.Disconnected && e.Interlock == "" }

// wired reports whether an element stays in use under an interlock that is wired to it.
func (e *Element) wired() bool {
	return e.kept() && (e.Interlock == "contact" || e.Interlock == "changeover")
}

// heldBack reports whether an element that stays in use doesn't heat by itself without the unit.
func (e *Element) heldBack() bool { return e.kept() && e.Interlock != "set-point" }

// elementKept reports whether an element stays in use under a named interlock.
func (j *Job) elementKept() bool {
	return slices.ContainsFunc(j.Elements, func(e Element) bool { return e.kept() })
}

// unsettled reports whether it is not said what becomes of an element.
func (j *Job) unsettled() bool {
	return slices.ContainsFunc(j.Elements, func(e Element) bool { return e.open() })
}

// unitAlone reports whether nothing but the unit heats.
func (j *Job) unitAlone() bool {
	return j.Unit != nil && !j.Cold && len(j.Others) == 0 && (j.elementOff() || len(j.Elements) == 0)
}

// unheated says what becomes of a tub that nothing heats in frost.
func (j *Job) unheated() quantity.Text {
	if j.WarmRoom {
		return "its water cools to the room"
	}
	return "it is emptied"
}

// MayFreeze reports whether the site freezes, or nobody said that it doesn't.
func (j *Job) MayFreeze() bool { return !j.SiteAir.Known || j.SiteAir.C < 0 }

// wipe is what sockets are wiped with before cement: one word for each system of pipe. Source:
// common practice, no source.
func (j *Job) wipe() quantity.Text {
	if j.Metric && !j.Inch {
		return "cleaner"
	}
	return "primer"
}

// Isolators are the hand valves between the tees and the unit, on both its pipes, in the order of
// their numbers.
func (j *Job) Isolators() []string { return ByNumber(slices.Concat(j.To, j.From)) }

// ByNumber returns tags in the order in which one looks for them: by letters, then by number, "V2"
// before "V10".
func ByNumber(tags []string) []string {
	out := slices.Clone(tags)
	slices.SortStableFunc(out, Compare)
	return out
}

// Compare orders two tags as ByNumber does.
func Compare(a, b string) int {
	x, y := strings.TrimRight(a, "0123456789"), strings.TrimRight(b, "0123456789")
	return cmp.Or(cmp.Compare(x, y), cmp.Compare(len(a), len(b)), cmp.Compare(a, b))
}

// OneOf joins tags by "or": "V1", "V1 or V2", "V1, V2 or V4".
func OneOf(tags []string) string { return quantity.Listed(tags, "or") }

// isolated reports whether the unit can be shut off on both its pipes.
func (j *Job) isolated() bool { return len(j.To) > 0 && len(j.From) > 0 }

// warm is a temperature that is a rule of thumb, °C.
func warm(c float64) quantity.Amount { return quantity.Temperature.About(c) }

// kelvin is a difference of temperatures that is a rule of thumb.
func kelvin(k float64) quantity.Amount { return quantity.TemperatureDifference.About(k) }

// far is a distance or thickness that is kept at the least, mm.
func far(mm float64) quantity.Amount { return quantity.Length.About(mm) }

// litres is about so much water.
func litres(l float64) quantity.Amount { return quantity.Volume.About(l / 1000) }

// aDay is what a power takes in a day.
func aDay(w float64) quantity.Amount { return quantity.Energy.About(w * 24 / 1000) }

// setPoint is what the unit the job is about is set to, °C.
func (j *Job) setPoint() float64 {
	if j.Unit != nil {
		return j.setOf(j.Unit)
	}
	return j.Water
}

// setOf is what a unit is set to, °C: as said, else the water's temperature.
func (j *Job) setOf(u *Unit) float64 {
	if u.SetPoint.Known {
		return u.SetPoint.C
	}
	return j.Water
}

// elementTakesOver says what lets each element that stays in use heat without the unit; "" where
// none stays.
func (j *Job) elementTakesOver() quantity.Text {
	kept := j.of((*Element).kept)
	if len(kept) == 0 {
		return ""
	}
	first := kept[0]
	if len(kept) == 1 {
		return "the element heats " + first.takesOver()
	}
	if !slices.ContainsFunc(kept, func(e *Element) bool { return e.Interlock != first.Interlock }) {
		return "each of the elements heats " + first.takesOver()
	}
	var out []string
	for _, e := range kept {
		out = append(out, "element "+e.ID+" heats "+string(e.takesOver()))
	}
	return quantity.Text(strings.Join(out, "; "))
}

// takesOver says what lets an element that stays in use heat without the unit.
func (e *Element) takesOver() quantity.Text {
	switch e.Interlock {
	case "contact":
		return "only after the electrician has given it back to the controller: the contact in a unit without power stays open"
	case "changeover":
		return "only after the changeover is put over to it"
	case "controller-mode":
		return "only after the controller's setting for another heat source is taken back"
	case "set-point":
		return "by itself, to its own lower set point; to bathe at the usual temperature that is raised meanwhile"
	}
	return ""
}

// reconnected says what makes the tub's own heater heat again: an electrician, or the keypad
// of a plug-in tub's sealed box.
func (j *Job) reconnected() quantity.Text {
	if len(j.Others) > 0 {
		return quantity.Say("another source heats by %s", and(j.Others...))
	}
	if len(j.Elements) == 0 {
		return "another heater is in use"
	}
	if j.PlugIn {
		return "the box's own heating is switched on again (by its keypad, or by an electrician)"
	}
	return "the electrician has reconnected the element"
}
