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

// A unit starved at low speed says nothing of what the jets lose at high, nor of another unit; pipe
// narrower than a unit's ports is told of no speed, and what that does to its unit follows in all of
// them. By the definition of the findings, no source needed.
func TestFollowingKeepsToModeAndUnit(t *testing.T) {
	found := func(rule, mode, unit string, s graph.Severity) graph.Diagnostic {
		return graph.Diagnostic{Rule: rule, Mode: mode, Unit: unit, Severity: s}
	}
	starved := found("unit-least-flow", "low", "a", graph.Error)
	narrow := found("branch-not-below-ports", "", "a", graph.Error)
	for _, c := range []struct {
		name    string
		root, d graph.Diagnostic
		follows bool
	}{
		{"the jets at the same speed", starved, found("jets-keep-flow", "low", "", graph.Warning), true},
		{"the jets at the other", starved, found("jets-keep-flow", "high", "", graph.Warning), false},
		{"its own rise at the same speed", starved, found("unit-temperature-rise", "low", "a", graph.Warning), true},
		{"its own rise at the other", starved, found("unit-temperature-rise", "high", "a", graph.Warning), false},
		{"the other unit's rise at the same speed", starved, found("unit-temperature-rise", "low", "b", graph.Warning), false},
		{"its flow with a dirty filter, at whatever speed", starved, found("least-flow-when-dirty", "high", "a", graph.Error), true},
		{"the other's with a dirty filter", starved, found("least-flow-when-dirty", "low", "b", graph.Error), false},
		{"what passes a spring too strong, at whatever speed", found("unit-most-flow", "high", "a", graph.Error), found("flow-past-check", "low", "a", graph.Warning), true},
		{"what passes one at the other speed", starved, found("flow-past-check", "high", "a", graph.Warning), false},
		{"its flow behind narrow pipe", narrow, found("unit-least-flow", "low", "a", graph.Error), true},
		{"the other's flow behind narrow pipe of this one", narrow, found("unit-least-flow", "low", "b", graph.Error), false},
		{"the jets behind narrow pipe", narrow, found("jets-keep-flow", "high", "", graph.Warning), true},
		{"the other's warmth", found("heat-when-unit-stops", "", "a", graph.Error), found("unit-holds-tub", "", "b", graph.Warning), false},
	} {
		_, following := Following([]graph.Diagnostic{c.root, c.d})
		if (len(following) == 1) != c.follows {
			t.Errorf("%s: %d findings follow", c.name, len(following))
		}
	}
}
