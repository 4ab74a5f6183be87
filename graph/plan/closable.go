package plan

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route"
)

// What is tried to let drawn work be put together: so many of its valves, so many of its longest
// straight legs, and so many changes together. Judgement, no source: each try lays the work out again.
const (
	mostClosingValves = 12
	mostClosingLegs   = 4
	mostClosings      = 3
)

// closable gives the errors of the order of assembly, where the user drew the work, a change that
// was tried: with it the work can be put together, and nothing else is wrong that was not before.
// The place of a bypass that the tool chose has advice of its own.
func (p *Plan) closable() {
	if p.Asked.Retrofit != nil || p.After == nil || openJoints(p.After) == 0 {
		return
	}
	shutIn := slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool { return d.Rule == "pump-not-shut-in" && d.Severity == graph.Error })
	hint := quantity.Join(closing(p.After, !shutIn), ", and ")
	switch {
	case hint != "":
	case shutIn:
		hint = "see first to the valve that shuts the pump in: with it taken out, or moved, what closes the line is looked for again"
	default:
		hint = "say how far the old pipe can be drawn back where it is cut (play), or draw this pipe otherwise: neither one union nor two in one of the longest new legs were found to do"
	}
	for i := range p.Findings {
		if d := &p.Findings[i]; d.Rule == "assembly" && d.Severity == graph.Error {
			d.Hint, hint = hint, "see the joint before it: one change mends both, or none that was tried does"
		}
	}
}

// closing is the changes that let the work of a stage be put together: a valve of its own made a
// true-union one, else a union in a leg, else two; nil where none of them does.
func closing(s *stage.Stage, valves bool) []quantity.Text {
	kinds := []func(*stage.Stage) []change{
		func(t *stage.Stage) []change { return unionsIn(s, t, 1) },
		func(t *stage.Stage) []change { return unionsIn(s, t, 2) },
	}
	if valves {
		kinds = slices.Insert(kinds, 0, trueUnions)
	}
	open, wrong := openJoints(s), errorsBeside(s)
	for _, kind := range kinds {
		at, left := s, open
		var done []quantity.Text
		for found := true; found && len(done) < mostClosings; {
			found = false
			for _, ch := range kind(at) {
				t := &stage.Stage{Circuit: ch.circuit}
				t.Lay()
				if now := openJoints(t); now < left && errorsBeside(t) <= wrong {
					at, left, done, found = t, now, append(done, ch.words), true
					break
				}
			}
			if left == 0 {
				return done
			}
		}
	}
	return nil
}

// openJoints is how many joints of a stage can't be made.
func openJoints(s *stage.Stage) int {
	return countErrors(route.Assemble(s.Layout).Findings) + countErrors(s.Blocked)
}

// errorsBeside is how many errors the laying out of a stage has besides.
func errorsBeside(s *stage.Stage) int {
	return countErrors(s.Layout.Findings) + countErrors(s.Clashes) + countErrors(s.Bodies.CheckHands())
}

func countErrors(ds []graph.Diagnostic) int {
	n := 0
	for _, d := range ds {
		if d.Severity == graph.Error {
			n++
		}
	}
	return n
}

// change is something done to drawn work: in words, and the circuit with it.
type change struct {
	words   quantity.Text
	circuit *graph.Circuit
}

// trueUnions are the new valves of a stage, the first of many, each made a true-union one, where the
// catalogue has it.
func trueUnions(s *stage.Stage) []change {
	var out []change
	for i, part := range s.Circuit.Parts {
		set := s.Layout.Stage.Part(part.ID)
		if !part.New() || part.Kind != graph.BallValve && part.Kind != graph.CheckValve || set.Opens() {
			continue
		}
		style := cmp.Or(set.Row.V.Style, string(part.Kind))
		row, ok := s.Circuit.Catalog.Fitting("true-union-"+style, set.Spec.V, set.Size.V)
		if !ok {
			continue
		}
		p := *part
		p.Type = row.Name
		c := *s.Circuit
		c.Parts = slices.Clone(c.Parts)
		c.Parts[i] = &p
		if out = append(out, change{graph.Say("make %s a true-union valve (type = %q)", p.ID, p.Type), &c}); len(out) == mostClosingValves {
			break
		}
	}
	return out
}

// unionsIn are the longest straight legs of new rigid pipe of a stage that the drawn one has too,
// each with so many unions spaced evenly in it.
func unionsIn(drawn, s *stage.Stage, count int) []change {
	type place struct {
		run *graph.Run
		leg int
	}
	var places []place
	for _, r := range s.Circuit.Runs {
		for k := range r.Legs {
			if r.New() && slices.Contains(drawn.Circuit.Runs, r) && !r.Spec.Flexible() && !r.Legs[k].Open {
				places = append(places, place{r, k})
			}
		}
	}
	slices.SortStableFunc(places, func(a, b place) int {
		return cmp.Compare(b.run.Legs[b.leg].LengthMM(), a.run.Legs[a.leg].LengthMM())
	})
	var out []change
	for _, at := range places[:min(len(places), mostClosingLegs)] {
		row, ok := s.Circuit.Catalog.Fitting(string(graph.Union), at.run.Spec, at.run.Size)
		leg := at.run.Legs[at.leg]
		between := math.Floor((leg.LengthMM() - float64(count)*row.LengthMM) / float64(count+1)) // as it is said
		if !ok || between <= 0 {
			continue
		}
		words := graph.Say("put a union into %s, with %s of it before the union", route.LegWords(at.run, at.leg+1), quantity.Length.Of(between))
		if count == 2 {
			words = graph.Say("put two unions into %s, with %s of it before the first and between them", route.LegWords(at.run, at.leg+1), quantity.Length.Of(between))
		}
		out = append(out, change{words, withUnions(s.Circuit, at.run, at.leg, count, between, row.LengthMM)})
	}
	return out
}

// withUnions is a circuit with unions in a leg of a run, so far from each other and from its ends.
func withUnions(c *graph.Circuit, r *graph.Run, leg, count int, betweenMM, unionMM float64) *graph.Circuit {
	d := draft.Of(c)
	d.Pos = r.Pos
	d.Runs = slices.DeleteFunc(d.Runs, func(o *graph.Run) bool { return o == r })
	end := draft.End{}
	s := draft.NewStrand(r.ID, r.From, r.To, r.Legs, end, end, func(_, _ graph.Vec) draft.End { return end })
	for k := range count {
		id := d.Names.Numbered("union-tried")
		d.AddPart(id, graph.Union, r.Spec, r.Size)
		s.Items = append(s.Items, draft.Item{Part: id, In: graph.In, Out: graph.Out, Length: unionMM, Leg: leg, Pos: betweenMM + float64(k)*(betweenMM+unionMM)})
	}
	for _, piece := range s.Stretches() {
		d.AddRun(piece.From, piece.To, r.Spec, r.Size, piece.Legs)
	}
	return d.Circuit
}
