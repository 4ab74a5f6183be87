package rule

import (
	"slices"
	"strings"

	"dryfit/graph"
)

// follow says what a finding is the cause of: mended first, the others go, or are to be judged
// anew. One mistake is then one finding.
type follow struct {
	root  []string // an error of one of these
	leads []string // leaves these out
	at    bool     // but only those at the same key
	modes bool     // in whatever mode: else in its own, where both speak of one
	warns bool     // a warning of one of these leaves them out too
	errs  bool     // of them errors alone
}

// follows is the list of them. Common practice, no source: pipe too narrow, or a unit out of its
// flows, has something else put into the line, and what the water then does is another matter; a
// check the wrong way round shuts its line; where a leg is too short or runs through something, it
// is led anew, and its joints with it.
var follows = []follow{
	{root: []string{"branch-not-below-ports", "line-not-narrowed"}, leads: []string{"unit-least-flow", "least-flow-when-dirty"}},
	{
		root: []string{"branch-not-below-ports", "line-not-narrowed", "unit-least-flow", "unit-most-flow", "least-flow-when-dirty"},
		leads: []string{"jets-keep-flow", "spring-not-too-weak", "flow-past-check", "unit-temperature-rise", "velocity",
			"rise-measurable", "unit-rated-flow"},
	},
	{root: []string{"unit-least-flow"}, leads: []string{"least-flow-when-dirty"}, modes: true},                                                       // the same lack, on a worse day
	{root: []string{"unit-most-flow"}, leads: []string{"flow-past-check"}, modes: true},                                                              // a spring too strong is so at every speed
	{root: []string{"heater-line-flows"}, leads: []string{"unit-least-flow", "least-flow-when-dirty", "line-least-flow", "unit-rated-flow", "flow"}}, // of no water nobody gets any
	{root: []string{"unit-highest-pressure"}, leads: []string{"working-pressure"}, at: true},
	{root: []string{"heat-when-unit-stops"}, leads: []string{"unit-holds-tub"}},
	{root: []string{"heat-when-unit-stops"}, leads: []string{"unit-holds-tub"}, at: true, warns: true}, // in what air it stops is not said: read first
	{root: []string{"unit-most-flow"}, leads: []string{"spring-not-too-strong"}},
	{
		root: []string{"check-arrow"},
		leads: []string{"unit-least-flow", "unit-most-flow", "least-flow-when-dirty", "spring-not-too-strong", "spring-not-too-weak", "jets-keep-flow",
			"flow-past-check", "unit-temperature-rise", "velocity", "rise-measurable", "unit-rated-flow", "heater-line-flows", "line-least-flow", "pump-not-shut-in", "way-round-when-isolated"},
	},
	{root: []string{"retrofit"}, leads: []string{"routing", "legs-plausible"}, at: true}, // pipe that is not led as it was asked for
	{root: []string{"routing"}, leads: []string{"clash"}, at: true},
	{root: []string{"routing", "clash"}, leads: []string{"hand-room"}, at: true},
	{root: []string{"cut-room"}, leads: []string{"routing"}, errs: true}, // work that lies where there is no room for it
	{root: []string{"cut-room"}, leads: []string{"clash", "hand-room", "assembly", "check-straight-length"}},
	{root: []string{"nothing-new-on-suction"}, leads: []string{"assembly", "velocity"}, at: true},
}

// reaches reports whether two findings can be of one mistake: what is said of one mode, or of one
// unit, leaves alone what is said of another. Who speaks of no mode, or of no unit, speaks of all.
func (f follow) reaches(root, d graph.Diagnostic) bool {
	meets := func(a, b string) bool { return a == "" || b == "" || a == b }
	return (f.modes || meets(root.Mode, d.Mode)) && meets(root.Unit, d.Unit) && (!f.at || root.Pos == d.Pos)
}

// Following tells apart what stands for itself and what only follows from another finding: an error
// of the cause has to be there, of the same mode and unit where both speak of one, and a
// note of what was there before the work follows from nothing.
// Where the hand lacks room at a body that the work runs through, the clash says it.
func Following(ds []graph.Diagnostic) (roots, following []graph.Diagnostic) {
	through := map[graph.Pos]string{} // what the work runs through, as it is named there
	for _, d := range ds {
		if d.Rule == "clash" && d.Severity > graph.Note {
			for _, r := range d.Related {
				if r.Pos != d.Pos {
					through[r.Pos] = strings.TrimSuffix(r.Message.String(), " is here")
				}
			}
		}
	}
	// a cabinet has six walls at one place of the file: a clash with it says nothing of room beside them
	ofClash := func(d graph.Diagnostic) bool {
		if d.Rule != "hand-room" || len(d.Related) == 0 {
			return false
		}
		name, ok := through[d.Related[0].Pos]
		return ok && strings.HasPrefix(d.Related[0].Message.String(), name)
	}
	leads := func(d graph.Diagnostic) func(follow) bool {
		return func(f follow) bool {
			return slices.Contains(f.leads, d.Rule) && (!f.errs || d.Severity == graph.Error) && slices.ContainsFunc(ds, func(root graph.Diagnostic) bool {
				return (root.Severity == graph.Error || f.warns && root.Severity == graph.Warning) && slices.Contains(f.root, root.Rule) && f.reaches(root, d)
			})
		}
	}
	blamed := mistakes(ds)
	for _, d := range ds {
		if blamed.of(d) != nil && d.Severity > graph.Note {
			following = append(following, d)
			continue
		}
		if ofClash(d) || d.Severity > graph.Note && slices.ContainsFunc(follows, leads(d)) {
			following = append(following, d)
			continue
		}
		roots = append(roots, d)
	}
	return blamed.fold(roots, following), following
}
