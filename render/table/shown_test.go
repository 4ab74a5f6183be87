package table_test

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph/settle"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// In inches a length that is read off a rule is a fraction, and both ends of what it may be are worded
// as the value is, above the line or below it; what a calliper measures is a decimal. By hand: 5.5 m
// are 18 ft 0.535 in, a quarter less 162.402 in, 34 % more 290.157 in.
func TestLengthsShownInInches(t *testing.T) {
	for _, c := range []struct {
		what      string
		mm        float64
		low, high float64
		want      string
	}{
		{"length", 5500, -0.25, 0.34, "18 ft 9/16 in, 13 ft 6-3/8 in to 24 ft 2-3/16 in"},
		{"length", 40, 0, 0, "1-9/16 in, "},
		{"take-off", 26, 0, 0, "1-1/32 in, "},
		{"depth below water", -200, 0, 0, "-7-7/8 in, "},
		{"bore", 52.04, 0, 0, "2.049 in, "},
		{"roughness", 0.0015, 0, 0, "0.000059 in, "},
	} {
		v := settle.Value{V: c.mm, Dim: quantity.Length, Known: true, Spread: settle.Spread{Span: tables.Span{Low: c.low, High: c.high}}}
		row := table.ShownRows([]table.Shown{{Key: settle.Key{Of: "x", What: c.what}, Value: v}}, form.Style{Units: quantity.InchSystem})[0]
		if got := strings.Join(row[1:3], ", "); got != c.want {
			t.Errorf("%s of %g mm: %q, want %q", c.what, c.mm, got, c.want)
		}
	}
}

// A share of nothing is nothing: what is 0 has no ends, for people and for programs; what is worded has them
// as shares.
func TestNothingHasNoEnds(t *testing.T) {
	spread := settle.Spread{Span: tables.Span{Low: -0.16, High: 0.16}}
	for _, c := range []struct {
		value      settle.Value
		ends, json string
	}{
		{settle.Value{Dim: quantity.Pressure, Known: true, Spread: spread}, "", `"low": null`},
		{settle.Value{V: 10000, Dim: quantity.Pressure, Known: true, Spread: spread}, "8.4 kPa to 11.6 kPa", `"low": 8.4,`},
		{settle.Value{Text: "L/D 8", Dim: settle.Words, Known: true, Spread: spread}, "-16 to +16 %", `"low": 0.84,`},
	} {
		shown := []table.Shown{{Key: settle.Key{Of: "x", What: "cracking pressure"}, Value: c.value}}
		if got := table.ShownRows(shown, form.Style{})[0][2]; got != c.ends {
			t.Errorf("%q, want %q", got, c.ends)
		}
		if data, err := table.ShowJSON(shown, nil, form.Style{}); err != nil || !strings.Contains(string(data), c.json) {
			t.Errorf("no %s in %s, %v", c.json, data, err)
		}
	}
}
