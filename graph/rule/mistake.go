package rule

import (
	"slices"

	"dryfit/graph"
)

// mostFolded is how many of the findings that hang on a mistake are shown with it.
const mostFolded = 3

// blame is the errors that others name as what they hang on, by place: of those that hang on another
// themselves that.
type blame map[graph.Pos]*graph.Diagnostic

// mistakes gathers the errors others may hang on.
func mistakes(ds []graph.Diagnostic) blame {
	b := blame{}
	var hang []*graph.Diagnostic
	for i := range ds {
		switch d := &ds[i]; {
		case d.Severity != graph.Error || d.Rule != "routing" && d.Rule != "retrofit":
		case len(d.Behind) > 0:
			hang = append(hang, d)
		case b[d.Pos] == nil:
			b[d.Pos] = d
		}
	}
	for _, d := range hang { // a mistake hangs on no more than one other
		root := b.of(*d)
		switch {
		case b[d.Pos] != nil:
		case root == nil:
			b[d.Pos] = d
		default:
			b[d.Pos] = root
		}
	}
	return b
}

// of is the mistake a finding hangs on; nil.
func (b blame) of(d graph.Diagnostic) *graph.Diagnostic {
	for _, pos := range d.Behind {
		if root := b[pos]; root != nil && !tellsSame(root, &d) {
			return root
		}
	}
	// of one leg that is too short and a loop it is on that misses by that, the leg is measured once
	if root := b[d.Pos]; root != nil && d.Rule == "routing" && root.Rule == "routing" && d.Severity == graph.Error && d.Pos.Column > 1 && !tellsSame(root, &d) {
		return root
	}
	return nil
}

// fold shows under each mistake the errors that hang on it, the rest of them by their number.
func (b blame) fold(roots, following []graph.Diagnostic) []graph.Diagnostic {
	for i := range roots {
		var hang []graph.Related
		for _, d := range following {
			if root := b.of(d); root != nil && tellsSame(root, &roots[i]) && d.Severity == graph.Error {
				hang = append(hang, graph.Related{Pos: d.Pos, Message: "to be judged again then: " + d.Message})
			}
		}
		if more := len(hang) - mostFolded; more > 0 {
			hang = append(hang[:mostFolded], graph.Related{Pos: hang[mostFolded].Pos, Message: graph.Say("and %d more like these", more)})
		}
		roots[i].Related = append(slices.Clone(roots[i].Related), hang...)
	}
	return roots
}

func tellsSame(a, b *graph.Diagnostic) bool {
	return a.Pos == b.Pos && a.Rule == b.Rule && a.Message == b.Message
}
