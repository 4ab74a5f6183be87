package plan

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
)

// beside tries the place for a second unit: in parallel with one that is there, teed into its
// pipes. Units in a row on one line warm each other's water, and each costs the line its
// own bypass. Where the cut is named the description decides.
func (s *search) beside() {
	branch := retrofit.BesideUnit(s.asked, s.before.Layout)
	if branch == nil || s.asked.Retrofit.Cut != nil {
		return
	}
	t := &trial{unit: s.asked.Retrofit.Unit}
	t.proposal, t.built = retrofit.Parallel(s.asked, s.before.Layout, branch)
	t.findings = slices.Clone(t.built)
	s.trials = append(s.trials, t)
	if t.proposal == nil {
		t.place = retrofit.Place{Run: firstRun(branch.ToUnitRuns)}
		return
	}
	t.place = t.proposal.Place
	s.before.solve(graph.Before)
	t.judgeLayout(s.before)
	t.judgeFlow(s.before)
	second := &rule.Input{Circuit: t.proposal.Circuit, Cut: cutAt(t.proposal.Circuit, *t.proposal.Second, t.proposal.Pos)}
	t.findings = append(t.findings, rule.ApplyCut(second)...)
}

func firstRun(runs []*graph.Run) string {
	if len(runs) == 0 {
		return ""
	}
	return runs[0].ID
}
