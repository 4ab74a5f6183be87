package plan

import (
	"testing"

	"dryfit/graph"
)

// Whether a finding only follows from a pump that an old check stops is told by what the finding is
// about, not by its words: of a place that is ruled out for another reason the name of the pump may
// stand in the reason all the same. Follows from what the two findings say.
func TestStandstillIsReadFromNoWords(t *testing.T) {
	pump := &graph.Part{ID: "pump", Pos: graph.Pos{Line: 7}}
	p := &Plan{stopped: []*graph.Part{pump}}
	for _, c := range []struct {
		d    graph.Diagnostic
		want bool
	}{
		{graph.Diagnostic{Rule: "retrofit", Message: `no place for the cut; nearest is leg 1: pump "pump" runs and nothing passes it`, Of: []string{"pump"}}, true},
		{graph.Diagnostic{Rule: "retrofit", Message: `no place for the cut; nearest is leg 1: it lies before "pump"`}, false},
		{graph.Diagnostic{Rule: "flow", Message: "it runs and no water passes it", Of: []string{"pump"}}, true},
		{graph.Diagnostic{Rule: "flow", Message: "another thing on that line of the file", Pos: pump.Pos, Of: []string{"jets"}}, false},
		{graph.Diagnostic{Rule: "clash", Message: "it stands in the wall", Of: []string{"pump"}}, false},
	} {
		if got := p.ofStandstill(c.d); got != c.want {
			t.Errorf("%s: %v", c.d.Message, got)
		}
	}
}
