package plan_test

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
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

// A thread adaptor is ordered in the size and series of the port it is screwed onto, also where the
// pipe to it is of the other series and a transition stands between: what is cemented into it would
// not go into another. Follows from the sizes: 1-1/2 in pipe is 48.3 mm outside (ASTM D1785), 50 mm
// pipe 50 mm (EN ISO 1452-2).
func TestThreadAdaptorIsOfItsPort(t *testing.T) {
	said := strings.Replace(text(t, "testdata/tubs/threads.toml"), "ports-size = \"50 mm\"\n", "ports-size = \"1 1/2 in\"\nends = \"thread\"\n", 1)
	p := work(t, read(t, "threads.toml", []byte(said)), plan.Findings|plan.Lists)
	at := 0
	for _, it := range p.Bill.Items {
		for _, where := range takeoff.Apart(it.Where) {
			if it.Kind == "thread-adaptor" && strings.HasPrefix(where, "at unit.") {
				at++
				if it.Size != "1-1/2 in" || it.Ends != "socket/thread, inch" || it.Spec.Family() != catalog.Inch {
					t.Errorf("%s is ordered as %s", where, it.Name)
				}
			}
		}
	}
	if at != 2 {
		t.Errorf("%d thread adaptors at the unit, want 2", at)
	}
	for _, piece := range p.Cuts.Pieces {
		for _, e := range []string{piece.From.Fitting, piece.To.Fitting} {
			if strings.HasPrefix(e, "thread-adaptor at unit.") && piece.Size.Metric {
				t.Errorf("piece %d of %s goes into %s", piece.Number, piece.Size, e)
			}
		}
	}
}
