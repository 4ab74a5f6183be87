package route

import "dryfit/graph"

// Kept is a box that no new pipe passes, where it stands.
type Kept struct {
	graph.KeepClear
	Number    int // which of its part's it is, from 1
	Part      string
	Group     int       // places of one group are tied to each other by legs
	Low, High graph.Vec // two opposite corners, as laid out
}

// KeptClear are the boxes that parts of a layout have kept clear; of parts whose place is not
// known none.
func KeptClear(lay *Layout) []Kept {
	var out []Kept
	for _, p := range lay.Circuit.Parts {
		if len(p.KeepClear) == 0 || len(p.Ports) == 0 {
			continue
		}
		port := p.ID + "." + p.Ports[0].Name
		at, ok := lay.Positions[port]
		group, tied := lay.Groups[port]
		if !ok || !tied {
			continue
		}
		for i, k := range p.KeepClear {
			out = append(out, Kept{KeepClear: k, Number: i + 1, Part: p.ID, Group: group, Low: at.Add(k.From), High: at.Add(k.To)})
		}
	}
	return out
}
