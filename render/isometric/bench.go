package isometric

import (
	"slices"

	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
	"dryfit/render/label"
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
	d := members.NewDrawing(in)
	d.Only = map[int]bool{}
	for _, n := range joints {
		d.Only[n] = true
	}
	ms := onBench(d)
	if len(ms) == 0 {
		return nil
	}
	var p *picture.Picture
	for _, scale := range benchScales {
		p = picture.LayOut(d, ms, scale)
		p.Paint()
		p.Label(label.Anywhere())
		if b := p.Bounds(); p.Over == 0 && b.W() <= benchWide && b.H() <= benchHigh {
			break
		}
	}
	p.Finish()
	b := p.Bounds()
	at := onto{from: scene.Point{X: b.MinX, Y: b.MinY}, to: scene.Point{X: benchEdge, Y: benchEdge}, scale: min(1, benchWide/b.W(), benchHigh/b.H())}
	s := &scene.Scene{Name: "on the bench", WidthMM: b.W()*at.scale + 2*benchEdge, HeightMM: b.H()*at.scale + 2*benchEdge}
	for _, it := range slices.Concat(p.Items, p.Labels) {
		s.Items = append(s.Items, at.item(it))
	}
	return s
}

// onBench are the legs with a joint of the group, also those of old pipe that begins with a new piece,
// and the bodies of the parts they end at.
func onBench(d *members.Drawing) []members.Member {
	var out []members.Member
	parts := map[string]bool{}
	for i := range d.Lay.Paths {
		path := &d.Lay.Paths[i]
		if !members.Located(path) {
			continue
		}
		for _, m := range d.Legs(i) {
			if !hasJoint(d, &m) {
				continue
			}
			out = append(out, m)
			// of an old pipe with a new piece at its end only what is new is on the bench
			if m.Leg == 0 && (path.Run.New() || d.Parts[path.Run.From.Part].New()) {
				parts[path.Run.From.Part] = true
			}
			if m.Last == len(path.Points)-2 && (path.Run.New() || d.Parts[path.Run.To.Part].New()) {
				parts[path.Run.To.Part] = true
			}
		}
	}
	for _, p := range d.C.Parts {
		if m, ok := d.Body(p); ok && parts[p.ID] {
			out = append(out, m)
		}
	}
	return out
}

// hasJoint reports whether a joint of the group is made on a leg.
func hasJoint(d *members.Drawing, m *members.Member) bool {
	return jointAt(d, m, false) || jointAt(d, m, true) || slices.ContainsFunc(d.Sleeves(m), func(s members.Sleeve) bool {
		return slices.ContainsFunc(s.Joints, func(j *route.Joint) bool { return d.Only[j.Number] })
	})
}

// jointAt reports whether a joint of the group is made at one end of a leg.
func jointAt(d *members.Drawing, m *members.Member, far bool) bool {
	return slices.ContainsFunc(d.Stack(m, far).Joints, func(j *route.Joint) bool { return d.Only[j.Number] })
}
