package advice

import (
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// withElement returns the circuit with the bypass element replaced by another: same id, same
// place in the line. The circuit given is left as it is. Where the bypass is plain pipe the
// element goes in at the end of its first run, and takes no length.
func withElement(c *graph.Circuit, branch *stream.UnitBranch, element graph.Part) *graph.Circuit {
	out := *c
	out.Parts, out.Runs = slices.Clone(c.Parts), slices.Clone(c.Runs)
	if old := branch.Element(); old != nil {
		element.ID, element.Ports, element.Size, element.Spec = old.ID, old.Ports, old.Size, old.Spec
		element.LengthMM = old.LengthMM
		for i, p := range out.Parts {
			if p.ID == old.ID {
				out.Parts[i] = &element
			}
		}
		return &out
	}
	if len(branch.BypassRuns) == 0 {
		return nil
	}
	element.ID = freshID(c, "bypass-element")
	element.Ports = []graph.Port{{Name: "in"}, {Name: "out"}}
	out.Parts = append(out.Parts, &element)
	first := branch.BypassRuns[0]
	before, after := *first, *first
	before.To = graph.PortRef{Part: element.ID, Port: "in"}
	after.ID = freshID(c, first.ID+"-beyond")
	after.From = graph.PortRef{Part: element.ID, Port: "out"}
	after.Legs, after.Fittings, after.LengthMM, after.HasLength, after.K = nil, nil, 0, true, 0
	i := slices.Index(out.Runs, first)
	out.Runs[i] = &before
	out.Runs = slices.Insert(out.Runs, i+1, &after)
	return &out
}

// freshID returns a name no part or run has.
func freshID(c *graph.Circuit, name string) string {
	for c.Part(name) != nil || c.Run(name) != nil {
		name += "-x"
	}
	return name
}

// springElement is a spring check of a catalogue row.
func springElement(row catalog.Row) graph.Part {
	return graph.Part{Kind: graph.CheckValve, Type: row.Name, Check: &graph.CheckData{Style: "spring"}, Surroundings: graph.NothingSaid()}
}

// ThrottleElement is a ball valve with a Kv in m³/h; 0 or less: shut.
func ThrottleElement(kv float64) graph.Part {
	p := graph.Part{Kind: graph.BallValve, Valve: &graph.ValveData{Position: 1, Kv: kv}, Surroundings: graph.NothingSaid()}
	if kv <= 0 {
		p.Valve = &graph.ValveData{PositionSet: true}
	}
	return p
}

// withWiderBranch returns the circuit with the unit's branch one size up, and false where
// the catalogue has no larger pipe. Rows of the branch's valves follow by themselves.
func withWiderBranch(c *graph.Circuit, branch *stream.UnitBranch) (*graph.Circuit, catalog.Size, bool) {
	out := *c
	out.Parts, out.Runs = slices.Clone(c.Parts), slices.Clone(c.Runs)
	var to catalog.Size
	for _, r := range slices.Concat(branch.ToUnitRuns, branch.FromUnitRuns) {
		next, ok := NextSize(c.Catalog, r.Spec, r.Size)
		if !ok {
			return nil, to, false
		}
		wider := *r
		wider.Size, wider.BoreMM = next, 0
		out.Runs[slices.Index(out.Runs, r)] = &wider
		to = next
	}
	for _, p := range slices.Concat(branch.ToUnitParts, branch.FromUnitParts) {
		wider := *p
		wider.Size, wider.BranchSize = catalog.Size{}, catalog.Size{}
		out.Parts[slices.Index(out.Parts, p)] = &wider
	}
	for _, tee := range []*graph.Part{branch.TeeIn, branch.TeeOut} {
		if tee != nil && tee.Kind == graph.Tee && !tee.BranchSize.IsZero() {
			wider := *tee
			wider.BranchSize = catalog.Size{}
			out.Parts[slices.Index(out.Parts, tee)] = &wider
		}
	}
	return &out, to, !to.IsZero()
}

// NextSize returns the next larger size of pipe of a spec.
func NextSize(cat *catalog.Catalog, spec catalog.Spec, size catalog.Size) (catalog.Size, bool) {
	for _, s := range cat.PipeSizes(spec) {
		if s.NominalMM() > size.NominalMM() {
			return s, true
		}
	}
	return catalog.Size{}, false
}

// withShorterBranch returns the circuit with half the pipe to and from the unit.
func withShorterBranch(c *graph.Circuit, branch *stream.UnitBranch) *graph.Circuit {
	out := *c
	out.Runs = slices.Clone(c.Runs)
	for _, r := range slices.Concat(branch.ToUnitRuns, branch.FromUnitRuns) {
		short := *r
		short.LengthMM /= 2
		short.Legs = slices.Clone(r.Legs)
		for i := range short.Legs {
			short.Legs[i].By = short.Legs[i].By.Scale(0.5)
		}
		out.Runs[slices.Index(out.Runs, r)] = &short
	}
	return &out
}

// withPump returns the circuit with the speeds of one pump replaced, and the modes that
// follow from the pumps.
func withPump(c *graph.Circuit, pump *graph.Part, speeds []graph.Speed) *graph.Circuit {
	out := *c
	out.Modes = nil
	out.Parts = slices.Clone(c.Parts)
	other := *pump
	data := *pump.Pump
	data.Speeds = speeds
	other.Pump = &data
	out.Fit = c.Fit.Without(pump.ID)
	out.Parts[slices.Index(out.Parts, pump)] = &other
	return &out
}
