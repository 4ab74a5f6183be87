package isometric

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/scene"
)

// BenchGroup is what is put together on the bench as one thing.
type BenchGroup struct {
	Joints []int        // their numbers, in the order they are made
	Scene  *scene.Scene // a small picture of it; nil where its place in space is not known
}

// The most a small picture takes, mm, and the scales tried for it.
const (
	benchWide, benchHigh = 178.0, 78.0
	benchEdge            = 1.5
)

var benchScales = []float64{1.15, 1, 0.85, 0.7, 0.55, 0.4, 0.3}

// Bench returns the groups of the work that is done on the bench, in the order in which they
// are begun, each with a picture of it as it will stand: the pieces with the lengths they are
// cut to, the joints, and short arms where it goes on later.
func Bench(in Input) []BenchGroup {
	if in.Layout == nil || in.Assembly == nil {
		return nil
	}
	var out []BenchGroup
	for _, joints := range benchGroups(in.Layout, in.Assembly) {
		out = append(out, BenchGroup{Joints: joints, Scene: benchPicture(in, joints)})
	}
	return out
}

// benchGroups shares the joints of the bench out among the things they make.
func benchGroups(lay *route.Layout, a *route.Assembly) [][]int {
	type thing struct {
		joints []int
		bodies map[string]bool
	}
	var all []*thing
	for _, s := range a.Steps {
		if s.Phase != route.Bench {
			continue
		}
		for _, n := range s.Joints {
			j := &lay.Joints[n-1]
			now := &thing{[]int{n}, map[string]bool{j.BodyA: true, j.BodyB: true}}
			all = slices.DeleteFunc(all, func(t *thing) bool {
				if !t.bodies[j.BodyA] && !t.bodies[j.BodyB] {
					return false
				}
				now.joints = append(now.joints, t.joints...)
				for b := range t.bodies {
					now.bodies[b] = true
				}
				return true
			})
			all = append(all, now)
		}
	}
	out := make([][]int, len(all))
	for i, t := range all {
		slices.Sort(t.joints)
		out[i] = t.joints
	}
	slices.SortFunc(out, func(x, y []int) int { return x[0] - y[0] })
	return out
}

// benchPicture draws one group; nil where none of it has a place.
func benchPicture(in Input, joints []int) *scene.Scene {
	d := newDrawing(in)
	d.only = map[int]bool{}
	for _, n := range joints {
		d.only[n] = true
	}
	ms := d.onBench()
	if len(ms) == 0 {
		return nil
	}
	var p *picture
	for _, scale := range benchScales {
		p = d.layOut(ms, scale)
		p.draw()
		if b := p.bounds(); p.over == 0 && b.W() <= benchWide && b.H() <= benchHigh {
			break
		}
	}
	b := p.bounds()
	at := onto{from: scene.Point{X: b.MinX, Y: b.MinY}, to: scene.Point{X: benchEdge, Y: benchEdge}, scale: min(1, benchWide/b.W())}
	s := &scene.Scene{Name: "on the bench", WidthMM: b.W()*at.scale + 2*benchEdge, HeightMM: b.H()*at.scale + 2*benchEdge}
	for _, it := range slices.Concat(p.items, p.labels) {
		s.Items = append(s.Items, at.item(it))
	}
	return s
}

// onBench are the legs with a joint of the group, and the bodies of the parts they end at.
func (d *drawing) onBench() []member {
	var out []member
	parts := map[string]bool{}
	for i := range d.lay.Paths {
		path := &d.lay.Paths[i]
		if !path.Run.New() || !located(path) {
			continue
		}
		for _, m := range d.legs(i) {
			if !d.hasJoint(&m) {
				continue
			}
			out = append(out, m)
			if m.leg == 0 {
				parts[path.Run.From.Part] = true
			}
			if m.leg == len(path.Points)-2 {
				parts[path.Run.To.Part] = true
			}
		}
	}
	for _, p := range d.c.Parts {
		if m, ok := d.body(p); ok && parts[p.ID] {
			out = append(out, m)
		}
	}
	return out
}

// hasJoint reports whether a joint of the group is made on a leg.
func (d *drawing) hasJoint(m *member) bool {
	for _, far := range []bool{false, true} {
		if slices.ContainsFunc(d.stack(m, far).joints, func(j *route.Joint) bool { return d.only[j.Number] }) {
			return true
		}
	}
	return slices.ContainsFunc(d.between(m), func(j *route.Joint) bool { return d.only[j.Number] })
}

// armMM is the length of the arms of a fitting that pipe goes into later, mm.
const armMM = 5.0

// paintLater draws short arms on tees and elbows where pipe goes in that is not of the group.
func (p *picture) paintLater() {
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil {
			continue
		}
		path := &p.d.lay.Paths[m.path]
		if m.leg > 0 {
			p.later(i, false, path.Points[m.leg-1].Sub(m.a))
		} else {
			p.laterPorts(i, false, m.run.From.Part)
		}
		if m.leg < len(path.Points)-2 {
			p.later(i, true, path.Points[m.leg+2].Sub(m.b))
		} else {
			p.laterPorts(i, true, m.run.To.Part)
		}
	}
}

// laterPorts is later for each way that pipe leaves a tee.
func (p *picture) laterPorts(i int, far bool, id string) {
	part := p.d.parts[id]
	if part == nil || part.Kind != graph.Tee {
		return
	}
	for _, port := range []string{graph.RunIn, graph.RunOut, graph.Branch} {
		if way, ok := p.d.lay.Ways[id+"."+port]; ok {
			p.later(i, far, way)
		}
	}
}

// later draws an arm from the end of a leg unless pipe of the group leaves there that way.
func (p *picture) later(i int, far bool, way graph.Vec) {
	end := p.endOf(i, far)
	for k := range p.ms {
		for _, atB := range []bool{false, true} {
			from, to := p.endOf(k, atB), p.endOf(k, !atB)
			if from.real.Sub(end.real).Len() < sameLevel && to.real.Sub(from.real).Unit().Dot(way.Unit()) > 0.99 {
				return
			}
		}
	}
	at := project(end.show)
	p.block(blockPipe, scene.Line(at, add(at, times(armMM, unit(project(way)))), scene.Stroke(penNew)).Tagged("socket"))
}

// wantCuts asks for places for the lengths the pieces are cut to.
func (p *picture) wantCuts() {
	for i := range p.ms {
		m := &p.ms[i]
		a, b := project(p.a[i]), project(p.b[i])
		for k, piece := range m.pieces {
			text := quantity.Format(piece.SawMM(), quantity.Length, p.d.in.Units)
			if piece.Measure {
				text += "*"
			}
			share := (float64(k) + 0.5) / float64(len(m.pieces))
			p.wantCallout(callout{at: along(a, b, share), clear: 1, lines: []line{{text, dimEm, false}}, tag: "cut:" + number(piece.Number),
				rank: 2, far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13}})
		}
	}
}
