package stage

import "dryfit/graph/hydraulic"

// Solution returns the solution of a mode, or nil; of no stage nil.
func (s *Stage) Solution(mode string) *hydraulic.Solution {
	if s == nil {
		return nil
	}
	for i := range s.Solutions {
		if s.Solutions[i].Mode.Name == mode {
			return &s.Solutions[i]
		}
	}
	return nil
}

// JetsLost is the share of today's flow through the jets that a mode loses.
func JetsLost(after *hydraulic.Solution, before []hydraulic.Solution) float64 {
	now, _ := after.JetsFlow()
	for i := range before {
		if before[i].Mode.Name == after.Mode.Name {
			if was, _ := before[i].JetsFlow(); was > 0 {
				return 1 - now/was
			}
		}
	}
	return 0
}

// StandsShut reports whether nothing passes a part in any mode; false where nothing is solved.
func (s *Stage) StandsShut(id string) bool {
	for i := range s.Solutions {
		if at := s.Solutions[i].Part(id); at == nil || at.Flow != 0 && at.State != "shut" {
			return false
		}
	}
	return len(s.Solutions) > 0
}
