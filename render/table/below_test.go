package table_test

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/heat/job"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// What may be added to a value below zero is told from the colder end to the warmer: -7 °C, 8 K less or 5 K more.
func TestBoundsOfAValueBelowZero(t *testing.T) {
	values := table.ShownOfHeat([]job.Assumed{{What: "coldest air", Value: -7, Dim: quantity.Temperature, Source: "judgement", Low: -8, High: 5, Adds: true}}, "")
	got := string(table.ShowText(nil, values, nil, form.Style{}))
	if !strings.Contains(got, "  -15 °C to -2 °C") {
		t.Errorf("got:\n%s", got)
	}
}
