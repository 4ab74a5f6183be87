package table

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/heat/job"
	"dryfit/graph/settle"
	"dryfit/render/table/form"
)

// Shown is one settled value on its way to paper.
type Shown struct {
	settle.Key
	settle.Value
}

// ShownOf returns the values of one part or run (or the water), or of all for "", in the
// order of the walk.
func ShownOf(stages []*settle.Stage, of string) []Shown {
	var out []Shown
	seen := map[settle.Key]bool{}
	for _, set := range stages {
		for k, v := range set.Values() {
			if (of == "" || k.Of == of) && !seen[k] {
				seen[k] = true
				out = append(out, Shown{k, v})
			}
		}
	}
	return out
}

// heatOf is what values are of that heat, the year and the supply go by and that are of no part.
const heatOf = "heat"

// ShownOfHeat returns what heat, the year and the supply go by and nobody gave, and that is no settled
// value: of one part, or of all for "".
func ShownOfHeat(noted []job.Assumed, of string) []Shown {
	var out []Shown
	for i := range noted {
		a := &noted[i]
		if a.Settled || of != "" && a.Of != of || a.Adds && a.Value == 0 { // what only varies is no value
			continue
		}
		v := settle.Value{V: a.Value, Dim: a.Dim, Known: true, Origin: settle.Origin{How: settle.Assumed, Why: a.Source}}
		switch {
		case a.High <= a.Low:
		case a.Adds:
			v.Low, v.High = a.Low/a.Value, a.High/a.Value // of -7 °C 5 K more is less of it
		default:
			v.Low, v.High = a.Low-1, a.High-1
		}
		if a.Plain {
			v.Dim = settle.Bare
		}
		of := a.Of
		if of == "" {
			of = heatOf
		}
		out = append(out, Shown{settle.Key{Of: of, What: string(a.What)}, v})
	}
	return out
}

// heatBlock lists them.
func heatBlock(values []Shown, s form.Style) form.Block {
	b := form.Block{Title: "What heat, the year and the supply go by besides, though nobody gave it"}
	if len(values) == 0 {
		return b
	}
	b.Grid = form.NewGrid(form.Column{Head: "what", Widest: 50}, form.Column{Head: "value"}, form.Column{Head: "may be", Widest: 24}, form.Column{Head: "from", Widest: 60})
	for i := range values {
		v := &values[i]
		b.Grid.Add(quantity.Text(v.What).In(s.Units), v.words(s.Units), v.bounds(s.Units), v.from(s.Units))
	}
	return b
}

// ShowText prints values a block for each part and run, what heat goes by besides, and last what of
// them is sampled; of one alone what the values mean as well.
func ShowText(values, ofHeat []Shown, unknowns []Unknown, s form.Style) []byte {
	var blocks []form.Block
	taken := map[settle.Key]string{} // what is taken otherwise by what was read, its value as described
	for i := range unknowns {
		if text := takenText(&unknowns[i].Influence); text != "" {
			taken[unknowns[i].Key] = ", taken " + text
		}
	}
	for i := 0; i < len(values); {
		of := values[i].Of
		g := form.NewGrid(form.Column{Head: "what"}, form.Column{Head: "value", Widest: 40}, form.Column{Head: "may be", Widest: 24}, form.Column{Head: "from", Widest: 60})
		for ; i < len(values) && values[i].Of == of; i++ {
			v := &values[i]
			value := v.words(s.Units)
			if v.How != settle.AsRead {
				value += taken[v.Key]
			}
			g.Add(v.What, value, v.bounds(s.Units), v.from(s.Units))
		}
		blocks = append(blocks, form.Block{Title: of, Grid: g})
	}
	alone := len(blocks) == 1
	if b := heatBlock(ofHeat, s); b.Grid != nil {
		blocks = append(blocks, b)
	}
	if b := unknownsBlock(unknowns, s); b.Grid != nil {
		blocks = append(blocks, b)
	}
	if alone {
		blocks = append(blocks, form.Block{Title: "What they mean", Lines: meansOf(values)})
	}
	return form.Text(blocks, s)
}

// ShownRows words values: what it is, the value, between what it may lie, and where it is from.
func ShownRows(values []Shown, s form.Style) [][]string {
	out := make([][]string, len(values))
	for i := range values {
		v := &values[i]
		out[i] = []string{v.What, v.words(s.Units), v.bounds(s.Units), v.from(s.Units)}
	}
	return out
}

// words is the value as one reads it.
func (v *Shown) words(units quantity.System) string {
	switch {
	case v.Form != nil:
		return v.Form.Words().In(units)
	case v.Dim == settle.Words:
		return quantity.Text(v.Text).In(units)
	}
	return v.amount(v.V, units)
}

// amount is the value, or what it may be, as one reads it: in inches a length that is read off a rule
// is a fraction, what a calliper measures a decimal, both ends of a range like the value.
func (v *Shown) amount(x float64, units quantity.System) string {
	byCalliper := strings.Contains(v.What, "bore") || strings.Contains(v.What, "outside") || v.What == "roughness"
	switch {
	case v.Dim == settle.Bare && v.How == settle.Assumed: // a guess is good for no more digits
		return quantity.Trim(quantity.Round(x, 2))
	case v.Dim != quantity.Length || units == quantity.MetricSystem || byCalliper:
		return settledWords(x, v.Dim, units)
	case math.Abs(x) < 304.8:
		return quantity.Closely(x).In(units)
	}
	return quantity.Length.Of(x).In(units)
}

// settledWords prints a value to the digits it was given with: a bore to hundredths of a mm, a
// roughness to ten thousandths.
func settledWords(x float64, dim quantity.Dimension, units quantity.System) string {
	switch {
	case dim == settle.Bare:
		return quantity.Trim(form.Round(x, 4))
	case dim == quantity.Kv:
		return dim.Of(x).In(units)
	case dim == quantity.Length && units == quantity.MetricSystem:
		return quantity.Trim(form.Round(x, lengthDecimals(x))) + " mm"
	case dim == quantity.Length && (x < 25.4 || !wholeSixteenths(x)):
		return quantity.Trim(form.Round(quantity.In(x, dim, "in"), lengthDecimals(x)+1)) + " in"
	}
	return quantity.Format(x, dim, units)
}

// wholeSixteenths reports whether a length is one that a rule in inches shows.
func wholeSixteenths(mm float64) bool {
	n := 16 * quantity.In(mm, quantity.Length, "in")
	return form.Round(n, 0) == form.Round(n, 4)
}

func lengthDecimals(mm float64) int {
	if math.Abs(mm) < 0.1 {
		return 5
	}
	return 2
}

// varies reports whether the value may be another: a share of nothing, as of the spring that a swing check
// has not, is nothing.
func (v *Shown) varies() bool { return v.High != v.Low && (v.Dim == settle.Words || v.V != 0) }

// bounds says between what the value may lie; of words by what share what they cost may be off.
func (v *Shown) bounds(units quantity.System) string {
	switch {
	case !v.varies():
		return ""
	case v.Dim == settle.Words:
		return fmt.Sprintf("%+.0f to %+.0f %%", 100*v.Low, 100*v.High)
	}
	words := v.amount(v.V*(1+v.Low), units) + " to " + v.amount(v.V*(1+v.High), units)
	if min(v.Low, v.High) > 0 || max(v.Low, v.High) < 0 { // the value is that of new pipe, and this is not
		return "in use " + words
	}
	return words
}

// from says where the value came from.
func (v *Shown) from(units quantity.System) string {
	switch v.How {
	case settle.Given:
		if v.Pos.IsValid() {
			return v.Pos.String()
		}
		return v.Why.In(units)
	case settle.OwnRow:
		return "your row " + v.Row
	case settle.Row:
		return "catalogue row " + v.Row
	case settle.AsRead:
		return "fitted to what was read at " + v.Pos.String()
	case settle.Derived:
		var of []string
		for _, k := range v.Origin.Of {
			of = append(of, k.String())
		}
		return "from " + strings.Join(of, " and ")
	}
	if v.Row != "" {
		return "assumed: generic row " + v.Row
	}
	return "assumed: " + v.Why.In(units)
}

// showUnits are the units of values in CSV and JSON.
var showUnits = map[quantity.Dimension]form.Unit{
	quantity.Air:                   {Name: "l/s", Dim: quantity.Air, Decimals: 3},
	quantity.Length:                {Name: "mm", Dim: quantity.Length, Decimals: 5},
	quantity.Flow:                  {Name: "m3/h", Dim: quantity.Flow, Decimals: 4},
	quantity.Pressure:              {Name: "kPa", Dim: quantity.Pressure, Decimals: 4},
	quantity.Head:                  {Name: "m", Dim: quantity.Head, Decimals: 4},
	quantity.Temperature:           {Name: "°C", Dim: quantity.Temperature, Decimals: 2},
	quantity.Power:                 {Name: "W", Dim: quantity.Power, Decimals: 1},
	quantity.Density:               {Name: "kg/m3", Dim: quantity.Density, Decimals: 3},
	quantity.Viscosity:             {Name: "mPa s", Dim: quantity.Viscosity, Decimals: 5},
	quantity.Volume:                {Name: "m3", Dim: quantity.Volume, Decimals: 5},
	quantity.Conductance:           {Name: "W/K", Dim: quantity.Conductance, Decimals: 4},
	quantity.Area:                  {Name: "m2", Dim: quantity.Area, Decimals: 4},
	quantity.Time:                  {Name: "h", Dim: quantity.Time, Decimals: 4},
	quantity.Share:                 {Name: "%", Dim: quantity.Share, Decimals: 3},
	quantity.Energy:                {Name: "kWh", Dim: quantity.Energy, Decimals: 5},
	quantity.TemperatureDifference: {Name: "K", Dim: quantity.TemperatureDifference, Decimals: 3},
	quantity.Voltage:               {Name: "V", Dim: quantity.Voltage, Decimals: 1},
	quantity.Current:               {Name: "A", Dim: quantity.Current, Decimals: 3},
	quantity.Kv:                    {Name: "m3/h", Dim: quantity.Kv, Decimals: 4},
	settle.Bare:                    {Name: "", Dim: settle.Bare, Decimals: 5},
}

type valueJSON struct {
	Of    string   `json:"of"`
	What  string   `json:"what"`
	Value any      `json:"value"` // a number in the unit, or words
	Unit  string   `json:"unit"`
	How   string   `json:"how"`
	From  string   `json:"from"`
	Low   *float64 `json:"low"` // of the value, in its unit; of words: as a factor on what they cost; null: taken as exact
	High  *float64 `json:"high"`
	Class string   `json:"class"`
}

func valuesJSON(values []Shown, s form.Style) []valueJSON {
	out := make([]valueJSON, 0, len(values))
	for i := range values {
		v := &values[i]
		one := valueJSON{Of: v.Of, What: quantity.Text(v.What).String(), How: string(v.How), From: v.from(s.Units), Class: v.Class}
		at := func(share float64) *float64 {
			x := form.Round(1+share, 4)
			return &x
		}
		if v.Dim == settle.Words {
			one.Value = quantity.Text(v.Text).In(quantity.MetricSystem)
		} else {
			u := showUnits[v.Dim]
			one.Value, one.Unit = u.Of(v.V), u.Name
			at = func(share float64) *float64 {
				x := u.Of(v.V * (1 + share))
				return &x
			}
		}
		if v.varies() {
			one.Low, one.High = at(v.Low), at(v.High)
		}
		out = append(out, one)
	}
	return out
}

// ShowJSON prints values, and what may be off and is sampled, as one object.
func ShowJSON(values []Shown, unknowns []Unknown, s form.Style) ([]byte, error) {
	return form.WriteJSON(struct {
		Values   []valueJSON   `json:"values"`
		Unknowns []unknownJSON `json:"unknowns"`
	}{valuesJSON(values, s), unknownsJSON(unknowns, s)})
}

// ShowCSV prints values a line each, then what is sampled; how says "sampled" of those.
func ShowCSV(values []Shown, unknowns []Unknown, s form.Style) []byte {
	var rows [][]string
	number := func(x *float64) string {
		if x == nil {
			return ""
		}
		return quantity.Trim(*x)
	}
	for _, v := range valuesJSON(values, s) {
		value := ""
		switch is := v.Value.(type) {
		case string:
			value = form.Cell(is)
		case float64: // a number below zero is no formula
			value = quantity.Trim(is)
		}
		rows = append(rows, []string{form.Cell(v.Of), form.Cell(v.What), value, v.Unit, v.How, form.Cell(v.From), number(v.Low), number(v.High), form.Cell(v.Class)})
	}
	for _, u := range unknownsJSON(unknowns, s) {
		rows = append(rows, []string{form.Cell(u.Of), form.Cell(u.What), form.Cell(u.Value), "", "sampled", form.Cell(u.From), quantity.Trim(u.Low), quantity.Trim(u.High), ""})
	}
	return form.WriteCSV([]string{"of", "what", "value", "unit", "how", "from", "low", "high", "class"}, rows)
}
