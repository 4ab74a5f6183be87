package search

import (
	"fmt"
	"math"

	"dryfit/graph"
)

// closeHelps make one written leg to or from the unit longer or shorter, or turn it round, so that the loop
// through the unit closes: by what it misses, or where a leg left open would come out as less
// than nothing, so that there is length for it.
func (s *search) closeHelps(t *trial) []help {
	var out []help
	add := func(along graph.Vec, by ...float64) {
		for _, mm := range by {
			for _, to := range []bool{true, false} {
				for i, l := range s.unitLegs(to) {
					if l.Open || math.Abs(l.By.Unit().Dot(along)) < 0.999 {
						continue
					}
					if changed := l.LengthMM() + mm*l.By.Unit().Dot(along); math.Abs(changed) >= 1 { // less than nothing: the other way round
						out = append(out, s.otherLength(to, i, changed))
					}
				}
			}
		}
	}
	if t.stage != nil && t.stage.Layout != nil {
		for _, c := range t.stage.Layout.Closures {
			for _, axis := range []graph.Vec{{X: c.ErrorMM.X}, {Y: c.ErrorMM.Y}, {Z: c.ErrorMM.Z}} {
				if !c.Closed && axis.Len() > 0.5 {
					add(axis.Unit(), -axis.Len(), axis.Len())
				}
			}
		}
	}
	for _, to := range []bool{true, false} {
		for _, l := range s.unitLegs(to) {
			if l.Open { // the others reach less far its way
				add(l.By.Unit().Scale(-1), s.even(100, 200, 400)...)
			}
		}
	}
	return out
}

// unitLegs are the legs to the unit as they are asked for, or those from it.
func (s *search) unitLegs(to bool) []graph.Leg {
	if to {
		return s.asked.Retrofit.ToUnit
	}
	return s.asked.Retrofit.FromUnit
}

// otherLength gives a leg to or from the unit another length.
func (s *search) otherLength(to bool, i int, mm float64) help {
	was := s.unitLegs(to)[i]
	now := was
	now.By = was.By.Unit().Scale(mm)
	cost := graph.Say("%s more pipe", s.length(mm-was.LengthMM()))
	switch {
	case mm < 0:
		cost = "the leg the other way round"
	case mm < was.LengthMM():
		cost = "nothing: it is shorter"
	}
	return help{
		kind: fmt.Sprintf("leg %v %d", to, i), say: graph.Say("\"%s\" in place of %s", now.Words(), userLeg(&was)), cost: cost,
		apply: func(c *graph.Circuit) {
			legs := c.Retrofit.FromUnit
			if to {
				legs = c.Retrofit.ToUnit
			}
			legs[i].By = now.By
		},
	}
}
