package heating_test

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
)

// A pump that gives the water more than the tub loses is told of, with the coldest air in which
// it does so; one that does it in warm air only is not, for most tubs then drift by themselves.
// Common practice, no source: a tub whose large pump runs day and night overheats in summer.
func TestPumpThatOverheatsIsTold(t *testing.T) {
	for _, c := range []struct {
		name string
		left []float64 // W, in air of -5, 0, 5 … °C
		want string
	}{
		{"in frost already", []float64{-20, -80, -140}, "in air of -5 °C and above"},
		{"in mild air", []float64{60, 0, -60}, "in air of 0 °C and above"},
		{"in summer only", []float64{260, 200, 140, 80, 20, -40}, ""},
		{"never", []float64{260, 200}, ""},
	} {
		r := &job.Report{}
		for i, w := range c.left {
			r.Airs = append(r.Airs, job.AtAir{AirC: float64(5*i - 5), LosesW: w, GivesW: 4000})
		}
		said := strings.Join(heating.Short(r, graph.Job{}, nil, form.Style{}), "\n")
		if c.want != "" && !strings.Contains(said, c.want) || c.want == "" && strings.Contains(said, "pump's own heat") {
			t.Errorf("%s: %q", c.name, said)
		}
	}
}

// What a year takes less because the water is left to grow cold is called that, and neither a
// saving nor what pays for the work. Follows from the words.
func TestColdWaterIsNoSaving(t *testing.T) {
	for _, c := range []struct {
		coldestC float64
		saves    bool
	}{{36, true}, {33.5, true}, {30, false}, {3.5, false}} {
		y := &job.YearReport{Today: &heat.Account{ColdestC: 37}, Planned: &heat.Account{ColdestC: c.coldestC, Short: 4000, Bathed: 4000}, Priced: true,
			TodayKWh: job.Range{Likely: 3300}, PlannedKWh: job.Range{Likely: 900}, SavingShare: job.Range{Likely: 0.73}, SavingCost: job.Range{Likely: 699}}
		said := strings.Join(heating.Short(&job.Report{Year: y}, graph.Job{}, nil, form.Style{}), "\n")
		if strings.Contains(said, "that saves") != c.saves || strings.Contains(said, "heat which is missing") == c.saves || !c.saves && strings.Contains(said, "after a bath") {
			t.Errorf("coldest %g °C: %q", c.coldestC, said)
		}
	}
}

// Papers name no keys of the description where something is not described, and do not say that nothing
// heats today where an old unit does, whose year is not worked out. Follows from the words.
func TestPapersSayWhatIsNotDescribed(t *testing.T) {
	bare := strings.Join(heating.Short(&job.Report{}, graph.Job{}, nil, form.Style{}), "\n")
	if !strings.Contains(bare, "the climate isn't described") || strings.Contains(bare, "[") {
		t.Errorf("without a climate: %q", bare)
	}
	for _, old := range []bool{false, true} {
		y := &job.YearReport{Today: &heat.Account{ColdestC: 37}, Planned: &heat.Account{ColdestC: 37}, TodayKWh: job.Range{Likely: 3300}, PlannedKWh: job.Range{Likely: 900}}
		r := &job.Report{Year: y, OldHeats: map[bool][]string{true: {"old"}}[old]}
		said := strings.Join(heating.ForOwner(r, graph.Job{}, nil, form.Style{}), "\n")
		if strings.Contains(said, "[") || !strings.Contains(said, "the price of electricity isn't described") {
			t.Errorf("old unit %t: %q", old, said)
		}
		y.Today = nil
		said = strings.Join(heating.ForOwner(r, graph.Job{}, nil, form.Style{}), "\n")
		if strings.Contains(said, "nothing that heats today") == old || strings.Contains(said, "of the old unit nothing is known") != old {
			t.Errorf("old unit %t, no element: %q", old, said)
		}
	}
}

// Numbers of JSON stand in the unit of their key whatever is asked for; sentences in what is.
func TestHeatJSONWordsAreInTheUnitsAsked(t *testing.T) {
	r := &job.Report{
		Assumed:  []job.Assumed{{What: graph.Say("defrosts below %s", quantity.Temperature.Of(7)), Value: 7, Dim: quantity.Temperature}},
		Supplies: []job.Supply{{Says: []quantity.Text{graph.Say("room for air of %s", quantity.Temperature.Of(-5))}}},
	}
	data, err := heating.JSON(r, form.Style{Units: quantity.InchSystem})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"defrosts below 44.6 °F", "room for air of 23 °F", `"value": 7`} {
		if !strings.Contains(string(data), want) {
			t.Errorf("no %q in %s", want, data)
		}
	}
}

// A number without a unit that was assumed is printed so that the reader can reckon with it: 0.65 is not
// 0.7. Follows from the words.
func TestAssumedNumbersAreWhole(t *testing.T) {
	r := &job.Report{Assumed: []job.Assumed{{What: "activity of the water", Value: 0.65, Plain: true}, {What: "refills a year", Value: 3, Plain: true}}}
	text := string(heating.Text(r, graph.Job{}, form.Style{}))
	for _, want := range []string{`activity of the water +0\.65\b`, `refills a year +3\s`} {
		if !regexp.MustCompile(want).MatchString(text) {
			t.Errorf("nothing of %q in\n%s", want, text)
		}
	}
}

// Where no year is worked out none is said to leave a unit out. Follows from the words.
func TestOtherUnitsLeftOutOfWhatThereIs(t *testing.T) {
	for _, year := range []*job.YearReport{nil, {Planned: &heat.Account{ColdestC: 37}, PlannedKWh: job.Range{Likely: 900}}} {
		said := strings.Join(heating.Short(&job.Report{Unit: job.UnitReport{ID: "a"}, Others: []string{"b"}, Year: year}, graph.Job{}, nil, form.Style{}), "\n")
		if !strings.Contains(said, `reckoned with "a" alone; not counted, for no water comes to it in the mode that heats: "b"`) {
			t.Errorf("with a year %t: %q", year != nil, said)
		}
	}
}
