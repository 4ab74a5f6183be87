package hydraulic

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// Build returns the model of a laid out circuit in a mode. Air lines are left out, and so is
// what a shut hand valve or jets all shut would carry. The error is an *InputError.
func Build(lay *route.Layout, mode graph.Mode, stage graph.Stage) (*Model, error) {
	c := lay.Circuit
	set := lay.Stage
	if set == nil {
		set = settle.Of(c)
	}
	b := &builder{
		m: &Model{
			Layout: lay, Mode: c.Running(mode), Stage: stage, Water: waterOf(set),
			Parts: make([]ModelPart, len(c.Parts)), Runs: make([]ModelRun, len(c.Runs)), PartAt: make(map[string]int, len(c.Parts)),
		},
		c: c, set: set, ports: newPorts(len(c.Parts)), air: make([]bool, len(c.Parts)),
	}
	for i, p := range c.Parts {
		b.air[i] = hasAir(p)
		if _, twice := b.m.PartAt[p.ID]; !twice {
			b.m.PartAt[p.ID] = i
		}
	}
	b.levels, b.m.Below = lay.Levels(), make([][]float64, len(c.Runs))
	for i := range c.Runs {
		b.m.Below[i] = b.levels.Run(i)
	}
	most := 2*len(c.Runs) + 3*len(c.Parts)
	b.nodes, b.runsAt = make([]int, 0, most), make([]int, 0, most)
	b.m.net.Edges = make([]network.Edge, 0, len(c.Runs)+3*len(c.Parts))
	b.m.net.Nodes = 1 // the water in the tub, whatever its port: b.m.tub
	for i := range c.Runs {
		if err := b.addRun(i); err != nil {
			return nil, err
		}
	}
	for i := range c.Parts {
		if err := b.addPart(i); err != nil {
			return nil, err
		}
	}
	b.m.cools = set.KeptCold()
	b.indexRuns()
	b.joinUnits()
	b.m.ports = b.ports.count
	b.m.net.Reference = b.m.tub
	b.m.Perturb(nil)
	solver, err := network.NewSolver(&b.m.net)
	if err != nil {
		return nil, &InputError{ID: c.File, Why: err.Error()}
	}
	b.m.solver = solver
	return b.m, nil
}

// joinUnits tells each unit of the pump it hangs on: of several that feed it one that runs.
func (b *builder) joinUnits() {
	for _, u := range b.set.Branches() {
		pump := u.Feeder(b.m.Mode)
		if pump == nil {
			pump = u.Pump
		}
		if pump == nil {
			continue
		}
		unit, ok := b.m.PartAt[u.Unit.ID]
		if at, is := b.m.PartAt[pump.ID]; ok && is {
			b.m.Parts[unit].pump = &b.m.Parts[at]
		}
	}
}

// indexRuns makes the ways to runs by their ids, and from old runs to what is left of them.
func (b *builder) indexRuns() {
	m := b.m
	m.RunAt, m.LeftOf = make(map[string]int, len(m.Runs)), make(map[string][]Left, len(m.Runs))
	gone := map[string]float64{} // lengths of those that were taken out, m
	for _, r := range b.c.Gone {
		gone[r.ID] = r.LengthMM / 1000
	}
	for i := range m.Runs {
		r := &m.Runs[i]
		if _, twice := m.RunAt[r.Run.ID]; !twice {
			m.RunAt[r.Run.ID] = i
		}
		if r.LengthM <= 0 || r.Run.New() {
			continue
		}
		left, whole := Left{Run: i, Share: 1}, r.Run.Whole()
		if of := gone[whole]; r.Run.RemainsOf != "" && of > 0 {
			left.Share = min(r.LengthM/of, 1)
		}
		m.LeftOf[whole] = append(m.LeftOf[whole], left)
	}
}

type builder struct {
	m      *Model
	c      *graph.Circuit
	set    *settle.Stage
	air    []bool // of each part: any of its ports may carry air
	levels route.Levels
	ports  *ports
	nodes  []int               // of each port, by its number; -1 none yet
	runsAt []int               // the first run at each; -1 none
	jets   map[*graph.Part]int // jets in the line of each pump, counted at need
}

func (b *builder) note(pos graph.Pos, severity graph.Severity, message, hint quantity.Text) {
	b.m.Notes = append(b.m.Notes, graph.Diagnostic{Pos: pos, Rule: "flow", Severity: severity, Message: message, Hint: hint})
}

func (b *builder) edge(e network.Edge) int {
	b.m.net.Edges = append(b.m.net.Edges, e)
	return len(b.m.net.Edges) - 1
}

// addRun adds a run that carries water. Lines of mere pipework that carry air have air parts
// at their ends and so hang together with no water: nothing flows in them.
func (b *builder) addRun(i int) error {
	r := b.c.Runs[i]
	m := &b.m.Runs[i]
	*m = ModelRun{Run: r, Edge: -1}
	var ends [2]int
	for k, ref := range []graph.PortRef{r.From, r.To} {
		at, ok := b.m.PartAt[ref.Part]
		if !ok || b.carriesAir(at, ref.Port) {
			return nil
		}
		ends[k] = at
		m.ends[k] = b.port(at, ref.Port)
		if b.runsAt[m.ends[k]] < 0 {
			b.runsAt[m.ends[k]] = i
		}
	}
	m.LengthM = r.LengthMM / 1000
	if i < len(b.m.Layout.Paths) {
		m.LengthM = b.m.Layout.Paths[i].LengthMM / 1000
	}
	pipe := b.set.Runs[i]
	m.BoreM, m.RoughnessM = pipe.Bore.V/1000, pipe.Rough.V/1000
	from, to := b.c.Parts[ends[0]], b.c.Parts[ends[1]]
	m.Entrance = inTub(from) && (m.LengthM > 0 || m.BoreM > 0 && !holdsItsEnd(to))
	m.Exit = inTub(to) && (m.LengthM > 0 || m.BoreM > 0 && !holdsItsEnd(from))
	against := b.set.Net().Against(r)
	m.FromTub = m.Entrance && !against || m.Exit && against
	b.addFittings(i)
	if m.BoreM <= 0 {
		if m.LengthM > 0 || len(m.Fittings) > 0 {
			return &InputError{ID: r.ID, Why: "has no bore: neither its size nor the catalogue gives one"}
		}
		m.BoreM, m.bare = 0.05, true // of no pipe: nothing stands on it
	}
	m.Law = &laws.RunLaw{}
	m.Edge = b.edge(network.Edge{From: b.endOf(from, m.ends[0]), To: b.endOf(to, m.ends[1]), Law: m.Law})
	return nil
}

// inTub reports whether pipe at the part ends in the tub's water, with the losses of that.
func inTub(p *graph.Part) bool {
	return p.Kind == graph.Tub && (p.Loss == nil || !p.Loss.None)
}

// holdsItsEnd reports whether the part's own loss holds what the water loses as it comes from
// the tub or goes into it, where part and tub touch.
func holdsItsEnd(p *graph.Part) bool {
	return p.Kind == graph.JetGroup || p.Kind == graph.Suction || p.Kind == graph.Tub
}
