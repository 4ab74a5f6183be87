package table

import (
	"cmp"
	"fmt"
	"strings"

	"dryfit/graph/hydraulic/spread"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// setLines say what a throttle set by its reading makes of the ranges: what it is set to, in how
// many of the samples it comes to that, and what the unit then gets; nothing where none is set so.
// The unit goes by its name where there are several; "": the only one.
func setLines(set *spread.Set, unit string, names *tag.Names, s form.Style) []string {
	if set == nil {
		return nil
	}
	valve := fmt.Sprintf("%q", set.Valve)
	if names != nil {
		valve = names.Tag(set.Valve)
	}
	unit = cmp.Or(unit, "the unit")
	mode := func(m string) string { return strings.TrimPrefix(modeWords(names, m), "mode ") }
	out := []string{fmt.Sprintf("  the throttle %s is set by its reading, %s through %s (%s), good for %s %%: it comes to that in %d of %d samples%s",
		valve, s.Flow(set.Flow), unit, mode(set.Mode), form.Fixed(100*max(-set.Reading.Low, set.Reading.High), 0), set.Reached(), set.Of, missed(set, unit))}
	var then []string
	for i := range set.Modes {
		m := &set.Modes[i]
		said := mode(m.Mode) + ": " + unit + " gets " + m.Unit.Words(s.FlowUnit().Text) + " " + s.FlowUnit().Name
		if m.Has && m.Jets.High-m.Jets.Low >= 0.005 {
			said += ", the jets " + m.Jets.Words(signedPercent) + " %"
		}
		then = append(then, said)
	}
	return append(out, "    set so, nine in ten lie between: "+strings.Join(then, "; "), "    the ranges of all parts are those with it set so")
}

// missed says how a throttle stands in the samples in which it does not come to its reading.
func missed(set *spread.Set, unit string) string {
	var out []string
	if set.Shut > 0 {
		out = append(out, fmt.Sprintf("in %d it is shut and %s gets less", set.Shut, unit))
	}
	if set.Open > 0 {
		out = append(out, fmt.Sprintf("in %d it is open and %s gets more", set.Open, unit))
	}
	if set.Jumps > 0 {
		out = append(out, fmt.Sprintf("in %d no turn of it gives that, for the flow jumps past it, and %s is left less", set.Jumps, unit))
	}
	if len(out) == 0 {
		return ""
	}
	return "; " + strings.Join(out, ", ")
}

// setJSON is what a throttle set by its reading makes of the ranges.
type setJSON struct {
	Valve   string        `json:"valve"`
	Mode    string        `json:"mode"`
	Reading float64       `json:"reading_m3_h"`
	Off     float64       `json:"reading_percent"` // either way
	Reached int           `json:"reached"`
	Shut    int           `json:"shut"`            // samples in which it is shut and the unit gets less
	Open    int           `json:"open"`            // in which it is open and the unit gets more
	Jumps   int           `json:"jumps,omitempty"` // in which the flow jumps past it and the unit is left less
	Of      int           `json:"of"`
	Modes   []setModeJSON `json:"modes"`
}

type setModeJSON struct {
	Mode string     `json:"mode"`
	Unit *rangeJSON `json:"unit_flow_m3_h_range"`
	Jets *rangeJSON `json:"jets_change_percent_range,omitempty"`
}

func setOf(set *spread.Set) *setJSON {
	if set == nil {
		return nil
	}
	out := &setJSON{set.Valve, set.Mode, form.M3h(set.Flow), form.Round(100*max(-set.Reading.Low, set.Reading.High), 2), set.Reached(), set.Shut, set.Open, set.Jumps, set.Of, nil}
	for i := range set.Modes {
		m := &set.Modes[i]
		mode := setModeJSON{Mode: m.Mode, Unit: sampleRange(m.Unit, form.M3h)}
		if m.Has {
			mode.Jets = sampleRange(m.Jets, func(v float64) float64 { return form.Round(v*100, 2) })
		}
		out.Modes = append(out.Modes, mode)
	}
	return out
}
