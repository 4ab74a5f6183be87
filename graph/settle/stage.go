package settle

import (
	"sync"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// Stage is one stage of a circuit with every value settled. It is not changed once made, and
// several goroutines may read it; stages made one from the other share what is the same in both.
type Stage struct {
	Circuit *graph.Circuit
	Water   Water
	Parts   []*Part // in the order of the circuit
	Runs    []*Run  // in the order of the circuit

	cat   *catalog.Catalog
	parts map[string]int
	runs  map[string]int
	at    [][]int              // of each part: its runs, in the order of the circuit
	deep  map[pipe]float64     // socket depths, filled while it is made
	pools map[*graph.Part]bool // pumps asked after by filtersPool, filled while it is made
	net   func() *stream.Net
}

// pipe is a spec and size.
type pipe struct {
	spec catalog.Spec
	size catalog.Size
}

// KeptCold reports whether the water has to be cooled and not heated, see graph.Site.KeptCold.
func (s *Stage) KeptCold() bool { return s.Circuit.Site.KeptCold(s.Water.TemperatureC.V) }

// Of settles a circuit of one stage (see graph.Circuit.At). Any circuit will do: what
// follows from nothing is not known. A circuit without a catalogue has the embedded one.
func Of(c *graph.Circuit) *Stage { return (*Stage)(nil).With(c) }

// indexed returns a stage of which nothing is settled yet: what is where.
func indexed(c *graph.Circuit) *Stage {
	s := &Stage{Circuit: c, Parts: make([]*Part, len(c.Parts)), Runs: make([]*Run, len(c.Runs)), cat: c.Catalog,
		parts: make(map[string]int, len(c.Parts)), runs: make(map[string]int, len(c.Runs)), deep: map[pipe]float64{}, pools: map[*graph.Part]bool{}}
	if s.cat == nil {
		s.cat = catalog.Embedded()
	}
	for i, p := range c.Parts {
		if _, twice := s.parts[p.ID]; !twice {
			s.parts[p.ID] = i
		}
	}
	for i, r := range c.Runs {
		if _, twice := s.runs[r.ID]; !twice {
			s.runs[r.ID] = i
		}
	}
	s.at = s.runsAt()
	s.net = sync.OnceValue(func() *stream.Net { return stream.NewNet(c) })
	return s
}

// runsAt lists the runs at each part. A part that stands twice has them at its first place.
func (s *Stage) runsAt() [][]int {
	count := make([]int, len(s.Parts))
	ends := make([][2]int, len(s.Runs)) // parts of each run; -1 where there is none, or at both the same
	for i, r := range s.Circuit.Runs {
		ends[i] = [2]int{-1, -1}
		if k, ok := s.parts[r.From.Part]; ok {
			ends[i][0] = k
			count[k]++
		}
		if k, ok := s.parts[r.To.Part]; ok && k != ends[i][0] {
			ends[i][1] = k
			count[k]++
		}
	}
	all, at := make([]int, 2*len(s.Runs)), make([][]int, len(s.Parts))
	for k, n := range count {
		at[k], all = all[:0:n], all[n:]
	}
	for i, two := range ends {
		for _, k := range two {
			if k >= 0 {
				at[k] = append(at[k], i)
			}
		}
	}
	return at
}

// runsOf returns the runs at a part.
func (s *Stage) runsOf(id string) []int {
	if k, ok := s.parts[id]; ok {
		return s.at[k]
	}
	return nil
}

// Catalog returns the catalogue, for what chooses a new part.
func (s *Stage) Catalog() *catalog.Catalog { return s.cat }

// Net returns which way the water goes. It is worked out once.
func (s *Stage) Net() *stream.Net { return s.net() }

// Branches returns the units that water comes to, see stream.Net.Branches.
func (s *Stage) Branches() []stream.Branch { return s.Net().Branches() }

// Branch returns the branch of the unit the job is about, see stream.Net.TheBranch.
func (s *Stage) Branch() (b *stream.UnitBranch, why string) { return s.Net().TheBranch() }

// Part returns the part with the id, or nil.
func (s *Stage) Part(id string) *Part {
	if i, ok := s.parts[id]; ok {
		return s.Parts[i]
	}
	return nil
}

// Run returns the run with the id, or nil.
func (s *Stage) Run(id string) *Run {
	if i, ok := s.runs[id]; ok {
		return s.Runs[i]
	}
	return nil
}

// RunAt returns the first run at a port of a part, or nil.
func (s *Stage) RunAt(part, port string) *Run {
	for _, i := range s.runsOf(part) {
		r := s.Circuit.Runs[i]
		if r.From.Port == port && r.From.Part == part || r.To.Port == port && r.To.Part == part {
			return s.Runs[i]
		}
	}
	return nil
}
