package spread

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// reading says what would settle an unknown: what a person reads, with what, where. All common
// practice, no source. display names, of a valve past a unit, what shows that unit's flow, by which alone
// it is set; "" of one elsewhere, that is not turned for it.
func (u *unknown) reading(m *hydraulic.Model, display quantity.Text) quantity.Text {
	by := u.read(m, display)
	if u.used.given && u.used.guess && !u.planned(m) && strings.Contains(string(by), "data sheet") { // the sheet may be what was written down
		by += "; or, where the figures the file has for it are that sheet's, the file's word for that, known as data-sheet"
	}
	return by
}

// oneReading says what single reading at a pump would tell of it and is not in the file yet; "" where
// both are.
func oneReading(m *hydraulic.Model, pump string) quantity.Text {
	var left []string
	read := func(what func(graph.Reading) bool) bool {
		return slices.ContainsFunc(m.Layout.Stage.Circuit.Readings, func(r graph.Reading) bool { return r.Part == pump && what(r) })
	}
	if !read(func(r graph.Reading) bool { return r.Flow > 0 }) {
		left = append(left, "its flow in one mode by a meter clamped on")
	}
	if !read(func(r graph.Reading) bool { return r.PressureSet && r.Port != graph.In }) {
		left = append(left, "the pressure after it by one gauge")
	}
	if len(left) == 0 {
		return ""
	}
	return quantity.Text("; or " + strings.Join(left, ", or ") + ", given as a reading")
}

// planned reports whether the unknown is of a valve or check of the new work, whose figures are a row's: no
// part of the file has them.
func (u *unknown) planned(m *hydraulic.Model) bool {
	i, ok := m.PartAt[u.part]
	if !ok {
		return false
	}
	p := m.Parts[i].Part
	return p.New() && (p.Kind == graph.CheckValve || p.Kind.IsHandValve())
}

// read is reading, whatever the file says of it.
func (u *unknown) read(m *hydraulic.Model, display quantity.Text) quantity.Text {
	var part *hydraulic.ModelPart
	if i, ok := m.PartAt[u.part]; ok && u.part != "" {
		part = &m.Parts[i]
	}
	switch {
	case part != nil && part.Part.Kind == graph.Pump:
		return graph.Say("the curve of %q: from its data sheet; or three points of it, by a gauge before and after it and its flow by a meter or a bucket and a watch at the tub: with a valve after it shut, half open, and %s; write them as its curve, and known as measured%s", u.part, unhindered(m), oneReading(m, u.part))
	case u.starts("the bore of the jets", "K of the jets") || part != nil && part.Part.Kind == graph.JetGroup:
		return graph.Say("the pressure before %q with the pump running, given as a reading, and the bore of one jet by a drill that just goes in", u.part)
	case u.what == hosesClass:
		return "the pressure before the jets with the pump running, given as a reading"
	case u.starts("the cracking pressure") && u.planned(m):
		return graph.Say("the data sheet of the check that is to be bought for %q: the lowest and the highest it may open at, given in a row of your own", u.part)
	case u.starts("the cracking pressure"):
		return graph.Say("the data sheet of %q; or a gauge before it: where it begins to pass water as a valve beside it is shut slowly; given in a row of your own, with the lowest and the highest it may open at", u.part)
	case u.starts("the flow that holds"):
		return graph.Say("the data sheet of %q: the least flow that holds it fully open", u.part)
	case u.starts("where the handle") && display == "":
		return graph.Say("where the handle of %q stands, held against its two ends", u.part)
	case u.starts("where the wheel") && display == "":
		return graph.Say("the turns of the wheel of %q, counted from where it stands to shut and from there to open", u.part)
	case u.starts("the Kv of") && display == "":
		return graph.Say("the data sheet of %q: what it passes fully open; or a gauge before and after it at a flow that is known", u.part)
	case u.setting():
		return graph.Say("the flow on %s, and %q set by it", display, u.part)
	case part != nil && part.Part.Kind == graph.DiverterValve:
		return graph.Say("where the knob of %q points; or the pressure before the jets of each of its ways", u.part)
	case part != nil && part.Part.New():
		return graph.Say("the data sheet of %q: its drop at a flow", u.part)
	case part != nil && part.Part.Kind == graph.HeatPump:
		return graph.Say("the data sheet of %q: its drop at a flow; or the flow on its display", u.part)
	case part != nil:
		return graph.Say("the data sheet of %q; or a gauge before and after it at a flow that is known", u.part)
	case u.starts("the length", "lengths"):
		return "the lengths, by tape along the pipe"
	case u.starts("elbows nobody listed"):
		return graph.Say("the bends of %q, counted with a hand behind the foam", u.part)
	case u.starts("the ribs of") && strings.Contains(u.what, catalog.RibbedHose.Pipe()):
		return "how it is inside, felt at an open end, for some are smooth there and are spec = \"hose\"; or the pressure after the pump by one gauge, given as a reading"
	case u.starts("the bore of"):
		return "the bore of a cut end, by calliper"
	}
	return "a gauge on the pump's outlet, or a meter clamped on its line, given as a reading"
}

// unhindered is how the line lets most water through: what its filter holds is out of the way.
func unhindered(m *hydraulic.Model) string {
	cartridge, sand := false, false
	for i := range m.Parts {
		if p := m.Parts[i].Part; p.Kind == graph.Filter {
			bed := m.Parts[i].Set.Media() == settle.Sand
			cartridge, sand = cartridge || !bed, sand || bed
		}
	}
	switch {
	case cartridge:
		return "open with the cartridge out"
	case sand:
		return "open with the filter's own valve set to lead past the sand"
	}
	return "open"
}

// settling is the reading that would settle an unknown. Of a valve set by the display of a unit whose flow was
// read already that is no news: it is set anew, and what then is read counts.
func (s *spreader) settling(u *unknown, m *hydraulic.Model) quantity.Text {
	display := s.displays(u.part)
	shown := slices.ContainsFunc(s.read, func(r *reading) bool { return !r.Pressed() && slices.Contains(s.past[u.part], r.Part) })
	if display != "" && shown && u.setting() {
		return graph.Say("the flow on %s once more when %q is set to what is wanted by it, and write that in place of what was read", display, u.part)
	}
	return u.reading(m, display)
}

// setting reports whether the unknown is what a hand valve is set to.
func (u *unknown) setting() bool { return u.starts("where the handle", "where the wheel", "the Kv of") }

// starts reports whether what is unknown is called by one of some beginnings.
func (u *unknown) starts(words ...string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(u.what, w) })
}

// displays names what shows the flow of the units that a part leads past; "" of a part that leads past
// none.
func (s *spreader) displays(id string) quantity.Text {
	past := s.past[id]
	switch {
	case len(past) == 0:
		return ""
	case len(s.others) == 0:
		return "the unit's display"
	}
	units := make([]quantity.Text, len(past))
	for i, unit := range past {
		units[i] = graph.Say("%q", unit)
	}
	what := quantity.Text("the display")
	if len(units) > 1 {
		what += "s"
	}
	return what + " of " + quantity.Join(units, " and ")
}
