package table_test

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/heat/job"
	"dryfit/graph/settle"
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
	csv := string(table.ShowCSV(values, nil, form.Style{}))
	if !strings.Contains(csv, ",-7,°C,") || !strings.Contains(csv, ",-15,-2,") {
		t.Errorf("a number below zero is one for a spreadsheet too, not a text: %s", csv)
	}
	words := []table.Shown{{Key: settle.Key{Of: "p", What: "w"}, Value: settle.Value{Dim: settle.Words, Text: "=1+1", Known: true}}}
	if csv := string(table.ShowCSV(words, nil, form.Style{})); !strings.Contains(csv, ",'=1+1,") {
		t.Errorf("words that a spreadsheet would run: %s", csv)
	}
}
