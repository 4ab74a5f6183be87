package search

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
	"dryfit/graph/stream"
)

// beside tries the places for a further unit: in parallel with each that is there, teed into its
// pipes. Units in a row on one line warm each other's water, and each costs the line its
// own bypass. Where the cut is named the description decides.
func (s *search) beside() {
	if s.asked.Retrofit.Cut != nil {
		return
	}
	for _, branch := range retrofit.BesideUnits(s.asked, s.before.Layout) {
		s.trials = append(s.trials, s.inParallel(branch))
	}
}

// inParallel tries the unit in parallel with one that is there.
func (s *search) inParallel(branch *stream.UnitBranch) *trial {
	t := &trial{unit: s.asked.Retrofit.Unit, beside: branch.Unit.ID, before: s.before.Layout.Stage, others: s.bound}
	t.made(func() (*retrofit.Proposal, []graph.Diagnostic) { return s.site.Parallel(branch) })
	if t.proposal == nil {
		t.place = retrofit.Place{Run: firstRun(branch.ToUnitRuns)}
		return t
	}
	t.place = t.proposal.Place
	s.before.Solve(graph.Before)
	t.judgeLayout(s.before)
	t.judgeFlow(s.before)
	second := &rule.Input{Circuit: t.proposal.Circuit, Cut: CutAt(t.proposal.Circuit, *t.proposal.Second, t.proposal.Pos)}
	t.findings = append(t.findings, rule.ApplyCut(second)...)
	return t
}

// parallel reports whether a trial has the unit teed into the pipes of another.
func (t *trial) parallel() bool { return t.proposal != nil && t.proposal.Second != nil }

func firstRun(runs []*graph.Run) string {
	if len(runs) == 0 {
		return ""
	}
	return runs[0].ID
}

// preferParallel puts the place in parallel first where it is possible and the unit gets
// at least its least flow: heat pump manuals ask for units in parallel
// with equal runs, even where a unit in a row would get more water, for in a row the second
// gets what the first has warmed.
func (s *search) preferParallel() {
	i := slices.IndexFunc(s.trials, (*trial).parallel)
	if i < 0 {
		return
	}
	t := s.trials[i]
	if t.standing() > 0 || !t.promise().Keeps(t.outcome()) {
		return
	}
	copy(s.trials[1:i+1], s.trials[:i])
	s.trials[0] = t
}
