package plan

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan/advice"
	"dryfit/graph/plan/stage"
	"dryfit/graph/stream"
)

// ModeSummary is what one mode comes to, in the numbers a customer follows. Flows are m³/s.
type ModeSummary struct {
	Mode               string
	HasUnit            bool // the job's own has a place
	UnitID             string
	Unit               float64 // flow through the unit
	Least, Rated, Most float64 // of the unit; 0: not given
	RiseK              float64
	CheckState         string  // of the bypass element, if it is a check
	Bypass             float64 // flow past the unit
	Past               string  // id of what throttles or checks that; "" where nothing does
	HasJets            bool
	Jets, JetsToday    float64
	HasToday           bool    // the circuit as it stands was solved too: JetsToday is its own
	Pump               float64 // flow of the running pump; where several run of that which moves most, of the unit's water before another
	PumpID             string  // of that pump; "" where none runs
	PumpAsDescribed    float64 // Pump by the description alone, where no unit has water and what was read contradicts that; else 0
	OtherWater         bool    // none runs but of another water than the unit's
	Moving             float64 // what that moves were its water moving already; Pump, but where it holds at two flows

	Beside []UnitSummary // other units of the circuit that have water, in its order
	ahead  int           // how many of them stand before the job's own in that order

	asDescribed float64 // UnitSummary.AsDescribed of the job's own
	astray      float64 // its UnitSummary.Astray
}

// UnitSummary is what one of several units gets in a mode, m³/s.
type UnitSummary struct {
	ID                       string
	Flow, Least, Rated, Most float64
	RiseK                    float64
	AsDescribed              float64 // its flow by the description alone, where what was read contradicts that; else 0
	Astray                   float64 // what other pumps send through it while its own is off, and Flow is 0

	Past   string  // id of what throttles or checks its bypass; "" where nothing does
	Bypass float64 // flow past it there
	State  string  // of a check there
	Shares string  // id of the unit before it in Units whose bypass that is too; "": none
}

// Own is the job's own unit; all but its id is nothing where it has no water.
func (m *ModeSummary) Own() UnitSummary {
	return UnitSummary{ID: m.UnitID, Flow: m.Unit, Least: m.Least, Rated: m.Rated, Most: m.Most, RiseK: m.RiseK, AsDescribed: m.asDescribed, Astray: m.astray, Past: m.Past, Bypass: m.Bypass, State: m.CheckState}
}

// Units are all the units that have water, in the order of the circuit, which is that of their names
// on the papers.
func (m *ModeSummary) Units() []UnitSummary {
	out := slices.Clone(m.Beside)
	if m.HasUnit {
		out = slices.Insert(out, m.ahead, m.Own())
	}
	first := map[string]string{} // the unit a bypass was met with first
	for i := range out {
		u := &out[i]
		if u.Shares = first[u.Past]; u.Past != "" && u.Shares == "" {
			first[u.Past] = u.ID
		}
	}
	return out
}

// RiseWords says what the water warms by in the unit, "2.9 K", or that it stands; "" where
// the unit has no rating.
func (u UnitSummary) RiseWords() quantity.Text {
	switch {
	case hydraulic.Passing(u.Flow) == 0:
		return hydraulic.NoFlow
	case u.RiseK > 0:
		return quantity.Say("%s", quantity.TemperatureDifference.Of(u.RiseK))
	}
	return ""
}

// Summarise returns a summary of every mode after the work, in the order of the modes; of
// the circuit as it stands where there is no unit to fit. It is of the case that is taken: as described, or as
// what was read has it, with what a unit gets as described beside.
func Summarise(p *Plan) []ModeSummary {
	stage := p.After
	if stage == nil {
		stage = p.Before
	}
	if stage == nil {
		return nil
	}
	branch, _ := stage.Layout.Stage.Branch()
	var out []ModeSummary
	for i := range stage.Solutions {
		sol := &stage.Solutions[i]
		m := ModeSummary{Mode: sol.Mode.Name, Pump: pumpFlow(sol), PumpID: mover(sol), Moving: pumpMoving(sol), OtherWater: sol.OtherWater()}
		m.Jets, m.HasJets = sol.JetsFlow()
		m.Jets = hydraulic.Passing(m.Jets)
		m.JetsToday = m.Jets
		if before := p.Before.Solution(sol.Mode.Name); before != nil {
			if today, ok := before.JetsFlow(); ok {
				m.JetsToday, m.HasToday = hydraulic.Passing(today), stage != p.Before
			}
		}
		var own *graph.Part
		if branch != nil {
			own = branch.Unit
			m.addUnit(sol, branch, advice.PromiseOf(stage.Layout.Stage.Part(own.ID)))
			m.asDescribed = p.asDescribed(m.Mode, m.UnitID, m.Unit)
		}
		if !m.HasUnit {
			m.PumpAsDescribed = p.described(m.Mode, m.Pump, pumpFlow)
		}
		m.addBeside(sol, stage, own)
		for i := range m.Beside {
			u := &m.Beside[i]
			u.AsDescribed = p.asDescribed(m.Mode, u.ID, u.Flow)
		}
		out = append(out, m)
	}
	return out
}

// asDescribed is what a unit gets in a mode by the description alone, where that is not what it gets; else 0.
func (p *Plan) asDescribed(mode, unit string, gets float64) float64 {
	return p.described(mode, gets, func(s *hydraulic.Solution) float64 {
		if u := s.Part(unit); u != nil && !u.Idle() {
			return math.Abs(u.Flow)
		}
		return gets
	})
}

// described is a flow of a mode by the description alone, where that is not what it is; else 0.
func (p *Plan) described(mode string, is float64, flow func(*hydraulic.Solution) float64) float64 {
	for i := range p.Described {
		s := &p.Described[i]
		if s.Mode.Name != mode {
			continue
		}
		if was := flow(s); math.Abs(was-is) > hydraulic.Alike*is {
			return hydraulic.Passing(was)
		}
	}
	return 0
}

func (m *ModeSummary) addUnit(sol *hydraulic.Solution, branch *stream.UnitBranch, asks advice.Promise) {
	u, ok := unitSummary(sol, branch, asks)
	if !ok {
		return
	}
	m.HasUnit, m.UnitID, m.Unit, m.RiseK = true, u.ID, u.Flow, u.RiseK
	m.Least, m.Rated, m.Most = u.Least, u.Rated, u.Most
	m.Past, m.Bypass, m.CheckState, m.astray = u.Past, u.Bypass, u.State, u.Astray
}

// unitSummary is what a unit gets, and what its bypass does; false where it has no place.
func unitSummary(sol *hydraulic.Solution, branch *stream.UnitBranch, asks advice.Promise) (UnitSummary, bool) {
	unit := sol.Part(branch.Unit.ID)
	if unit == nil {
		return UnitSummary{}, false
	}
	u := UnitSummary{ID: unit.Part.ID, Flow: hydraulic.Passing(unit.Flow), Least: asks.Least, Rated: asks.Rated, Most: asks.Most, RiseK: unit.RiseK}
	if unit.Idle() {
		u.Flow, u.Astray = 0, math.Abs(unit.Flow)
	}
	element := branch.Element()
	if element == nil {
		return u, true
	}
	if past := sol.Part(element.ID); past != nil {
		u.Past, u.Bypass = element.ID, hydraulic.Passing(past.Flow)
		if element.Kind == graph.CheckValve {
			u.State = past.State
		}
	}
	return u, true
}

// addBeside lists the units that have a branch, but the job's own; nil: it has none.
func (m *ModeSummary) addBeside(sol *hydraulic.Solution, stage *stage.Stage, own *graph.Part) {
	before := true
	for _, b := range stage.Layout.Stage.Branches() {
		u, ok := unitSummary(sol, b.UnitBranch, advice.PromiseOf(stage.Layout.Stage.Part(b.Unit.ID)))
		before = before && b.Unit != own
		if !ok || b.Unit == own {
			continue
		}
		if before {
			m.ahead++
		}
		m.Beside = append(m.Beside, u)
	}
}

// JetsChange returns how much the jets gain (+) or lose (-) against today, as a share.
func (m ModeSummary) JetsChange() float64 {
	if m.JetsToday == 0 {
		return 0
	}
	return m.Jets/m.JetsToday - 1
}

// pumpMoving returns what the pumps that run would move, the most of one, were the water moving
// already when they start.
func pumpMoving(s *hydraulic.Solution) float64 {
	most := 0.0
	for _, p := range movers(s) {
		most = max(most, p.Moving, p.Flow)
	}
	return most
}

// pumpFlow returns the flow of the running pump that moves most.
func pumpFlow(s *hydraulic.Solution) float64 {
	most := 0.0
	for _, p := range movers(s) {
		most = max(most, p.Flow)
	}
	return most
}

// mover returns the id of the running pump that moves most, the first of those that move alike; "" where none runs.
func mover(s *hydraulic.Solution) string {
	id, most := "", -1.0
	for _, p := range movers(s) {
		if p.Flow > most {
			id, most = p.Part.ID, p.Flow
		}
	}
	return id
}

// movers are the pumps that run: those of the unit's water, or where none of that runs those of another.
func movers(s *hydraulic.Solution) []*hydraulic.PartFlow {
	var out []*hydraulic.PartFlow
	other := s.OtherWater()
	for i := range s.Parts {
		if p := &s.Parts[i]; p.Part.Kind == graph.Pump && p.State != "off" && p.Apart == other {
			out = append(out, p)
		}
	}
	return out
}
