package heating_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
)

// Where a boiler's heat exchanger stays in the water it is said that nothing of it is counted, and not that nothing
// heats today. Follows from the words.
func TestExchangerOfAnotherSourceIsNotCounted(t *testing.T) {
	r := &job.Report{Foreign: []string{"boiler"}, Year: &job.YearReport{Planned: &heat.Account{ColdestC: 37}, PlannedKWh: job.Range{Likely: 900}}}
	said := strings.Join(heating.Short(r, graph.Job{}, nil, form.Style{}), "\n")
	if !strings.Contains(said, `brought nothing, today and as planned: "boiler"`) || strings.Contains(said, "nothing that heats today") {
		t.Errorf("%q", said)
	}
	data, err := heating.JSON(r, form.Style{})
	if err != nil || !strings.Contains(string(data), `"not_counted": [`) {
		t.Errorf("%v: %s", err, data)
	}
}
