package isometric

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
)

// slanted is a line of several parts aslant, beside pipe along the axes whose corners lie between
// its own along one axis and not along the other, so that the axes are stretched unlike.
const slanted = `# Invented data: pipes that follow the slanting sides of an octagonal tub.
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]

[[part]]
id = "t1"
kind = "tee"
existing = true
[[part]]
id = "v"
kind = "ball-valve"
existing = true
[[part]]
id = "t2"
kind = "tee"
existing = true
[[part]]
id = "end"
kind = "cap"
existing = true

[[run]]
from = "tub.a"
to = "t1.run-in"
existing = true
legs = ["FIRST", "SLANT"]
[[run]]
from = "t1.run-out"
to = "v.in"
existing = true
legs = ["SLANT"]
[[run]]
from = "v.out"
to = "t2.run-in"
existing = true
legs = ["HALF"]
[[run]]
from = "t2.run-out"
to = "end.in"
existing = true
legs = ["SLANT", "LAST"]
[[run]]
from = "t1.branch"
to = "tub.b"
existing = true
legs = ["OFF 150 mm", "right 37 mm", "down 300 mm", "right 90 mm", "back 2300 mm"]
[[run]]
from = "t2.branch"
to = "tub.c"
existing = true
legs = ["OFF 400 mm", "back 45 mm", "up 120 mm", "back 800 mm", "right 60 mm"]
`

// A straight slanting pipe is drawn straight, whatever stands in it and however the axes are
// stretched: the ends of its members lie on one line of the paper, in their order. A place is on a
// line where its distance from it, by the vectors alone, is none.
func TestSlantsAreDrawnStraight(t *testing.T) {
	for _, c := range []struct{ first, slant, half, off, last string }{
		{"right 200 mm", "right 300 mm back 300 mm", "right 140 mm back 140 mm", "up", "back 300 mm"},
		{"down 200 mm", "right 240 mm up 240 mm", "right 200 mm up 200 mm", "back", "right 300 mm"},
		{"back 200 mm", "front 260 mm down 260 mm", "front 130 mm down 130 mm", "left", "down 260 mm"},
		{"right 400 mm", "right 400 mm front 165.7 mm", "right 200 mm front 82.85 mm", "down", "right 100 mm"},
		{"right 200 mm", "right 300 mm up 180 mm back 240 mm", "right 150 mm up 90 mm back 120 mm", "right 44 mm up", "back 300 mm"},
	} {
		text := strings.NewReplacer("FIRST", c.first, "SLANT", c.slant, "HALF", c.half, "OFF", c.off, "LAST", c.last).Replace(slanted)
		job, _ := description.Read("slanted.toml", []byte(text))
		if job == nil {
			t.Fatalf("%s is not read", c.slant)
		}
		p, err := plan.Make(job, plan.Findings)
		if err != nil {
			t.Fatal(err)
		}
		d := members.NewDrawing(Input{Layout: p.Before.Layout})
		ms := d.Members()
		for name, sp := range map[string]*space.Space{"plain": d.SpaceOf(ms, 1, [3]map[int]float64{}), "apart": d.Apart(ms, 1)} {
			a, b := members.Show(ms, sp)
			on := 0
			for i := range ms {
				if len(space.AxesOf(ms[i].Way())) < 2 {
					continue
				}
				for k := range ms {
					if k == i || !besides(ms[i], ms[k].A) || !besides(ms[i], ms[k].B) {
						continue
					}
					on++
					for _, v := range []graph.Vec{a[k], b[k]} {
						line := b[i].Sub(a[i])
						off := v.Sub(a[i])
						if away := off.Cross(line).Len() / line.Len(); away > 0.05 {
							t.Errorf("%s, %s: %.0f mm of a member and %.0f mm of the next lie on one line, and are drawn %.2f mm off it",
								c.slant, name, ms[i].Way().Len(), ms[k].Way().Len(), away)
						}
					}
					if b[k].Sub(a[k]).Dot(b[i].Sub(a[i]))*ms[k].Way().Dot(ms[i].Way()) <= 0 {
						t.Errorf("%s, %s: two members of one line are drawn against each other", c.slant, name)
					}
				}
			}
			if on < 12 { // four slanting legs or more, each with three others
				t.Errorf("%s, %s: %d pairs of members on one line", c.slant, name, on)
			}
		}
	}
}

// besides reports whether a place lies on the line of a member.
func besides(m members.Member, v graph.Vec) bool {
	way := m.Way().Unit()
	return v.Sub(m.A).Cross(way).Len() < 0.5
}
