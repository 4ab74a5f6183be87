package detail

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/route/laying"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// Of two bushes, one in the other, each is named by the sizes it is bought in: 75 x 50 and
// 50 x 32 mm in each tee, no one from 75 to 32.
func TestTwoBushesByTheirOwnSizes(t *testing.T) {
	data, err := os.ReadFile("testdata/two-bushes.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two-bushes.toml", data)
	if c == nil {
		t.Fatal(ds)
	}
	got := map[string]int{}
	for _, page := range Draw(Input{Layout: laying.Of(c)}) {
		for _, it := range page.Items {
			if text, ok := it.(scene.Text); ok && strings.HasPrefix(text.Text, "bush ") && strings.Contains(text.Text, " x ") {
				got[text.Text]++
			}
		}
	}
	if len(got) != 2 || got["bush 75 mm x 50 mm"] != 2 || got["bush 50 mm x 32 mm"] != 2 {
		t.Errorf("on the sheet: %v", got)
	}
}

// A bush in a tee's branch has two joints, one round it and one in it: the first is pointed at on the
// socket it is in, the second at the face, where the pipe goes in.
func TestJointsOfABush(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	read, ds := description.Read("two-speed.toml", data)
	if read == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(read, plan.Findings)
	if err != nil {
		t.Fatal(err)
	}
	lay := p.After.Layout
	c := chains(lay)[0]
	d := &drawing{in: Input{Layout: lay}, names: tag.Of(lay.Circuit, lay.Stage.Net()), c: &c, view: c.viewsOf()[0], per: 1,
		line: frame{u: scene.Point{X: 1}, v: scene.Point{Y: -1}, per: 1, set: lay.Stage}}
	d.figure()
	looked := 0
	for i := range c.limbs {
		l := &c.limbs[i]
		if len(l.tubes) == 0 || !l.tubes[0].bushFrom {
			continue
		}
		looked++
		row, f := c.members[l.tee].fit.Row.V, d.limbFrame(l)
		face := max(row.BranchTakeOffMM, row.TakeOffMM) + row.SocketMM
		along := func(joint int) float64 {
			for _, r := range d.requests {
				if r.name == fmt.Sprintf("joint:%d", joint) {
					return (r.at[0].X-f.at.X)*f.u.X + (r.at[0].Y-f.at.Y)*f.u.Y
				}
			}
			t.Errorf("J%d is not on the figure", joint)
			return 0
		}
		round, in := along(l.tubes[0].bushJoint), along(l.tubes[0].joinFrom)
		if round > face-0.25*row.SocketMM || round < face-0.75*row.SocketMM {
			t.Errorf("the joint round the bush is pointed at %.1f mm from the tee's centre; its socket is from %.1f to %.1f", round, face-row.SocketMM, face)
		}
		if !near(in, face) {
			t.Errorf("the joint in the bush is pointed at %.1f mm from the tee's centre, its face is at %.1f", in, face)
		}
	}
	if looked != 2 {
		t.Errorf("%d branches with a bush, want 2", looked)
	}
}
