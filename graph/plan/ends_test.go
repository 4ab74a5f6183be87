package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// An element whose ports are said to be threads takes a thread adaptor where new pipe comes to
// it, screwed into the element and cemented to the pipe; the same element without a word on its
// ports takes none. Follows from what a thread is.
func TestThreadsSaidOnThePart(t *testing.T) {
	screwed, _, _ := strings.Cut(text(t, "testdata/tubs/threads.toml"), "[retrofit]") // nothing is fitted: the return line alone is new
	head, rest, _ := strings.Cut(screwed, "[[part]]\nid = \"unit\"")
	_, rest, _ = strings.Cut(rest, "[[part]]")
	screwed = head + "[[part]]" + rest
	for said, want := range map[string]bool{screwed: true, strings.Replace(screwed, "ends = \"thread\"\n", "", 1): false} {
		p := work(t, read(t, "threads.toml", []byte(strings.Replace(said, "to = \"jets.in\"\nexisting = true\n", "to = \"jets.in\"\n", 1))), plan.Findings|plan.Lists)
		found := false
		for _, j := range p.After.Layout.Joints {
			found = found || j.Kind == "thread" && strings.Contains(j.A+j.B, "element.out")
		}
		if found != want {
			t.Errorf("a joint on a thread at the element: %v, want %v", found, want)
		}
	}
}
