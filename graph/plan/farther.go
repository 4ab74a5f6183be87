package plan

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
)

// FartherM is by how much longer each of a unit's two pipes is looked at where nothing says where it stands, m.
// Common practice, no source: units stand 2 to 9 m of pipe from the line that is cut for them.
const FartherM = 5

// Farther is what it comes to where nothing says where the job's unit stands: its pipes are as short as can be
// then, and the flows those of a unit beside its line.
type Farther struct {
	Unit               string
	ToUnitM, FromUnitM float64 // pipe to it and back as the flows are worked out for, m
	Modes              []FartherFlow
}

// FartherFlow is the unit's flow in a mode, m³/s, with FartherM more of the pipe that leads to it, and as much more of
// that which leads back, the bypass left as it is.
type FartherFlow struct {
	Mode string
	Flow float64
}

// Farther is nil where something says where the unit stands, where no place is built in for it and where it gets no
// water. It is of the case that is taken.
func (p *Plan) Farther() *Farther {
	ask := p.Asked.Retrofit
	if ask == nil || ask.Remove || ask.Stand != nil || len(ask.ToUnit)+len(ask.FromUnit) > 0 || p.Proposal == nil || p.After == nil || p.After.Layout == nil {
		return nil
	}
	branch, _ := p.After.Layout.Stage.Branch()
	if branch == nil {
		return nil
	}
	out := &Farther{Unit: branch.Unit.ID}
	for _, mode := range p.After.Circuit.AllModes() {
		sol := p.After.Solution(mode.Name)
		if sol == nil {
			continue
		}
		if unit := sol.Part(out.Unit); unit == nil || unit.Flow <= hydraulic.Standing {
			continue
		}
		m, err := spread.Build(p.After.Layout, mode, graph.After)
		if err != nil {
			continue
		}
		out.ToUnitM, out.FromUnitM = lengthen(m, branch.ToUnitRuns), lengthen(m, branch.FromUnitRuns)
		m.Near(sol)
		if far, err := m.Solve(nil); err == nil {
			out.Modes = append(out.Modes, FartherFlow{mode.Name, hydraulic.Passing(far.Part(out.Unit).Flow)})
		}
	}
	if len(out.Modes) == 0 {
		return nil
	}
	return out
}

// lengthen makes the longest of some runs longer by FartherM and returns how long they were together, m.
func lengthen(m *hydraulic.Model, runs []*graph.Run) (was float64) {
	var longest *hydraulic.ModelRun
	for _, r := range runs {
		if i, ok := m.RunAt[r.ID]; ok {
			run := &m.Runs[i]
			was += run.LengthM
			if longest == nil || run.LengthM > longest.LengthM {
				longest = run
			}
		}
	}
	if longest != nil {
		longest.LengthM += FartherM
	}
	return was
}
