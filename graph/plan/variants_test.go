package plan_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
)

// What cutin says holds of the other jobs of the trade too.
func TestEveryPlaceOfTheJobs(t *testing.T) {
	for _, job := range []string{"plug-in", "plunge-pool", "starved"} {
		t.Run(job, func(t *testing.T) {
			placesHold(t, readFile(t, "testdata/jobs/"+job+".toml"))
		})
	}
}

// The same of circuits made from the demos by chance: turned about the upright, with other
// lengths, pipe, units, pumps and wishes.
func TestEveryPlaceOfVariants(t *testing.T) {
	demos := []string{"large-circulation", "two-speed", "plunge-pool"} // circulation says no more, and takes longest
	variants, possible := lots.Of(9, 2, 4), 0
	for _, i := range variants {
		random := rand.New(rand.NewPCG(11, uint64(i)))
		demo := demos[i%len(demos)]
		c := readFile(t, "../../testdata/"+demo+".toml")
		if c.Retrofit == nil {
			continue
		}
		c.Retrofit.Cut = nil
		said := vary(t, c, random)
		t.Run(fmt.Sprintf("%d %s %v", i, demo, said), func(t *testing.T) { possible += placesHold(t, c) })
	}
	if possible < len(variants)/2 {
		t.Errorf("the variants had %d possible places: too few to prove anything", possible)
	}
}

// vary changes a circuit in a few ways and says which.
func vary(t *testing.T, c *graph.Circuit, random *rand.Rand) []string {
	t.Helper()
	var said []string
	r := c.Retrofit
	changes := []struct {
		name string
		do   func()
	}{
		{"turned", func() { turn(c, 1+random.IntN(3)) }},
		{"farther", func() {
			if r.Stand != nil {
				r.Stand.At = r.Stand.At.Scale(1 + random.Float64()/2)
			}
		}},
		{"along", func() {
			if r.Stand != nil {
				r.Stand.Along = []graph.Leg{{By: graph.Vec{Z: -250}, Surroundings: graph.NothingSaid()}}
			}
		}},
		{"run", func() { stretch(c, random) }},
		{"schedule 80", func() {
			c.Pipe.Spec = respec(c.Pipe.Spec)
			r.Spec = respec(r.Spec)
			for _, run := range c.Runs {
				run.Spec = respec(run.Spec)
			}
		}},
		{"unit", func() {
			u := c.Part(r.Unit)
			k := 0.5 + random.Float64()
			u.Unit.Least, u.Unit.Rated, u.Unit.Most = k*u.Unit.Least, k*u.Unit.Rated, k*u.Unit.Most
			for i := range u.Loss.Points {
				u.Loss.Points[i].Flow *= k
			}
		}},
		{"pump", func() {
			for _, p := range c.Pumps() {
				for i := range p.Pump.Speeds {
					for k := range p.Pump.Speeds[i].Curve {
						p.Pump.Speeds[i].Curve[k].Head.Value *= 1.25
					}
				}
			}
		}},
		{"valve", func() { r.Bypass = "valve" }},
		{"spring", func() { r.Bypass = "spring" }},
		{"plain", func() { no := false; r.TrueUnion = &no }},
		{"extra", func() { r.ExtraMM = 120 }},
		{"gate", func() { r.Isolators = "gate-valve" }},
		{"nobody knows where it stands", func() {
			r.Stand = nil
			u := *c.Part(r.Unit)
			u.Ports = slices.Clone(u.Ports)
			for k := range u.Ports {
				u.Ports[k].At, u.Ports[k].Faces = nil, nil
			}
			c.Parts[slices.IndexFunc(c.Parts, func(p *graph.Part) bool { return p.ID == r.Unit })] = &u
		}},
		{"no drains", func() { no := false; r.Drains = &no }},
	}
	for range 1 + random.IntN(3) {
		change := changes[random.IntN(len(changes))]
		if !slices.Contains(said, change.name) {
			change.do()
			said = append(said, change.name)
		}
	}
	return said
}

func respec[S ~string](s S) S {
	if s == "pvc-sch40" {
		return "pvc-sch80"
	}
	return s
}

// turn turns a circuit about the upright by quarters.
func turn(c *graph.Circuit, quarters int) {
	by := func(v graph.Vec) graph.Vec {
		for range quarters {
			v = graph.Vec{X: -v.Y, Y: v.X, Z: v.Z}
		}
		return v
	}
	legs := func(list []graph.Leg) {
		for k := range list {
			list[k].By = by(list[k].By)
		}
	}
	for _, run := range c.Runs {
		legs(run.Legs)
	}
	for _, p := range c.Parts {
		for k := range p.Ports {
			for _, v := range []*graph.Vec{p.Ports[k].At, p.Ports[k].Faces} {
				if v != nil {
					*v = by(*v)
				}
			}
		}
	}
	legs(c.Retrofit.ToUnit)
	legs(c.Retrofit.FromUnit)
	c.Retrofit.Branch = by(c.Retrofit.Branch)
	if s := c.Retrofit.Stand; s != nil {
		s.At, s.PortsFace = by(s.At), by(s.PortsFace)
		legs(s.Along)
	}
}

// stretch makes one old leg longer or shorter; where a loop then fails to close it is put back.
func stretch(c *graph.Circuit, random *rand.Rand) {
	var legs []*graph.Leg
	for _, run := range c.Runs {
		for k := range run.Legs {
			legs = append(legs, &run.Legs[k])
		}
	}
	leg := legs[random.IntN(len(legs))]
	was := leg.By
	leg.By = was.Scale(0.8 + random.Float64())
	before := *c
	before.Retrofit = nil
	unit := c.Retrofit.Unit
	before.Parts = slices.DeleteFunc(slices.Clone(c.Parts), func(p *graph.Part) bool { return p.ID == unit })
	p, err := plan.Make(&before, plan.Findings)
	if err != nil || graph.HasErrors(p.Findings) {
		leg.By = was
	}
}
