package plan_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	"dryfit/graph/patch"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/graph/said"
)

// heldRooms are the rooms whose every text is said by a case, and the files and names of fields in which
// stands what is no finding.
var heldRooms = map[string][]string{
	"../retrofit":         {"assembly.go", "stop.go"}, // terms of what is needed
	"../retrofit/removal": nil,
	"../hydraulic":        {"Source", "spring.go", "solution.go"}, // states
}

// heldFiles are files of other rooms whose every text is said by a case too.
var heldFiles = map[string][]string{"../route/laying": {"bend.go", "ends.go"}}

// saidElsewhere are texts that no case brings about well, and what does; or why nothing can.
var saidElsewhere = map[string]string{
	"bend of no stock angle":                                    "by what notes of one kind are counted",
	"has no bore: neither its size nor the catalogue gives one": "no description gives it: the reader asks for a size",
	"has no curve for %q":                                       "no description gives it: the reader asks for the curve",
	"has no speed %q":                                           "no description gives it: the reader asks for the speed",
	"the flows do not converge: %s%s; after %d steps heads are off by %.3g m and flows by %.3g m³/s": "a mistake of the solver: no job is known to give it",
	"no loss is known of the %s %s: it counts as none":                                               "no fitting that is laid is known to be without one",
	"give the run a k for it":                      "the same",
	"at the ends of ":                              "what flow lists of a run on barbs",
	"check before the feeder":                      "TestTrappedHeightIsNamed",
	", those at the check before the feeder aside": "TestTrappedHeightIsNamed",
	"tap tee": "an id that nobody reads",
	"the tees and the bypass are %s, on barbs for %s hose: %s would narrow the line":                                           "TestTeesOnHoseDoNotNarrowTheLine",
	"the barbs stand in the bill; the pipes to the unit may be of another size: size in [retrofit]":                            "TestTeesOnHoseDoNotNarrowTheLine",
	"only if the %s measures at most %s from stop to stop: it is taken as %s, and the lengths of the work may come to %s more": "TestPossibleIf",
	"the line at %q and %q does not lead straight on":                                                                          "no job is known to give it: a tee has one way besides the unit's and the bypass",
	"the pipes to %q are the best that were found; whether there are better ones was not looked at to the end":                 "TestProvedInCrowds, in graph/retrofit/lead: a cabinet of a thousand bodies",
	"lead them yourself where you see a better way: along, branch or keep-clear, or to-unit and from-unit":                     "the same",
	": there is no room for their fittings":                                                                                    "TestNoPairSaysHowSure",
	"the room %s of %q":                                                                                                        "a name in the list of what is in the way: no job is known in which that alone is",
}

// jobsAsTheyAre are descriptions of the tests that say something by themselves.
var jobsAsTheyAre = []string{"jobs/barb-kept", "jobs/shared-filter", "jobs/pumps-side-by-side", "tubs/along-blocked", "tubs/threads", "tubs/narrow", "tubs/open-less", "tubs/feeder"}

// TestEveryTextIsSaid looks for all that the rooms below may have to say among what is found of the
// cases of testdata/said: each is BASE--WHAT.patch, laid over the description BASE of this house, and what is
// found of it, and not of BASE, stands beside it: nobody has seen how what is missing there reads.
func TestEveryTextIsSaid(t *testing.T) {
	files, err := filepath.Glob("testdata/said/*.patch")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d cases (%v)", len(files), err)
	}
	var all strings.Builder
	kept := golden.In(t, "testdata/said/*.golden", nil)
	was := map[string][]string{} // of a base
	for _, file := range files {
		name, _, _ := strings.Cut(filepath.Base(file), "--")
		base := baseOf(t, name)
		if was[base] == nil {
			was[base], _ = told(t, name, text(t, base))
			all.WriteString(strings.Join(was[base], ""))
		}
		changed, err := patch.Over(text(t, base), text(t, file))
		if err != nil {
			t.Fatalf("%s:%v", file, err)
		}
		found, more := told(t, name, changed)
		all.WriteString(strings.Join(found, "") + more)
		found = slices.DeleteFunc(found, func(f string) bool { return slices.Contains(was[base], f) })
		kept.Is(strings.TrimSuffix(file, ".patch")+".golden", []byte(strings.Join(found, "")))
	}
	for _, file := range jobsAsTheyAre {
		found, more := told(t, file, text(t, "testdata/"+file+".toml"))
		all.WriteString(strings.Join(found, "") + more)
	}
	var texts []said.Text
	for room, but := range heldRooms {
		texts = append(texts, said.In(t, room, but...)...)
	}
	for room, files := range heldFiles {
		for _, x := range said.In(t, room) {
			if slices.Contains(files, filepath.Base(x.At.Filename)) {
				texts = append(texts, x)
			}
		}
	}
	for _, wrong := range said.Hold(texts, all.String(), saidElsewhere) {
		t.Error(wrong)
	}
}

// baseOf is the file of a description by its name.
func baseOf(t *testing.T, name string) string {
	t.Helper()
	for _, dir := range []string{"../../testdata", "testdata/jobs", "testdata/cases", "testdata/tubs"} {
		file := filepath.Join(dir, name+".toml")
		if _, err := os.Stat(file); err == nil {
			return file
		}
	}
	t.Fatalf("no description %s", name)
	return ""
}

// told is what is found of a description, one text for each finding, without where it stands; and what
// is said besides of its places and its parts.
func told(t *testing.T, name, text string) (found []string, more string) {
	t.Helper()
	c, ds := description.Read(name, []byte(text))
	if c == nil {
		t.Fatalf("%s is not read: %v", name, ds)
	}
	p := work(t, c, plan.Findings|plan.Flows|plan.Places)
	in := func(x quantity.Text) string { return x.In(quantity.MetricSystem) }
	var b strings.Builder
	for _, d := range slices.Concat(p.Findings, p.Following) {
		line := fmt.Sprintf("%s: %s [%s]\n", d.Severity, in(d.Message), d.Rule)
		if d.Hint != "" {
			line += "    hint: " + in(d.Hint) + "\n"
		}
		for _, o := range d.Related {
			line += "    " + in(o.Message) + "\n"
		}
		found = append(found, line)
	}
	for _, d := range work(t, c, plan.Findings|plan.Swift).Findings { // as long as nothing was tried
		b.WriteString(in(d.Message) + "\n" + in(d.Hint) + "\n")
	}
	for _, v := range p.Places {
		for _, term := range v.Place.Terms {
			b.WriteString(in(term.What) + "\n")
		}
		for _, r := range v.Reasons {
			b.WriteString(in(r.Text) + "\n")
		}
	}
	if p.Proposal != nil {
		for _, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
			if m != nil {
				b.WriteString(m.From + "\n" + in(quantity.Join(m.Keeps, "\n")) + "\n")
			}
		}
	}
	return found, b.String()
}
