package tag

import (
	"strconv"
	"strings"

	"dryfit/graph"
)

// tagLetters are what the tags of each kind begin with. P and V are ISO 14617's and ISA-5.1's
// (from memory), the others common practice, no source.
var tagLetters = map[graph.Kind]string{
	graph.Tub: "", graph.Suction: "S", graph.JetGroup: "JG", graph.Manifold: "M", graph.Pump: "P",
	graph.Filter: "F", graph.ElementHeater: "E", graph.HeatPump: "HP", graph.Tee: "T",
	graph.GateValve: "V", graph.BallValve: "V", graph.ButterflyValve: "V", graph.CheckValve: "CV",
	graph.DiverterValve: "DV", graph.Union: "U", graph.Coupling: "C", graph.SlipCoupling: "SC",
	graph.Reducer: "R", graph.Transition: "TR", graph.Barb: "B", graph.Feeder: "FD",
	graph.SaltCell: "SX", graph.OzoneInjector: "OZ", graph.Blower: "BL", graph.AirControl: "AC",
	graph.DrainValve: "D", graph.AirBleed: "AB", graph.FlowSwitch: "FS", graph.PressureSwitch: "PS",
	graph.ThermometerPocket: "TI", graph.Strainer: "ST", graph.Cap: "CP",
}

// Tags returns the short tag of every part by its id: letters for the kind and a number in
// the order of the description. A part whose id is such a tag already ("v3") keeps it. The
// tub has none.
func Tags(c *graph.Circuit) map[string]string {
	tags := map[string]string{}
	taken := map[string]bool{}
	for _, p := range c.Parts {
		if l := tagLetters[p.Kind]; l != "" && isTag(p.ID, l) && !taken[strings.ToUpper(p.ID)] {
			tags[p.ID] = strings.ToUpper(p.ID)
			taken[tags[p.ID]] = true
		}
	}
	next := map[string]int{}
	for _, p := range c.Parts {
		l := tagLetters[p.Kind]
		if l == "" || tags[p.ID] != "" {
			continue
		}
		for {
			next[l]++
			if t := l + strconv.Itoa(next[l]); !taken[t] {
				tags[p.ID] = t
				taken[t] = true
				break
			}
		}
	}
	return tags
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
