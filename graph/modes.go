package graph

import (
	"slices"

	"dryfit/catalog/quantity"
)

// Mode is one way the tub is run.
type Mode struct {
	Name      string
	Speeds    map[string]string  // part id of a pump -> name of its speed; pumps not named are off unless always-on
	Positions map[string]Opening // part id of a hand valve -> position
	JetsOpen  float64            // share of the jets open, 0 to 1; 1 where not said
	Dirty     bool               // filter = "dirty"
	Pos       Pos
}

// Opening is the position of a hand valve: 0 shut, 1 open.
type Opening float64

// Words says how far the valve is open: "shut", "open", "12.5 % open".
func (o Opening) Words() string {
	switch {
	case o <= 0:
		return "shut"
	case o >= 1:
		return "open"
	}
	return o.Percent() + " open"
}

// Opening is how far a hand valve is open in the mode: as the mode says, else as it stands.
func (m *Mode) Opening(p *Part) Opening {
	if said, ok := m.Positions[p.ID]; ok {
		return said
	}
	return p.Opening()
}

// Opening is how far a hand valve stands open where no mode says otherwise: fully where nobody says it.
func (p *Part) Opening() Opening {
	if p.Valve != nil && p.Valve.PositionSet {
		return p.Valve.Position
	}
	return 1
}

// ByKv reports whether of a hand valve's setting only is said what passes it, and not where its handle stands.
func (p *Part) ByKv() bool { return p.Valve != nil && p.Valve.Kv > 0 && !p.Valve.PositionSet }

// Percent is the opening in per cent, to a tenth; what is neither shut nor open is never rounded
// to either.
func (o Opening) Percent() string {
	x := quantity.Round(100*float64(o), 1)
	switch {
	case o > 0 && x <= 0:
		return "under 0.1 %"
	case o < 1 && x >= 100:
		return "over 99.9 %"
	}
	return quantity.Trim(x) + " %"
}

// SpeedOn is the speed of a pump for which no speed was described.
const SpeedOn = "on"

// SpeedNames returns the names of the pump's speeds in the order of the description; a
// pump without any has the one speed SpeedOn. It is nil for any other kind.
func (p *Part) SpeedNames() []string {
	if p.Kind != Pump {
		return nil
	}
	if p.Pump == nil || len(p.Pump.Speeds) == 0 {
		return []string{SpeedOn}
	}
	names := make([]string, len(p.Pump.Speeds))
	for i, s := range p.Pump.Speeds {
		names[i] = s.Name
	}
	return names
}

// Pumps returns the pumps in the order of the description.
func (c *Circuit) Pumps() []*Part { return c.OfKind(Pump) }

// OfKind returns the parts of a kind in the order of the description.
func (c *Circuit) OfKind(k Kind) []*Part {
	var out []*Part
	for _, p := range c.Parts {
		if p.Kind == k {
			out = append(out, p)
		}
	}
	return out
}

// AllModes returns the modes the circuit is run in: those written, else one for each speed
// of each pump that has several and for each pump without which what heats would stand in all of these (see
// heatingAlone), else one for each pump; and one for each line with pumps in series, in which all of them run (nobody
// says whether they do, and every-speed-judged tells). In every mode the pumps that are always on run too, at their
// first speed unless the mode says another; Speeds names every pump that runs, so a pump not named
// in it is off.
//
// A mode that follows from the pumps is named by the speed where one pump alone has several, by
// "pump speed" where several have or a pump goes by that name; that of a pump with one speed by the
// pump, or "on" where there is just one; that of several by all of them, "pump and booster".
func (c *Circuit) AllModes() []Mode {
	pumps := c.Pumps()
	if len(c.Modes) > 0 {
		out := make([]Mode, len(c.Modes))
		for i, m := range c.Modes {
			out[i] = c.Running(m)
		}
		return out
	}
	var several, run []*Part
	fixed := false // a pump of one speed that may be off
	for _, p := range pumps {
		if len(p.SpeedNames()) > 1 {
			several = append(several, p)
		} else if !p.Pump.NeverOff() {
			fixed = true
		}
	}
	if run = pumps; len(several) > 0 {
		var alone []*Part
		if fixed {
			alone = c.heatingAlone()
		}
		run = slices.DeleteFunc(slices.Clone(pumps), func(p *Part) bool {
			return !slices.Contains(several, p) && !slices.Contains(alone, p)
		})
	}
	var out []Mode
	for _, p := range run {
		speeds := p.SpeedNames()
		for _, s := range speeds {
			name := s
			switch {
			case len(pumps) == 1 && len(speeds) == 1:
				name = SpeedOn // whatever that speed is called
			case len(speeds) == 1:
				name = p.ID
			case len(several) > 1 || len(speeds) > 1 && slices.ContainsFunc(run, func(q *Part) bool { return q.ID == s }):
				name = p.ID + " " + s
			}
			out = append(out, Mode{Name: name, JetsOpen: 1, Pos: p.Pos,
				Speeds: withAlwaysOn(pumps, map[string]string{p.ID: s})})
		}
	}
	return append(out, c.boosted(out)...)
}

// heatingAlone returns the pumps without which what heats would get no water in any mode: by the speeds of the
// pumps that have several, and by those never off, it would stand. Heat is made by an element, a unit or what
// [retrofit] names. Where no such pump is in its loop, which is what pipes join without the tub, all pumps of that
// move its water; else those that drive it.
func (c *Circuit) heatingAlone() []*Part {
	asked := c.HeatedAt
	if asked == "" {
		asked = c.AskedWater()
	}
	var out []*Part
	for _, loop := range c.loops() {
		var heat, run, alone []*Part
		for _, p := range loop {
			if p.Kind == ElementHeater || p.Kind == HeatPump || p.ID == asked {
				heat = append(heat, p)
			}
			switch {
			case p.Kind != Pump:
			case len(p.SpeedNames()) > 1 || p.Pump.NeverOff():
				run = append(run, p)
			default:
				alone = append(alone, p)
			}
		}
		if len(heat) == 0 || len(alone) == 0 {
			continue
		}
		if len(run) > 0 {
			alone = c.driving(alone, c.without(run, heat))
		}
		out = append(out, alone...)
	}
	return out
}

// without returns which of the parts none of the pumps drives.
func (c *Circuit) without(pumps, parts []*Part) []*Part {
	for _, pump := range pumps {
		if len(parts) == 0 {
			break
		}
		driven := c.drives(pump)
		parts = slices.DeleteFunc(slices.Clone(parts), func(p *Part) bool { return driven[p.ID] })
	}
	return parts
}

// driving returns which of the pumps drive one of the parts.
func (c *Circuit) driving(pumps, parts []*Part) []*Part {
	if len(parts) == 0 {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(pumps), func(pump *Part) bool { return len(c.without([]*Part{pump}, parts)) == len(parts) })
}

// loops returns the parts that pipes join to each other without the tub, and not by air.
func (c *Circuit) loops() [][]*Part {
	next := map[string][]string{}
	for _, r := range c.Runs {
		next[r.From.Part] = append(next[r.From.Part], r.To.Part)
		next[r.To.Part] = append(next[r.To.Part], r.From.Part)
	}
	parts := make(map[string]*Part, len(c.Parts))
	for _, p := range c.Parts {
		if p.Kind != Tub && p.Kind != AirControl && p.Kind != Blower {
			parts[p.ID] = p
		}
	}
	var out [][]*Part
	for _, start := range c.Parts {
		var loop []*Part
		for list := []string{start.ID}; len(list) > 0; {
			at := list[len(list)-1]
			list = list[:len(list)-1]
			if p := parts[at]; p != nil {
				delete(parts, at)
				loop = append(loop, p)
				list = append(list, next[at]...)
			}
		}
		if len(loop) > 0 {
			out = append(out, loop)
		}
	}
	return out
}

// Running is a mode with every pump that runs in it named in its speeds: those that are always on too.
func (c *Circuit) Running(m Mode) Mode {
	m.Speeds = withAlwaysOn(c.Pumps(), m.Speeds)
	return m
}

// withAlwaysOn returns a copy of the speeds of a mode with the pumps added that are always
// on, and without pumps that are not in the circuit.
func withAlwaysOn(pumps []*Part, speeds map[string]string) map[string]string {
	out := map[string]string{}
	for _, p := range pumps {
		if s, ok := speeds[p.ID]; ok {
			out[p.ID] = s
		} else if p.Pump.NeverOff() {
			out[p.ID] = p.SpeedNames()[0]
		}
	}
	return out
}
