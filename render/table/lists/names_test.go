package lists

import (
	"math"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
)

// Equivalent lengths beyond a thousand metres, below nothing, or that are no number say why.
func TestEquivalentLengthsThatMeanNothing(t *testing.T) {
	for m, want := range map[float64]string{2: "2.00 m", 999: "999.00 m", 1001: "no length", -0.2: "below 0"} {
		if got := fittingsLength(form.Style{}, m); got != want {
			t.Errorf("%g m: %q, want %q", m, got, want)
		}
	}
	// A valve nearly shut, by its Kv, in the handbook's columns and the sum as in those of a mode.
	p := &plan.Plan{Bill: &takeoff.Bill{Totals: []takeoff.Total{{Name: "bypass", PipeM: 0.2, FittingsM: 215534}, {Name: "line", PipeM: 1, FittingsM: 2}}, TotalEquivalentLengthM: 215537.2}}
	text := string(form.Text(EquivalentBlocks(p, nil, form.Style{}), form.Style{}))
	if strings.Contains(text, "2155") || strings.Count(text, "no length") != 2 || !strings.Contains(text, "no length: what stands in it costs far more than pipe of any length here would") || !strings.Contains(text, "3.00 m") {
		t.Errorf("%s", text)
	}
	if text, err := PartsJSON(p, form.Style{}); err != nil || strings.Contains(string(text), "2155") || strings.Count(string(text), "costs far more than pipe of any length here would") != 2 {
		t.Errorf("%s, %v", text, err)
	}
	if got := noEquivalent(math.NaN()); got == "" {
		t.Error("no number is printed as a length")
	}
}

// A valve that is set by what it passes says that in the units of the job: Kv is 0.865 Cv (IEC 60534-1).
func TestSettingsAreInTheUnitsOfTheJob(t *testing.T) {
	valve := takeoff.Item{Kind: "ball-valve", New: true, Set: []takeoff.Setting{{Part: "bypass", Open: 1, Kv: 23.21}}}
	for units, want := range map[quantity.System]string{quantity.MetricSystem: "bypass, set to Kv 23.2 m3/h", quantity.InchSystem: "bypass, set to Cv 26.8 gpm"} {
		if got := strings.Join(itemsBlock("", []takeoff.Item{valve}, form.Style{Units: units}).Lines, "\n"); !strings.Contains(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Hose that is reckoned as ribbed inside says so where it is bought or stays, for some are smooth; not where it
// goes, nor of other hose.
func TestCorrugatedHoseIsFelt(t *testing.T) {
	for _, c := range []struct {
		item takeoff.Item
		said bool
	}{
		{takeoff.Item{Kind: "pipe", Spec: "hose-corrugated", New: true}, true}, {takeoff.Item{Kind: "pipe", Spec: "hose-corrugated"}, true},
		{takeoff.Item{Kind: "pipe", Spec: "hose-corrugated", Removed: true}, false}, {takeoff.Item{Kind: "pipe", Spec: "hose", New: true}, false},
	} {
		if got := strings.Contains(strings.Join(itemsBlock("", []takeoff.Item{c.item}, form.Style{}).Lines, "\n"), "feel inside"); got != c.said {
			t.Errorf("%+v: said %v", c.item, got)
		}
	}
}

func TestShortName(t *testing.T) {
	for _, c := range []struct {
		item       takeoff.Item
		name, ends string
	}{
		{takeoff.Item{Name: "elbow 90, socket, inch, 1-1/2 in, pvc-sch40", Ends: "socket, inch", Size: "1-1/2 in", Spec: "pvc-sch40"}, "elbow 90", "socket"},
		{takeoff.Item{Name: "pipe, 2 in, pvc-sch40, bar of 0.74 m, offcut in the van", Ends: "inch", Size: "2 in", Spec: "pvc-sch40"}, "pipe, bar of 0.74 m, offcut in the van", ""},
		{takeoff.Item{Name: "heat pump, ports 50 mm", Size: "50 mm", Spec: "pvc-pn10"}, "heat pump", ""},
		{takeoff.Item{Name: "barb", Ends: "socket/barb, inch and metric", Size: "1-1/2 in x 38 mm"}, "barb", "socket/barb, inch and metric"},
		{takeoff.Item{Name: "union, inch, 2 in, pvc-sch40", Ends: "union, inch", Size: "2 in", Spec: "pvc-sch40"}, "union", "union"},
	} {
		if got := shortName(c.item); got != c.name {
			t.Errorf("%q is shortened to %q, want %q", c.item.Name, got, c.name)
		}
		if got := shortEnds(c.item.Ends); got != c.ends {
			t.Errorf("ends %q are shortened to %q, want %q", c.item.Ends, got, c.ends)
		}
	}
}

// A page has every place of an item, a terminal as many as fit and a count of the rest.
func TestPlaces(t *testing.T) {
	where := []takeoff.Place{{At: "bend 1 of to-unit"}, {At: "bend 2 of to-unit"}, {At: "bend 3 of to-unit"}}
	if got, want := placesText(form.Style{}, where, 28), "bend 1 of to-unit, +2 more"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := placesText(form.Style{Whole: true}, where, 28), strings.Join(takeoff.Apart(where), ", "); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
