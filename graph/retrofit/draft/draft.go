package draft

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// Draft is a circuit being changed: a copy whose lists are its own and whose parts and runs
// are shared with the original until they are replaced.
type Draft struct {
	*graph.Circuit
	Names *Names
	Pos   graph.Pos // of the request: where new parts point to
	IDs   []string  // added, in the order of the water

	asked *graph.Retrofit
	kept  map[string]bool // ids of old runs of which something is left already
}

// Of begins a draft of a circuit, which is not changed itself; what it asks for is done with.
func Of(c *graph.Circuit) *Draft {
	out := *c
	out.Parts, out.Runs = slices.Clone(c.Parts), slices.Clone(c.Runs)
	d := &Draft{Circuit: &out, Names: newNames(c), Pos: graph.Pos{File: c.File}, kept: map[string]bool{}}
	if c.Retrofit != nil {
		d.Pos, d.asked = c.Retrofit.Pos, c.Retrofit
	}
	out.Retrofit, out.HeatedAt = nil, c.AskedWater()
	return d
}

// PointTo has new parts and runs point to the first of some keys of [retrofit] that is written,
// else to the table: what is wrong with them is told there.
func (d *Draft) PointTo(keys ...string) {
	if d.asked == nil {
		return
	}
	d.Pos = d.asked.Pos
	for _, k := range keys {
		if pos, ok := d.asked.KeyPos[k]; ok {
			d.Pos = pos
			return
		}
	}
}

// AddPart adds a new part of a kind with the kind's ports.
func (d *Draft) AddPart(id string, kind graph.Kind, spec catalog.Spec, size catalog.Size) *graph.Part {
	p := &graph.Part{ID: id, Kind: kind, Spec: spec, Size: size, Surroundings: graph.NothingSaid(), Pos: d.Pos}
	for _, name := range kind.PortNames() {
		p.Ports = append(p.Ports, graph.Port{Name: name, Pos: d.Pos})
	}
	if kind.IsHandValve() {
		p.Valve = &graph.ValveData{Position: 1}
	}
	d.Parts = append(d.Parts, p)
	d.IDs = append(d.IDs, id)
	return p
}

// AddRun adds a new run, which is called by what it joins, as every run is that nobody named.
func (d *Draft) AddRun(from, to graph.PortRef, spec catalog.Spec, size catalog.Size, legs []graph.Leg) (id string) {
	from.Pos, to.Pos = d.Pos, d.Pos
	id = graph.RunName(from, to)
	r := &graph.Run{ID: id, From: from, To: to, Spec: spec, Size: size, Legs: tidy(legs),
		RoughnessMM: -1, Surroundings: graph.NothingSaid(), Pos: d.Pos}
	d.Runs = append(d.Runs, r)
	d.IDs = append(d.IDs, id)
	return id
}

// Remove marks a run or part as taken out, in a copy of its own.
func (d *Draft) Remove(id string) {
	for i, r := range d.Runs {
		if r.ID == id {
			gone := *r
			gone.Removed = true
			d.Runs[i] = &gone
		}
	}
	for i, p := range d.Parts {
		if p.ID == id {
			gone := *p
			gone.Removed = true
			d.Parts[i] = &gone
		}
	}
}

// Remains adds what is left of an old run between two ends: old pipe that stays. What is in the run
// and not listed is in the first that is left of it, and not in each: the same water passes all.
func (d *Draft) Remains(old *graph.Run, from, to graph.PortRef, legs []graph.Leg) {
	of := old.ID
	if old.RemainsOf != "" {
		of = old.RemainsOf
	}
	r := *old
	r.ID, r.Named = graph.RunName(from, to), false
	r.From, r.To, r.Legs = from, to, tidy(legs)
	r.Removed, r.RemainsOf, r.Existing = false, of, true
	r.HasLength, r.LengthMM, r.Fittings, r.Faces = false, 0, nil, false
	if d.kept[old.ID] {
		r.K = 0
	}
	d.kept[old.ID] = true
	d.Runs = append(d.Runs, &r)
	d.IDs = append(d.IDs, r.ID)
}

// tidy returns the legs rounded to a millionth of a mm, so that sums of lengths are written
// as a person would.
func tidy(legs []graph.Leg) []graph.Leg {
	out := slices.Clone(legs)
	for i, l := range out {
		out[i].By = graph.Vec{X: quantity.Round(l.By.X, 6), Y: quantity.Round(l.By.Y, 6), Z: quantity.Round(l.By.Z, 6)}
	}
	return out
}

// At is a port of a part.
func At(part, port string) graph.PortRef { return graph.PortRef{Part: part, Port: port} }

// Leg is a leg of that way, mm, of whose surroundings nothing is said.
func Leg(by graph.Vec) graph.Leg { return graph.Leg{By: by, Surroundings: graph.NothingSaid()} }

// Drop takes a part out again that found no room.
func (d *Draft) Drop(id string) {
	d.Parts = slices.DeleteFunc(d.Parts, func(p *graph.Part) bool { return p.ID == id })
	d.IDs = slices.DeleteFunc(d.IDs, func(s string) bool { return s == id })
	d.Names.Release(id)
}

// Rigid is the rigid pipe of the new work that joins pipe of a spec: that whose sockets it goes
// into; for hose, which goes on barbs whatever they are glued to, inch pipe.
func Rigid(s catalog.Spec) catalog.Spec {
	return settle.RigidSpec(s, catalog.Size{Metric: s.Family() == catalog.Metric})
}
