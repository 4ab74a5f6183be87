package whatif

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// The groups, in the order of the page.
const (
	groupBypass = "Bypass"
	groupValves = "Valves by hand"
	groupPipe   = "Pipe to the unit"
	groupTub    = "Filter, jets and water"
	groupPump   = "Pump"
	groupUnit   = "Unit"
	groupGuess  = "What nobody measured"
	groupCut    = "Cut"
)

// controlsOf lists what can be turned in a job.
func controlsOf(s *Study) []Control {
	if s.Plan == nil || s.Plan.After == nil || s.Plan.After.Layout == nil {
		return nil
	}
	m := &maker{study: s, set: s.Plan.After.Layout.Stage, asked: s.Plan.Asked, units: s.Job.System(s.Plan.Circuit)}
	m.branch, _ = m.set.Branch()
	m.top = s.source.top
	m.bypass()
	m.checks()
	m.valves()
	m.pipeSize()
	m.pipeLength()
	m.filter()
	m.jets()
	m.water()
	m.pumps()
	m.unitDrops()
	m.guesses()
	m.cut()
	return m.out
}

// maker makes the controls of one study.
type maker struct {
	study  *Study
	set    *settle.Stage // with the work built in
	branch *stream.UnitBranch
	asked  *graph.Circuit // as described
	top    located.Value  // the file
	units  quantity.System
	out    []Control
}

func (m *maker) add(c Control) { m.out = append(m.out, c) }

// inFile reports whether the description has the part.
func (m *maker) inFile(id string) bool { return m.asked.Part(id) != nil }

// bypassID is the control of what stands in the bypass.
const bypassID = "bypass"

// bypass is the element the tool is asked for.
func (m *maker) bypass() {
	r := m.asked.Retrofit
	if r == nil || r.Remove || m.study.Plan.Proposal == nil {
		return
	}
	c := Control{ID: bypassID, Group: groupBypass, Label: "What stands in the bypass", InFile: true, Choices: []Choice{{AsItStands, "as the file has it"}}}
	for _, row := range m.asked.Catalog.Springs() {
		c.Choices = append(c.Choices, Choice{"spring " + row.Name, fmt.Sprintf("spring that opens at %s (%s)", quantity.Format(row.CrackingPa, quantity.Pressure, m.units), row.Name)})
	}
	c.Choices = append(c.Choices, Choice{"auto", "what the tool would take"}, Choice{"valve", "hand valve, set by the tool"}, Choice{"none", "plain pipe"})
	spring := r.Spring != "" || r.SpringPa > 0
	c.edits = func(value string) ([]edit, error) {
		row, isSpring := strings.CutPrefix(value, "spring ")
		switch {
		case isSpring:
			return []edit{ofTop(`"spring"`, "retrofit", "bypass"), ofTop(description.QuoteText(row), "retrofit", "spring")}, nil
		case value == "auto" && spring:
			return []edit{ofTop(`"auto"`, "retrofit", "bypass"), ofTop(`"auto"`, "retrofit", "spring")}, nil
		}
		return []edit{ofTop(description.QuoteText(value), "retrofit", "bypass")}, nil
	}
	m.add(c)
}

// checks are the springs of the checks that are there or were built in. One that was built in is
// chosen by the control of the bypass, and may then be any of the catalogue's.
func (m *maker) checks() {
	unit, factor, step, digits := "kPa", 1e-3, 0.1, 1 // as the papers print it
	if m.units == quantity.InchSystem {
		unit, factor, step, digits = "psi", 1/6894.757293168, 0.05, 2
	}
	for _, p := range m.set.Parts {
		if p.Kind != graph.CheckValve || p.Style.V != settle.Spring || !p.Cracking.Known {
			continue
		}
		opens := func(set *settle.Stage) (float64, bool) {
			q := set.Part(p.ID)
			if q == nil || !q.Cracking.Known {
				return 0, false
			}
			return quantity.Round(q.Cracking.V*factor, digits), true
		}
		now, _ := opens(m.set)
		c := Control{ID: "crack-" + p.ID, Group: groupBypass, Label: "Spring of " + p.ID + " opens at", Unit: unit,
			Low: step, High: math.Max(2.5*now, 20*step), Step: step, Now: now, InFile: m.inFile(p.ID), follows: opens}
		if !c.InFile {
			c.Of = bypassID
			for _, row := range m.asked.Catalog.Springs() {
				c.High = math.Max(c.High, row.CrackingPa*factor+step)
			}
		}
		c.High = quantity.Round(c.High, 1)
		m.add(scale(c,
			func(x float64) []edit {
				return []edit{ofPart(p.ID, description.QuoteText(quantity.Trim(x)+" "+unit), "cracking")}
			}))
	}
}

// valves are the hand valves, those the tool built in too.
func (m *maker) valves() {
	for _, p := range m.set.Parts {
		if !p.Kind.IsHandValve() || p.Valve == nil {
			continue
		}
		c := Control{ID: "valve-" + p.ID, Group: groupValves, Label: m.valveName(p.Part), InFile: m.inFile(p.ID)}
		if e := m.element(); !c.InFile && e != nil && e.ID == p.ID {
			c.Of = bypassID
		}
		if p.Valve.Kv > 0 {
			name, unit, asKept := "Kv", "m3/h", quantity.Kv
			if m.units == quantity.InchSystem {
				name, unit, asKept = "Cv", "gpm", quantity.Cv
			}
			one := quantity.In(1, asKept, unit)
			c.follows = func(set *settle.Stage) (float64, bool) {
				kv, there := kvOf(set.Part(p.ID))
				return quantity.Round(kv*one, 2), there
			}
			c.Now, _ = c.follows(m.set)
			c.Label, c.Unit, c.Low, c.High, c.Step = c.Label+", "+name, unit, 0.1, quantity.Round(3*c.Now+1, 0), 0.1
			m.add(scale(c, func(x float64) []edit { // the file has the Kv
				return []edit{ofPart(p.ID, description.QuoteText(quantity.Trim(quantity.Round(x/one, 4))+" m3/h"), "kv")}
			}))
			continue
		}
		c.follows = func(set *settle.Stage) (float64, bool) { return openOf(set.Part(p.ID)) }
		c.Unit, c.High, c.Step = "% open", 100, 1
		c.Now, _ = c.follows(m.set)
		m.add(scale(c, func(x float64) []edit {
			value := description.QuoteText(quantity.Trim(x) + " %")
			out := []edit{ofPart(p.ID, value, "position")}
			for k, mode := range m.asked.Modes {
				if _, ok := mode.Positions[p.ID]; ok {
					out = append(out, ofTop(value, "mode", k, "positions", p.ID))
				}
			}
			return out
		}))
	}
}

// kvOf is the Kv a hand valve is set to, m3/h; false of any other part, and of one whose position
// is said.
func kvOf(p *settle.Part) (kv float64, there bool) {
	if p == nil || p.Valve == nil || p.Valve.Kv <= 0 {
		return 0, false
	}
	return p.Valve.Kv, true
}

// openOf is how far a hand valve is open, per cent; false of any other part, and of one whose Kv
// is said.
func openOf(p *settle.Part) (percent float64, there bool) {
	if p == nil || p.Valve == nil || p.Valve.Kv > 0 {
		return 0, false
	}
	return quantity.Round(100*float64(p.Opening()), 6), true
}

// valveName says where a valve stands, for one the tool built in has no name of the user's.
func (m *maker) valveName(p *graph.Part) string {
	if m.branch == nil || m.inFile(p.ID) {
		return p.ID
	}
	to, from := m.branch.Isolators()
	for _, q := range to {
		if q.ID == p.ID {
			return p.ID + ", before the unit"
		}
	}
	for _, q := range from {
		if q.ID == p.ID {
			return p.ID + ", after the unit"
		}
	}
	if e := m.element(); e != nil && e.ID == p.ID {
		return p.ID + ", in the bypass"
	}
	return p.ID
}

// element is what stands in the bypass; nil without one.
func (m *maker) element() *graph.Part {
	if m.branch == nil {
		return nil
	}
	return m.branch.Element()
}

// branchRuns are the runs from the line to the unit and back.
func (m *maker) branchRuns() []*graph.Run {
	if m.branch == nil {
		return nil
	}
	return append(append([]*graph.Run(nil), m.branch.ToUnitRuns...), m.branch.FromUnitRuns...)
}

// pipeSize is the size of the unit's pipe.
func (m *maker) pipeSize() {
	runs := m.branchRuns()
	if len(runs) == 0 {
		return
	}
	first := runs[0]
	c := Control{ID: "branch-size", Group: groupPipe, Label: "Size of the unit's pipe", InFile: true,
		Choices: []Choice{{AsItStands, "as it stands: " + first.Size.String()}}}
	written := map[string]string{}
	for _, size := range m.asked.Catalog.PipeSizes(first.Spec) {
		if size.NominalMM() >= 0.6*first.Size.NominalMM() && size.NominalMM() <= 1.7*first.Size.NominalMM() && size != first.Size {
			c.Choices = append(c.Choices, Choice{size.String(), size.String()})
			written[size.String()] = description.SizeText(size)
		}
	}
	if len(c.Choices) < 2 {
		return
	}
	retrofit := m.asked.Retrofit != nil && m.study.Plan.Proposal != nil
	c.edits = func(value string) ([]edit, error) {
		if retrofit {
			return []edit{ofTop(written[value], "retrofit", "size")}, nil
		}
		var out []edit
		for _, r := range runs {
			out = append(out, ofRun(r.ID, written[value], "size"))
		}
		return out, nil
	}
	m.add(c)
}

// mostLonger is by how much the two pipes may be made longer together, m; three times as many ft.
const mostLonger = 20

// pipeLength is more pipe to the unit and back. Where the tool led the pipes or closed their
// loop, no one key of the file says their length: it is tried on what was built in.
func (m *maker) pipeLength() {
	var long *graph.Run
	for _, run := range m.branchRuns() {
		if long == nil || lengthOf(run) > lengthOf(long) {
			long = run
		}
	}
	if long == nil {
		return
	}
	unit, mm, most, step := "m", 1000.0, float64(mostLonger), 0.2
	if m.units == quantity.InchSystem {
		unit, mm, most, step = "ft", 304.8, 3*mostLonger, 0.5
	}
	m.add(scale(Control{ID: "branch-length", Group: groupPipe, Label: "More pipe, there and back together", Unit: unit, High: most, Step: step, InFile: m.asked.Run(long.ID) != nil},
		func(x float64) []edit { return longer(long, mm*x) }))
}

func lengthOf(r *graph.Run) float64 {
	sum := r.LengthMM
	for i := range r.Legs {
		sum += r.Legs[i].LengthMM()
	}
	return sum
}

// longer makes a run longer by some mm, in its longest leg.
func longer(r *graph.Run, mm float64) []edit {
	if len(r.Legs) == 0 {
		return []edit{ofRun(r.ID, description.QuantityText(r.LengthMM+mm, quantity.Length), "length")}
	}
	long := 0
	for i := range r.Legs {
		if r.Legs[i].LengthMM() > r.Legs[long].LengthMM() {
			long = i
		}
	}
	leg := r.Legs[long]
	leg.By = leg.By.Scale((leg.LengthMM() + mm) / leg.LengthMM())
	return []edit{ofRun(r.ID, description.LegText(leg), "legs", long)}
}

// filter is its dirt: how many times the clean drop. It is a state of every mode, and how dirty
// the filter may get.
func (m *maker) filter() {
	for _, p := range m.set.Parts {
		if p.Kind != graph.Filter || !p.Dirty.Known || p.Dirty.V <= 1 || !m.inFile(p.ID) {
			continue
		}
		now := 1.0
		for _, mode := range m.asked.Modes {
			if mode.Dirty {
				now = p.Dirty.V
			}
		}
		m.add(scale(Control{ID: "dirt-" + p.ID, Group: groupTub, Label: "Dirt in " + p.ID, Unit: "times its clean drop",
			Low: 1, High: math.Max(p.Dirty.V, 3), Step: 0.1, Now: now, InFile: true},
			func(x float64) []edit {
				if x <= 1 {
					return []edit{ofModes("filter", `"clean"`)}
				}
				return []edit{ofPart(p.ID, quantity.Trim(x), "dirty-factor"), ofModes("filter", `"dirty"`)}
			}))
		return // modes know one filter's dirt for all
	}
}

// jets is how many of them are open.
func (m *maker) jets() {
	if len(m.asked.OfKind(graph.JetGroup)) == 0 {
		return
	}
	now := 100.0
	if len(m.asked.Modes) > 0 {
		now = 100 * m.asked.Modes[0].JetsOpen
	}
	m.add(scale(Control{ID: "jets-open", Group: groupTub, Label: "Jets open", Unit: "%", Low: 10, High: 100, Step: 5, Now: now, InFile: true},
		func(x float64) []edit { return []edit{ofModes("jets", description.QuoteText(quantity.Trim(x)+" %"))} }))
}

// water is its temperature.
func (m *maker) water() {
	unit, low, high, now := "°C", 5.0, 42.0, m.set.Water.TemperatureC.V
	if m.units == quantity.InchSystem {
		unit, low, high, now = "°F", 41, 108, quantity.Round(now*9/5+32, 1)
	}
	m.add(scale(Control{ID: "water", Group: groupTub, Label: "Water", Unit: unit, Low: low, High: high, Step: 1, Now: now, InFile: true},
		func(x float64) []edit {
			return []edit{ofTop(description.QuoteText(quantity.Trim(x)+" "+unit), "water", "temperature")}
		}))
}
