package rule

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// What hangs on an error of the legs follows from it and is shown under it, through another that hangs on it
// too; with no such error it stands for itself. By the definition of Behind.
func TestFollowsFromTheMistakeItHangsOn(t *testing.T) {
	at := func(line int) graph.Pos { return graph.Pos{File: "a.toml", Line: line, Column: 1} }
	found := func(line int, rule string, s graph.Severity, behind ...graph.Pos) graph.Diagnostic {
		return graph.Diagnostic{Pos: at(line), Rule: rule, Severity: s, Message: "m", Behind: behind}
	}
	leg := func(message quantity.Text) graph.Diagnostic {
		return graph.Diagnostic{Pos: graph.Pos{File: "a.toml", Line: 30, Column: 9}, Rule: "routing", Severity: graph.Error, Message: message}
	}
	other := func(d graph.Diagnostic) graph.Diagnostic { d.Message = "another"; return d }
	fold := found(10, "routing", graph.Error)
	loop := found(20, "routing", graph.Error, at(10))
	for _, c := range []struct {
		name                    string
		ds                      []graph.Diagnostic
		roots, following, shown int
	}{
		{"a clash behind a fold", []graph.Diagnostic{fold, found(5, "clash", graph.Error, at(10))}, 1, 1, 1},
		{"one that may be there", []graph.Diagnostic{fold, found(5, "clash", graph.Warning, at(10))}, 1, 1, 0},
		{"a loop behind it, and a clash behind that", []graph.Diagnostic{found(5, "clash", graph.Error, at(20)), loop, fold}, 1, 2, 2},
		{"the fold gone", []graph.Diagnostic{found(5, "clash", graph.Error, at(20)), loop}, 1, 1, 1},
		{"nothing told there", []graph.Diagnostic{fold, found(5, "clash", graph.Error, at(99))}, 2, 0, 0},
		{"a warning there", []graph.Diagnostic{found(10, "routing", graph.Warning), found(5, "clash", graph.Error, at(10))}, 2, 0, 0},
		{"of its own", []graph.Diagnostic{fold, found(5, "clash", graph.Error)}, 2, 0, 0},
		{"a loop that misses by what its leg lacks", []graph.Diagnostic{leg("too short"), leg("does not close")}, 1, 1, 1},
		{"what is told of a whole run twice", []graph.Diagnostic{fold, other(fold)}, 2, 0, 0},
		{"six of them", []graph.Diagnostic{fold, found(1, "clash", graph.Error, at(10)), found(2, "clash", graph.Error, at(10)), found(3, "clash", graph.Error, at(10)),
			found(4, "clash", graph.Error, at(10)), found(5, "clash", graph.Error, at(10)), found(6, "clash", graph.Error, at(10))}, 1, 6, mostFolded + 1},
	} {
		roots, following := Following(c.ds)
		shown := 0
		for _, d := range roots {
			shown += len(d.Related)
		}
		if len(roots) != c.roots || len(following) != c.following || shown != c.shown {
			t.Errorf("%s: %d stand for themselves, %d follow, %d shown", c.name, len(roots), len(following), shown)
		}
	}
}
