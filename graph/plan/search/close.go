package search

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// unitLeg is a leg of the unit's two pipes as it is written.
type unitLeg struct {
	graph.Leg
	to bool // of the pipe to the unit
	i  int
}

// unitLegs are the legs of the pipe to the unit, then those of the pipe from it.
func (s *search) unitLegs() []unitLeg {
	var out []unitLeg
	for i, l := range s.asked.Retrofit.ToUnit {
		out = append(out, unitLeg{l, true, i})
	}
	for i, l := range s.asked.Retrofit.FromUnit {
		out = append(out, unitLeg{l, false, i})
	}
	return out
}

func (u unitLeg) kind() string { return fmt.Sprintf("leg %v %d", u.to, u.i) }

// along reports how a leg lies to a way: 1 along it, -1 against it, 0 across.
func (u unitLeg) along(way graph.Vec) float64 {
	switch d := u.By.Unit().Dot(way.Unit()); {
	case d > 0.999:
		return 1
	case d < -0.999:
		return -1
	}
	return 0
}

// legChange is one change to the written legs: a leg gets other than it had, or one is put
// behind it.
type legChange struct {
	of     unitLeg
	by     graph.Vec // what it gets more, or the new leg
	behind bool
}

// legsHelp is a help that changes legs, all together.
func (s *search) legsHelp(some ...legChange) help {
	h := help{}
	var say []quantity.Text
	pipe, turned, added := 0.0, false, 0
	for _, c := range some {
		h.kinds = append(h.kinds, c.of.kind())
		if c.behind {
			say = append(say, graph.Say("\"%s\" after %s", graph.Leg{By: c.by}.Words(), userLeg(&c.of.Leg)))
			added++
			pipe += c.by.Len()
			continue
		}
		now := c.of.Leg
		now.By = now.By.Add(c.by)
		say = append(say, graph.Say("\"%s\" in place of %s", now.Words(), userLeg(&c.of.Leg)))
		turned = turned || now.By.Dot(c.of.By) < 0
		pipe += now.LengthMM() - c.of.LengthMM()
	}
	h.say = quantity.Join(say, ", and ")
	switch {
	case turned:
		h.cost = "the leg the other way round"
	case added > 0:
		h.cost = graph.Say("%d elbows more, and %s of pipe", 2*added, s.length(math.Abs(pipe)))
	case pipe > 0.5:
		h.cost = graph.Say("%s more pipe", s.length(pipe))
	default:
		h.cost = "nothing: it takes no more pipe"
	}
	h.apply = func(c *graph.Circuit) {
		for _, change := range some {
			change.apply(c)
		}
	}
	return h
}

// apply changes the leg in a forked circuit. It is found by where it is written: others may
// have been put in before it.
func (c legChange) apply(in *graph.Circuit) {
	legs := &in.Retrofit.FromUnit
	if c.of.to {
		legs = &in.Retrofit.ToUnit
	}
	i := slices.IndexFunc(*legs, func(l graph.Leg) bool { return l.Pos == c.of.Pos })
	switch {
	case i < 0:
	case c.behind:
		*legs = slices.Insert(*legs, i+1, graph.Leg{By: c.by, Surroundings: graph.NothingSaid()})
	default:
		(*legs)[i].By = (*legs)[i].By.Add(c.by)
	}
}

// mostClosing is how many ways to close a loop are tried.
const mostClosing = 8

// closeHelps make written legs to or from the unit longer or shorter, or turn them round, so
// that the loop through the unit closes: one leg for each axis it misses along, all together.
// Where no leg runs along such an axis one is put in. Where a leg left open would come out as
// less than nothing, another reaches further, so that there is length for it.
func (s *search) closeHelps(t *trial) []help {
	var out []help
	if t.stage != nil && t.stage.Layout != nil {
		for _, c := range t.stage.Layout.Closures {
			if !c.Closed { // it may be walked either way round
				a, b := s.closings(c.ErrorMM.Scale(-1)), s.closings(c.ErrorMM)
				for i := range max(len(a), len(b)) {
					out = append(out, a[min(i, len(a)):min(i+1, len(a))]...)
					out = append(out, b[min(i, len(b)):min(i+1, len(b))]...)
				}
			}
		}
	}
	out = out[:min(len(out), mostClosing)]
	for _, open := range s.unitLegs() {
		if !open.Open { // the others reach less far its way
			continue
		}
		for _, mm := range s.even(100, 200, 400) {
			for _, u := range s.unitLegs() {
				if !u.Open && u.along(open.By) != 0 {
					out = append(out, s.legsHelp(legChange{of: u, by: open.By.Unit().Scale(-mm)}))
				}
			}
		}
	}
	return out
}

// closings are the changes that give the pipes so much more of a way, along every axis.
func (s *search) closings(more graph.Vec) []help {
	combined := [][]legChange{nil}
	for _, axis := range []graph.Vec{{X: more.X}, {Y: more.Y}, {Z: more.Z}} {
		if axis.Len() <= 0.5 {
			continue
		}
		some := s.alongs(axis)
		var next [][]legChange
		for _, c := range combined {
			for _, one := range some {
				next = append(next, append(slices.Clone(c), one))
			}
		}
		if combined = next; len(combined) == 0 {
			return nil
		}
	}
	var out []help
	for _, c := range combined[:min(len(combined), mostClosing)] {
		if len(c) > 0 {
			out = append(out, s.legsHelp(c...))
		}
	}
	return out
}

// alongs are the changes that give the pipes so much more along one axis, the longest leg first
// and those last that turn one round; where no leg runs along it, one more behind a leg across.
func (s *search) alongs(more graph.Vec) []legChange {
	var out, add []legChange
	for _, u := range s.unitLegs() {
		switch changed := u.By.Add(more); {
		case u.Open:
		case u.along(more) != 0 && changed.Len() >= 1:
			out = append(out, legChange{of: u, by: more})
		case u.along(more) == 0 && (u.to && u.i < len(s.asked.Retrofit.ToUnit)-1 || !u.to && u.i < len(s.asked.Retrofit.FromUnit)-1):
			add = append(add, legChange{of: u, by: more, behind: true})
		}
	}
	if len(out) == 0 {
		return add
	}
	turns := func(c legChange) int {
		if c.of.By.Add(c.by).Dot(c.of.By) < 0 {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(out, func(a, b legChange) int {
		return cmp.Or(cmp.Compare(turns(a), turns(b)), cmp.Compare(b.of.LengthMM(), a.of.LengthMM()))
	})
	return out
}

// growHelps make legs longer in which a part has no room, that are too short for their two
// sockets, or that run through something; another leg takes it back, so that the loop still
// closes. What is too short is given what it lacks.
func (s *search) growHelps(t *trial) []help {
	r := s.asked.Retrofit
	at := map[graph.Pos]bool{}
	for _, d := range t.errors() {
		at[d.Pos] = true
	}
	legs := s.unitLegs()
	some := slices.DeleteFunc(slices.Clone(legs), func(u unitLeg) bool { return u.Open || !at[u.Pos] })
	if len(some) == 0 {
		if len(r.ToUnit) == 0 || len(r.FromUnit) == 0 {
			return nil
		}
		some = slices.DeleteFunc(legs, func(u unitLeg) bool { return u.Open || !u.to })
	}
	var out []help
	for _, mm := range []float64{0, 50, 100, 200, 300} {
		for _, u := range some {
			more := s.even(mm)[0]
			if lack := lacking(t, u); lack > 0 {
				if mm > 0 {
					continue
				}
				more = s.even(lack + 1)[0]
			}
			if more > 0 {
				out = append(out, s.longerLeg(u, more)...)
			}
		}
	}
	return out
}

// lacking is what the pieces of a leg are too short for their two sockets, mm; 0 where they are
// not.
func lacking(t *trial, u unitLeg) float64 {
	if t.stage == nil || t.stage.Layout == nil {
		return 0
	}
	most := 0.0
	for i := range t.stage.Layout.Pieces {
		p := &t.stage.Layout.Pieces[i]
		if p.Leg >= 1 && p.Leg <= len(p.Run.Legs) && p.Run.New() && p.Run.Legs[p.Leg-1].Pos == u.Pos && u.Pos.IsValid() {
			most = max(most, p.From.DepthMM+p.To.DepthMM-p.CutMM)
		}
	}
	if most < 0.05 {
		return 0
	}
	return most
}

// longerLeg makes a leg longer, and another that runs back along it too, or one that runs with
// it shorter; the leg alone where the other pipe is not written or a leg along it is open.
func (s *search) longerLeg(u unitLeg, mm float64) []help {
	more := u.By.Unit().Scale(mm)
	one := legChange{of: u, by: more}
	if len(s.asked.Retrofit.ToUnit) == 0 || len(s.asked.Retrofit.FromUnit) == 0 {
		return []help{s.legsHelp(one)}
	}
	var back, less []help
	for _, v := range s.unitLegs() {
		if v.kind() == u.kind() || v.along(u.By) == 0 {
			continue
		}
		switch {
		case v.Open:
			return []help{s.legsHelp(one)}
		case v.along(u.By) < 0 && v.to != u.to:
			back = slices.Insert(back, 0, s.legsHelp(one, legChange{of: v, by: more.Scale(-1)}))
		case v.along(u.By) < 0:
			back = append(back, s.legsHelp(one, legChange{of: v, by: more.Scale(-1)}))
		case v.LengthMM() > mm+1:
			less = append(less, s.legsHelp(one, legChange{of: v, by: more.Scale(-1)}))
		}
	}
	const most = 2
	back = append(back, less...)
	return back[:min(most, len(back))]
}
