package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// What a step tells somebody to do with a joint comes of the joint's kind: hose is pushed onto a barb, a thread
// is screwed, a socket is glued. Follows from what the joints are.
func TestStepsAreWordedByTheirJoints(t *testing.T) {
	verbs := map[string]string{"barb": "push ", "thread": "screw ", "cement": "glue "}
	seen := map[string]int{}
	for _, name := range []string{"plug-in", "two-speed"} {
		p := work(t, read(t, name+".toml", []byte(demo(t, name))), plan.Findings|plan.Lists)
		for _, s := range p.Assembly.Steps {
			for i, m := range s.Meetings {
				kind := p.After.Layout.Joints[s.Joints[i]-1].Kind
				seen[kind]++
				for of, verb := range verbs {
					if strings.Contains(s.Before, verb) != (of == kind) {
						t.Errorf("%s, a %s joint: %s", name, kind, s.Text)
					}
				}
				if kind == "barb" && !strings.Contains(s.Text, m.Comes+" onto "+m.Stays) {
					t.Errorf("%s: hose does not go onto what it is pushed on: %s", name, s.Text)
				}
			}
		}
	}
	for kind := range verbs {
		if seen[kind] == 0 {
			t.Errorf("no joint of kind %s was looked at", kind)
		}
	}
}
