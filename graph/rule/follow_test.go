package rule

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Room for the hand beside a body that the work runs through follows from that clash; beside a
// wall of the cabinet it does not follow from another thing standing in another wall, though both
// are described at one line. By the definition of both findings, no source needed.
func TestHandRoomFollowsFromItsOwnClash(t *testing.T) {
	filter, cabinet := graph.Pos{File: "a.toml", Line: 20, Column: 1}, graph.Pos{File: "a.toml", Line: 90, Column: 1}
	at := func(line int, rule string, pos graph.Pos, there quantity.Text) graph.Diagnostic {
		return graph.Diagnostic{Pos: graph.Pos{File: "a.toml", Line: line, Column: 1}, Rule: rule, Severity: graph.Warning,
			Related: []graph.Related{{Pos: pos, Message: there}}}
	}
	for _, c := range []struct {
		name        string
		clash, hand graph.Diagnostic
		follows     bool
	}{
		{"the same filter", at(40, "clash", filter, `filter "filter" is here`), at(50, "hand-room", filter, `filter "filter" as large as it is taken to be is here`), true},
		{"the unit in the floor, a nut below the top", at(40, "clash", cabinet, "the cabinet is described here"), at(50, "hand-room", cabinet, "the top of the cabinet is here"), false},
		{"another thing", at(40, "clash", filter, `filter "filter" is here`), at(50, "hand-room", cabinet, "the top of the cabinet is here"), false},
	} {
		roots, following := Following([]graph.Diagnostic{c.clash, c.hand})
		if (len(following) == 1) != c.follows || len(roots)+len(following) != 2 {
			t.Errorf("%s: %d findings stand for themselves, %d follow", c.name, len(roots), len(following))
		}
	}
}
