package table

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
	"dryfit/render/table/form"
)

// everyUnknownIsShown holds what the ranges of flow were sampled over against show: each number
// that moves anything, and no other, is in its JSON by its name and in its text by its words,
// and with the name of each part or run that it was met at.
func everyUnknownIsShown(t *testing.T, name string, p *plan.Plan) {
	t.Helper()
	stages := []*settle.Stage{p.After.Layout.Stage}
	all := UnknownsOf(p.Unknowns(), stages, "")
	data, err := ShowJSON(ShownOf(stages, ""), all, form.Style{})
	if err != nil {
		t.Fatal(err)
	}
	var shown struct {
		Unknowns []unknownJSON `json:"unknowns"`
	}
	if err := json.Unmarshal(data, &shown); err != nil {
		t.Fatal(err)
	}
	for _, v := range ShownOf(stages, "") {
		if u := showUnits[v.Dim]; v.Dim != settle.Words && v.Dim != settle.Bare && u.Name == "" {
			t.Errorf("%s: %s of %s is shown in no unit", name, v.What, v.Of)
		}
	}
	text := strings.Join(strings.Fields(string(form.Text([]form.Block{unknownsBlock(all, form.Style{Whole: true})}, form.Style{Whole: true}))), " ")
	for _, f := range p.Ranges.Moves {
		i := slices.IndexFunc(shown.Unknowns, func(u unknownJSON) bool { return u.What == f.What })
		if i < 0 {
			t.Errorf("%s: %q is sampled and not shown", name, f.What)
			continue
		}
		u := shown.Unknowns[i]
		if u.Low >= u.High || len(u.At) == 0 {
			t.Errorf("%s: %q is shown as %+v", name, f.What, u)
		}
		for _, at := range u.At {
			if !slices.ContainsFunc(UnknownsOf(p.Unknowns(), stages, at), func(one Unknown) bool { return one.What == f.What }) {
				t.Errorf("%s: %q is met at %s and not shown there", name, f.What, at)
			}
		}
	}
	for _, word := range []string{"elbows nobody listed", "joints", "covers of the suctions"} {
		sampled := slices.ContainsFunc(p.Ranges.Moves, func(f spread.Influence) bool { return strings.Contains(f.What, word) })
		if sampled && !strings.Contains(text, word) {
			t.Errorf("%s: %q is not in the text", name, word)
		}
	}
	// one more than is sampled of the circuit alone: how deep lies what nothing says
	if got, want := len(shown.Unknowns), p.Ranges.Unknowns+1; got != want {
		t.Errorf("%s: %d unknowns are shown, %d are sampled", name, got, want)
	}
}
