package stage

import (
	"maps"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/rule"
	"dryfit/graph/stream"
)

// jetsDown is the share of the jets open in the case of jets turned down. A branch keeps two
// jets that can't close; half is common practice, no source.
const jetsDown = 0.5

// blockedK is the loss coefficient of a suction that is covered: nothing passes that counts.
const blockedK = 1e9

// BadDays solves the stage as it is on a bad day: each unit shut off, the filter dirty with the
// jets turned down, and one suction at a time alone. A case without an answer is left out.
func (s *Stage) BadDays(name graph.Stage) {
	if s == nil || s.Layout == nil {
		return
	}
	s.Isolated, s.Alone = nil, nil
	for _, b := range s.Layout.Stage.Branches() {
		if b.Pump != nil {
			s.isolated(b.UnitBranch, name)
		}
	}
	s.SolveDirty(name)
	if name == graph.After {
		s.alone(s.Layout.Stage.Net())
	}
}

// isolated solves the modes of a unit's pumps with the unit shut off and what is in its bypass
// by hand open.
func (s *Stage) isolated(b *stream.UnitBranch, name graph.Stage) {
	to, from := b.Isolators()
	if len(to)+len(from) == 0 || b.TeeIn == nil {
		return
	}
	for _, mode := range s.modesOf(b.Feeds()...) {
		shut := mode
		shut.Positions = maps.Clone(mode.Positions)
		if shut.Positions == nil {
			shut.Positions = map[string]graph.Opening{}
		}
		for _, v := range slices.Concat(to, from) {
			shut.Positions[v.ID] = 0
		}
		for _, v := range b.BypassParts {
			if v.Kind.IsHandValve() {
				shut.Positions[v.ID] = 1
			}
		}
		if sol, err := spread.Solve(s.Layout, shut, name); err == nil {
			s.Isolated = append(s.Isolated, rule.UnitOff{Unit: b.Unit.ID, Solution: *sol})
		}
	}
}

// SolveDirty solves the modes in which a pump of a unit runs with the filter dirty and the jets
// turned down, those that the description does not give itself; once.
func (s *Stage) SolveDirty(name graph.Stage) {
	if s == nil || s.Layout == nil || s.dirtySolved {
		return
	}
	s.dirtySolved = true
	var pumps []*graph.Part
	for _, b := range s.Layout.Stage.Branches() {
		pumps = append(pumps, b.Feeds()...)
	}
	for _, mode := range s.modesOf(pumps...) {
		if bad, ok := BadDay(mode); ok {
			if sol, err := spread.SolveNear(s.Layout, bad, name, s.Solution(mode.Name)); err == nil {
				s.Dirty = append(s.Dirty, *sol)
			}
		}
	}
}

// BadDay is a mode with the filter dirty and the jets turned down; false for one that the
// description gives itself.
func BadDay(mode graph.Mode) (graph.Mode, bool) {
	if mode.Dirty || mode.JetsOpen < 1 {
		return mode, false
	}
	mode.Dirty, mode.JetsOpen = true, jetsDown
	return mode, true
}

// modesOf are the modes in which one of some pumps runs.
func (s *Stage) modesOf(pumps ...*graph.Part) []graph.Mode {
	var out []graph.Mode
	for _, mode := range s.Circuit.AllModes() {
		if slices.ContainsFunc(pumps, func(p *graph.Part) bool { return mode.Speeds[p.ID] != "" }) {
			out = append(out, mode)
		}
	}
	return out
}

// alone solves, for every suction whose cover has a rating, the greatest flow through it with
// the other suctions of its pump blocked.
func (s *Stage) alone(net *stream.Net) {
	for _, tub := range s.Circuit.OfKind(graph.Tub) {
		for _, port := range tub.Ports {
			run := net.Joined(tub.ID, port.Name)
			if port.CoverRating == 0 || run == nil {
				continue
			}
			pump := net.DownstreamOfRun(run).First(graph.Pump)
			if pump == nil {
				continue
			}
			lay := s.Layout.As(s.blocked(net, pump, run)) // what it costs moves no pipe and settles no value
			worst := rule.Alone{Port: tub.ID + "." + port.Name, Pump: pump.ID}
			for _, mode := range s.Circuit.AllModes() {
				sol, err := spread.Solve(lay, mode, graph.After)
				if err != nil {
					continue
				}
				if f := sol.Part(pump.ID); f != nil && f.Flow > worst.Flow {
					worst.Flow, worst.Mode = f.Flow, mode.Name
				}
			}
			if worst.Flow > 0 {
				s.Alone = append(s.Alone, worst)
			}
		}
	}
}

// blocked returns the circuit with every run from a tub to the pump blocked but one.
func (s *Stage) blocked(net *stream.Net, pump *graph.Part, but *graph.Run) *graph.Circuit {
	out := *s.Circuit
	out.Runs = slices.Clone(s.Circuit.Runs)
	suction := net.Suction(pump)
	for i, r := range out.Runs {
		from, _ := net.Ends(r)
		if p := net.Part(from.Part); r == but || p == nil || p.Kind != graph.Tub || !suction.HasRun(r.ID) {
			continue
		}
		shut := *r
		shut.K += blockedK
		out.Runs[i] = &shut
	}
	return &out
}
