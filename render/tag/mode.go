package tag

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Mode says in plain words how the tub runs in a mode, by the pumps and their speeds: "at low
// speed", "with the circulation pump running". The name the file gives a mode stands behind it
// only where two modes would be called the same; that of a mode the circuit does not have is
// itself.
func (n *Names) Mode(name string) string {
	if words := n.modes[name]; words != "" {
		return words
	}
	return name
}

// nameModes finds the words for every mode of a circuit.
func (n *Names) nameModes(c *graph.Circuit) {
	n.modes = map[string]string{}
	count := map[string]int{}
	modes := c.AllModes()
	for i := range modes {
		words := n.modeWords(c.Pumps(), &modes[i])
		n.modes[modes[i].Name] = words
		count[words]++
	}
	for id, words := range n.modes {
		if count[words] > 1 {
			n.modes[id] = words + " (" + id + ")"
		}
	}
}

func (n *Names) modeWords(pumps []*graph.Part, m *graph.Mode) string {
	var running []*graph.Part
	for _, p := range pumps {
		if m.Speeds[p.ID] != "" {
			running = append(running, p)
		}
	}
	out := n.pumpsRunning(pumps, running, m)
	if m.Dirty {
		out += ", the filter dirty"
	}
	if m.JetsOpen < 1 {
		out += ", " + graph.Opening(m.JetsOpen).Percent() + " of the jets open"
	}
	for _, p := range n.inOrder {
		if at, ok := m.Positions[p.ID]; ok {
			out += ", " + n.Tag(p.ID) + " " + at.Words()
		}
	}
	return out
}

// AtSpeeds words what draws current, each at its speed: "P1 (low)" for "pump (low)" by the tag of a part;
// of says which part a load is of, and its speed.
func AtSpeeds(ids []string, of func(id string) (part, speed string), word func(id string) string) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		part, speed := of(id)
		out[i] = word(part)
		if speed != "" {
			out[i] += " (" + speed + ")"
		}
	}
	return out
}

// pumpsRunning says which pumps run, and at which speed those do that have several.
func (n *Names) pumpsRunning(pumps, running []*graph.Part, m *graph.Mode) string {
	switch {
	case len(running) == 0:
		return "with no pump running"
	case len(pumps) == 1 && len(running[0].SpeedNames()) > 1:
		return "at " + graph.SpeedWords(m.Speeds[running[0].ID])
	case len(pumps) == 1:
		return "with the pump running"
	}
	speed, alike := m.Speeds[running[0].ID], true
	for _, p := range running {
		alike = alike && m.Speeds[p.ID] == speed && len(p.SpeedNames()) > 1
	}
	if len(running) == len(pumps) && alike {
		all := "both pumps"
		if len(pumps) > 2 {
			all = fmt.Sprintf("all %d pumps", len(pumps))
		}
		return "with " + all + " at " + graph.SpeedWords(speed)
	}
	var words []string
	plain := true
	for _, p := range running {
		w := n.pumpWords(pumps, p)
		if len(p.SpeedNames()) > 1 {
			w, plain = w+" at "+graph.SpeedWords(m.Speeds[p.ID]), false
		}
		words = append(words, w)
	}
	last := ""
	if plain {
		last = " running"
	}
	return "with " + quantity.Listed(words, "and") + last
}

// pumpWords is a pump of several in a sentence: by what it is there for where that tells it from
// the others, else by its tag.
func (n *Names) pumpWords(pumps []*graph.Part, p *graph.Part) string {
	what := n.duty(p)
	for _, o := range pumps {
		if o != p && n.duty(o) == what {
			what = ""
		}
	}
	if what == "" {
		return "pump " + n.Tag(p.ID)
	}
	return "the " + what
}

// duty is what a pump is there for: the circulation pump runs always or has the filter or a
// heater in its line; the jet pump has jets and neither.
func (n *Names) duty(p *graph.Part) string {
	treats, jets := p.Pump.NeverOff(), false
	line := n.net.MainLine(p)
	for _, o := range line.Parts {
		switch o.Kind {
		case graph.Filter, graph.ElementHeater, graph.HeatPump:
			treats = true
		case graph.JetGroup:
			jets = true
		}
	}
	switch {
	case treats:
		return "circulation pump"
	case jets:
		return "jet pump"
	}
	return ""
}
