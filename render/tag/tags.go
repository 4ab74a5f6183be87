package tag

import (
	"strconv"
	"strings"

	"dryfit/graph"
	"dryfit/graph/stream"
)

// tagLetters are what the tags of each kind begin with. P and V are ISO 14617's and ISA-5.1's
// (from memory), the others common practice, no source.
var tagLetters = map[graph.Kind]string{
	graph.Tub: "", graph.Suction: "S", graph.JetGroup: "JG", graph.Manifold: "M", graph.Pump: "P",
	graph.Filter: "F", graph.ElementHeater: "E", graph.HeatPump: "HP", graph.HeatExchanger: "HX", graph.Tee: "T",
	graph.GateValve: "V", graph.BallValve: "V", graph.ButterflyValve: "V", graph.CheckValve: "CV",
	graph.DiverterValve: "DV", graph.Union: "U", graph.Coupling: "C", graph.SlipCoupling: "SC",
	graph.Reducer: "R", graph.Transition: "TR", graph.Barb: "B", graph.Feeder: "FD",
	graph.SaltCell: "SX", graph.OzoneInjector: "OZ", graph.UVChamber: "UV", graph.Blower: "BL", graph.AirControl: "AC",
	graph.DrainValve: "D", graph.AirBleed: "AB", graph.FlowSwitch: "FS", graph.PressureSwitch: "PS",
	graph.PressureGauge: "PI", graph.ThermometerPocket: "TI", graph.Strainer: "ST", graph.Cap: "CP",
}

// Tags returns the short tag of every part by its id: letters for the kind and a number in
// the order of the description. The hand valves of a unit's branch are numbered by what they
// do, in every job alike: V1 to the unit, V2 from it, V3 past it; a hand valve between tub
// and pump is SV, for it is never shut. Else a part whose id is such a tag already ("p2")
// keeps it. The tub has none.
func Tags(c *graph.Circuit, net *stream.Net) map[string]string {
	t := tagger{tags: map[string]string{}, taken: map[string]bool{}}
	t.byDuty(c, net)
	for _, p := range c.Parts {
		if l := tagLetters[p.Kind]; l != "" && isTag(p.ID, l) {
			t.give(p, strings.ToUpper(p.ID))
		}
	}
	next := map[string]int{}
	for _, p := range c.Parts {
		l := tagLetters[p.Kind]
		for l != "" && t.tags[p.ID] == "" {
			next[l]++
			t.give(p, l+strconv.Itoa(next[l]))
		}
	}
	return t.tags
}

// tagger gives each tag once.
type tagger struct {
	tags  map[string]string
	taken map[string]bool
}

// give gives a part a tag that is free, if it has none.
func (t *tagger) give(p *graph.Part, tag string) {
	if t.tags[p.ID] == "" && !t.taken[tag] {
		t.tags[p.ID], t.taken[tag] = tag, true
	}
}

// byDuty tags the valves of the unit the job is about, and those on the suction side. V1 to
// V3 are kept for their duties even where a job lacks one of them.
func (t *tagger) byDuty(c *graph.Circuit, net *stream.Net) {
	unit := c.TheUnit()
	if unit == nil {
		return
	}
	b, _ := net.UnitBranch(unit)
	if b == nil {
		return
	}
	for _, duty := range []struct {
		tag   string
		parts []*graph.Part
	}{{"V1", b.ToUnitParts}, {"V2", b.FromUnitParts}, {"V3", b.BypassParts}} {
		for _, p := range duty.parts {
			if p.Kind.IsHandValve() {
				t.give(p, duty.tag)
			}
		}
		t.taken[duty.tag] = true
	}
	suctions := 0
	for _, pump := range c.Pumps() {
		for _, p := range net.Suction(pump).Parts {
			if p.Kind.IsHandValve() && t.tags[p.ID] == "" {
				suctions++
				t.give(p, "SV"+strconv.Itoa(suctions))
			}
		}
	}
}

// isTag reports whether an id is the letters and a number.
func isTag(id, letters string) bool {
	digits, ok := strings.CutPrefix(strings.ToUpper(id), letters)
	if !ok || digits == "" || len(digits) > 3 {
		return false
	}
	for _, r := range digits {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}
