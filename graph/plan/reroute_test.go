package plan_test

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/route/laying"
)

// The best pair of pipes by legs and elbows can't be had here: what hangs on it stands in the
// cabinet's front. The plan has another pair, longer or with more elbows, that is clear.
func TestSecondPairRescuesTheJob(t *testing.T) {
	c := readFile(t, "testdata/jobs/through-the-front.toml")
	before := laying.Of(c.At(graph.Before))
	choice := retrofit.NewSite(c, before).FirstChoice(c.Retrofit.Cut.Run)
	place, ok := retrofit.NewSite(c, before).PlaceAt(*c.Retrofit.Cut, choice)
	if !ok {
		t.Fatal("no such place")
	}
	first, _ := retrofit.NewSite(c, before).Build(place, choice)
	if first == nil || !first.Led() {
		t.Fatal("no pipes are found")
	}
	s := &stage.Stage{Circuit: first.Circuit.At(graph.After)}
	if s.Lay(); !graph.HasErrors(s.Clashes) {
		t.Error("the first pair is clear: this job no longer shows anything")
	}
	p := work(t, c, plan.Findings)
	if p.Proposal == nil {
		t.Fatal("nothing proposed")
	}
	for _, d := range errorsOf(p.Findings) {
		t.Error(d)
	}
	if blocks := p.After.Bodies.Replay(); len(blocks) > 0 {
		t.Errorf("%d joints can't be made in their turn", len(blocks))
	}
	for _, both := range inside(p.After.Bodies) {
		t.Error(both)
	}
	if legsOf(p.Proposal, 0) == legsOf(first, 0) && legsOf(p.Proposal, 1) == legsOf(first, 1) {
		t.Error("the first pair is built")
	}
}
