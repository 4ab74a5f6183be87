package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/route"
)

// legMistakes are ways to write one leg wrong, each given the leg as it should be.
var legMistakes = map[string]func(by graph.Vec) []graph.Vec{
	"the other way round": func(by graph.Vec) []graph.Vec { return []graph.Vec{by.Scale(-1)} },
	"folded back":         func(by graph.Vec) []graph.Vec { return []graph.Vec{by, by.Scale(-0.5)} },
	"twice as long":       func(by graph.Vec) []graph.Vec { return []graph.Vec{by.Scale(2)} },
	"left out":            func(graph.Vec) []graph.Vec { return nil },
}

// withLegs is a circuit with one leg (from 0) of a run written as others are, each at its own place.
func withLegs(c *graph.Circuit, run *graph.Run, leg int, as []graph.Vec) *graph.Circuit {
	out := *c
	out.Runs = slices.Clone(c.Runs)
	own := *run
	own.Legs = slices.Clone(run.Legs[:leg])
	for _, by := range as {
		l := run.Legs[leg]
		l.By = by
		own.Legs = append(own.Legs, l)
	}
	own.Legs = append(own.Legs, run.Legs[leg+1:]...)
	out.Runs[slices.Index(c.Runs, run)] = &own
	return &out
}

// One leg of drawn work written wrong is told once or twice, by an error that stands at the leg or names its
// run; what lies beyond it and then runs into something is told under it. Where the hint says it was
// tried, the leg written so leaves no error. By the mistake itself, nothing outside the project.
func TestOneWrongLegIsOneFinding(t *testing.T) {
	seen, tried, twice := 0, 0, 0
	for _, file := range []string{"../../testdata/two-speed.toml", "../../testdata/plug-in.toml"} {
		c := rewritten(t, planned(t, file)).Asked
		for i, r := range c.Runs {
			for k := range r.Legs {
				for n, name := range []string{"the other way round", "folded back", "twice as long", "left out"} {
					if !r.New() || name == "left out" && len(r.Legs) == 1 || !lots.All() && (i+k+n)%2 != 0 {
						continue
					}
					wrong := withLegs(c, r, k, legMistakes[name](r.Legs[k].By))
					errs := gravest(work(t, wrong, plan.Findings))
					if len(errs) == 0 {
						continue
					}
					seen++
					if len(errs) > 1 {
						twice++
					}
					what := func() string { return file + ": " + name + ": leg of " + r.ID }
					if len(errs) > 2 {
						t.Errorf("%s: %d errors", what(), len(errs))
					}
					if !slices.ContainsFunc(errs, func(d graph.Diagnostic) bool {
						return pointsAt(d, r, k) || name == "twice as long" && strings.Contains(d.Message.In(0), "does not close") // which leg of the loop nobody can tell
					}) {
						t.Errorf("%s: nothing points at it, but %q", what(), errs[0].Message.In(0))
					}
					for _, d := range errs {
						if !d.Tried {
							continue
						}
						tried++
						if name != "the other way round" && name != "folded back" {
							t.Errorf("%s: %q was asked for", what(), d.Hint.In(0))
						}
						if want := fmt.Sprintf("leave leg %d of ", k+2); name == "folded back" && strings.Contains(d.Hint.In(0), "the loop closes") && !strings.Contains(d.Hint.In(0), want) {
							t.Errorf("%s: asks for %q, leg %d folds back", what(), d.Hint.In(0), k+2)
						}
						if want := r.Legs[k].Words(); name == "the other way round" && len(r.Legs) == 1 && !strings.Contains(d.Hint.In(0), want.In(0)) {
							t.Errorf("%s: asks for %q, it was %q", what(), d.Hint.In(0), want.In(0))
						}
					}
				}
			}
		}
	}
	t.Logf("%d wrong legs, %d of them told twice, %d with what was tried", seen, twice, tried)
	if seen < 30 || tried < 8 || twice > seen/4 {
		t.Errorf("%d wrong legs, %d of them told twice, %d with what was tried", seen, twice, tried)
	}
}

func gravest(p *plan.Plan) []graph.Diagnostic {
	return slices.DeleteFunc(slices.Clone(p.Findings), func(d graph.Diagnostic) bool { return d.Severity != graph.Error })
}

// pointsAt reports whether a finding stands at the leg, or at what its run joins, or names it.
func pointsAt(d graph.Diagnostic, r *graph.Run, leg int) bool {
	if d.Pos == r.Pos || d.Pos == r.Legs[leg].Pos || slices.Contains(d.Alters, r.ID) {
		return true
	}
	said := d.Message.In(0) + " " + d.Hint.In(0)
	return strings.Contains(said, r.ID) || strings.Contains(said, "\""+r.From.Part+"\"") || strings.Contains(said, "\""+r.To.Part+"\"")
}

// A second mistake that has nothing to do with the first is told beside it: pipe led through the middle of
// what is to be kept clear runs through it, wherever a loop that misses by 20 mm is closed. By hand.
func TestSecondMistakeIsNotHidden(t *testing.T) {
	p := work(t, readFile(t, "testdata/jobs/one-speed.toml"), plan.Findings)
	drawn := work(t, read(t, "planned.toml", description.Write(p.Circuit)), plan.Findings)
	c := drawn.Asked
	kept := route.KeptClear(drawn.After.Layout)
	for _, part := range c.Parts {
		for i := range part.KeepClear {
			inlet := drawn.After.Layout.Positions[c.TheUnit().ID+".in"].Sub(kept[0].Low.Sub(kept[0].From))
			part.KeepClear[i].From, part.KeepClear[i].To = inlet.Add(graph.Vec{X: -200, Y: -200, Z: -200}), inlet.Add(graph.Vec{X: 200, Y: 200, Z: 200})
		}
	}
	told := 0
	for _, r := range c.Runs {
		for k := range r.Legs {
			if !r.New() || r.Legs[k].LengthMM() < 200 {
				continue
			}
			errs := gravest(work(t, withLeg(c, r, k, r.Legs[k].LengthMM()+20), plan.Findings))
			loop, keeps := false, false
			for _, d := range errs {
				loop = loop || strings.Contains(d.Message.In(0), "does not close")
				keeps = keeps || d.Rule == "clash" && strings.Contains(d.Message.In(0), "what is to be kept clear")
			}
			if loop && !keeps {
				t.Errorf("leg %d of %s 20 mm longer: what passes what is to be kept clear is not told", k+1, r.ID)
			}
			if loop && keeps {
				told++
			}
		}
	}
	if told < 2 {
		t.Errorf("both told %d times", told)
	}
}
