package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/lots"
	"dryfit/graph/plan"
)

// joins is the id of a run that goes by what it joins.
var joins = regexp.MustCompile(`[\w-]+\.[\w-]+>[\w-]+\.[\w-]+`)

// Findings, the order of assembly and the reasons of places speak of no run but those somebody
// wrote: new pipe goes by the parts it joins, its elbows by the pieces they stand between, and what
// is left of old pipe by that pipe.
func TestNoRunNobodyWroteIsNamed(t *testing.T) {
	worded := 0
	for _, seed := range lots.Of(30, 24) {
		c := cabinet(t, seed)
		written := map[string]bool{}
		for _, r := range c.Runs {
			written[r.ID] = true
		}
		p := work(t, c, plan.Findings|plan.Places)
		say := func(where, text string) {
			worded += strings.Count(text, "the new pipe from ") + strings.Count(text, " between pieces ")
			for _, id := range joins.FindAllString(text, -1) {
				if !written[id] {
					t.Errorf("seed %d, %s speaks of %s, which nobody wrote:\n%s", seed, where, id, text)
				}
			}
		}
		for _, d := range p.Findings {
			say("finding "+d.Rule, d.Message.String()+" "+d.Hint.String())
			for _, r := range d.Related {
				say("a place of finding "+d.Rule, r.Message.String())
			}
		}
		if p.Assembly != nil {
			for _, s := range p.Assembly.Steps {
				say("a step", s.Text)
			}
		}
		for _, v := range p.Places {
			for _, r := range v.Reasons {
				say("a reason", r.Text.String())
			}
		}
	}
	if worded < 20 {
		t.Errorf("%d runs and bends put into words, there are more", worded)
	}
}

// A bend of new pipe goes by the pieces on its two sides, whose numbers stand on the cut list.
func TestBendsGoByTheirPieces(t *testing.T) {
	p := work(t, cabinet(t, 24), plan.Findings|plan.Lists)
	between := regexp.MustCompile(`piece (\d+) into elbow-\d+ between pieces (\d+) and (\d+)`)
	seen := 0
	for _, s := range p.Assembly.Steps {
		for _, m := range between.FindAllStringSubmatch(s.Text, -1) {
			seen++
			if m[1] != m[2] && m[1] != m[3] {
				t.Errorf("piece %s goes into the elbow between pieces %s and %s", m[1], m[2], m[3])
			}
		}
	}
	if elbows := newElbows(p); seen < elbows {
		t.Errorf("%d joints at bends in the order of assembly, there are %d elbows", seen, elbows)
	}
}

func newElbows(p *plan.Plan) int {
	n := 0
	for i := range p.After.Layout.Paths {
		path := &p.After.Layout.Paths[i]
		for _, f := range path.Fittings {
			if path.Run.New() && strings.HasPrefix(f.Kind, "elbow") {
				n++
			}
		}
	}
	return n
}
