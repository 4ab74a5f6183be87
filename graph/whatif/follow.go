package whatif

import (
	"math"

	"dryfit/graph/settle"
)

// Following says where the scales of what the tool settles stand in an answer, where that is not
// where the file has them: the spring of the bypass when another is picked, a valve the tool sets.
// Scales that are turned themselves are left out. NaN: the answer has no such part any more.
func (s *Study) Following(a *Answer, v Values) map[string]float64 {
	out := map[string]float64{}
	if a.Plan == nil || a.Plan.After == nil || a.Plan.After.Layout == nil {
		return out
	}
	set := a.Plan.After.Layout.Stage
	for i := range s.Controls {
		c := &s.Controls[i]
		if _, own := v[c.ID]; own || c.follows == nil {
			continue
		}
		if now := c.standsAt(set); math.IsNaN(now) || math.Abs(now-c.Now) > 1e-6 {
			out[c.ID] = now
		}
	}
	return out
}

// standsAt is where a scale that follows stands in a stage; NaN where that has no such part.
func (c *Control) standsAt(set *settle.Stage) float64 {
	now, there := c.follows(set)
	if !there {
		return math.NaN()
	}
	return now
}

// stands reports whether a value of a control, checked, is the one that stands. Where anything else
// is turned too, that of a scale which follows is not known before it is worked out.
func (s *Study) stands(c *Control, v Values) (bool, error) {
	stands, err := c.check(v[c.ID])
	return stands && (c.follows == nil || len(v) == 1), err
}
