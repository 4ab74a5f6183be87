package table

import (
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/golden"
	"dryfit/render/table/form"
)

// Rows of each sort as catalog show prints them in inch units and in metric ones: pipe and a
// fitting whose standard is in inches, a spring, a pump with its curve, a unit with its ratings.
func TestRowsAsShown(t *testing.T) {
	kept := golden.In(t, "testdata/rows/*", nil)
	for units, file := range map[quantity.System]string{quantity.InchSystem: "inch.txt", quantity.MetricSystem: "metric.txt"} {
		var out []byte
		for _, name := range []string{"pipe pvc-sch40 2 in", "pipe pvc-pn10 50 mm", "elbow-90 pvc-sch40 2 in", "spring-check 2 psi", "pool-pump", "heat-pump 12 kW"} {
			row, ok := rowNamed(name)
			if !ok {
				t.Errorf("there is no row %q", name)
				continue
			}
			row.Origin = "" // a file and its line
			out = append(out, RowText(row, form.Style{Units: units})...)
		}
		kept.Is("testdata/rows/"+file, out)
	}
}

func rowNamed(name string) (catalog.Row, bool) {
	for _, r := range catalog.Embedded().Rows() {
		if r.Name == name {
			return r, true
		}
	}
	return catalog.Row{}, false
}
