package table

import (
	"math"
	"strconv"

	"dryfit/catalog/quantity"
)

// Style says how text is printed.
type Style struct {
	Units  quantity.System
	Colour bool
	Whole  bool // every place of an item, however many: for a page
}

// round rounds as quantity.Round does. Not-a-number and infinities become 0: no solved plan
// holds one, and JSON has no word for them.
func round(v float64, places int) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return quantity.Round(v, places)
}

// mm rounds a length for JSON: 0.01 mm.
func mm(v float64) float64 { return round(v, 2) }

// m3h turns m³/s into m³/h for JSON.
func m3h(v float64) float64 { return round(quantity.In(v, quantity.Flow, "m3/h"), 4) }

// kPa turns Pa into kPa for JSON.
func kPa(v float64) float64 { return round(quantity.In(v, quantity.Pressure, "kPa"), 4) }

// fixed prints v with the number of places.
func fixed(v float64, places int) string {
	return strconv.FormatFloat(round(v, places), 'f', places, 64)
}

// say words a text in the style's units.
func (s Style) say(t quantity.Text) string { return t.In(s.Units) }

// says words texts, a string each; empty, not nil, where there are none.
func (s Style) says(list []quantity.Text) []string {
	return quantity.Worded(list, s.Units)
}

// rise prints a temperature difference in K.
func (s Style) rise(v float64) string {
	return quantity.Format(v, quantity.TemperatureDifference, s.Units)
}

// length prints a length in mm as the style asks: whole mm, or feet and inches to 1/16.
func (s Style) length(v float64) string { return quantity.Format(v, quantity.Length, s.Units) }

// flow prints a flow in m³/s.
func (s Style) flow(v float64) string { return quantity.Format(v, quantity.Flow, s.Units) }

// pressure prints a pressure in Pa.
func (s Style) pressure(v float64) string { return quantity.Format(v, quantity.Pressure, s.Units) }

// head prints a head in m.
func (s Style) head(v float64) string { return quantity.Format(v, quantity.Head, s.Units) }

// unit is a unit a column is printed in: its name, for the column's head, and its decimals.
type unit struct {
	name   string // "" for a bare number
	dim    quantity.Dimension
	places int
}

// of returns a value given in the dimension's base unit in the unit, rounded.
func (u unit) of(v float64) float64 {
	if u.name != "" {
		v = quantity.In(v, u.dim, u.name)
	}
	return round(v, u.places)
}

// text prints a value given in the dimension's base unit in the unit, without its name.
func (u unit) text(v float64) string { return fixed(u.of(v), u.places) }

func (s Style) flowUnit() unit {
	if s.Units == quantity.InchSystem {
		return unit{"gpm", quantity.Flow, 1}
	}
	return unit{"m3/h", quantity.Flow, 2}
}

func (s Style) pressureUnit() unit {
	if s.Units == quantity.InchSystem {
		return unit{"psi", quantity.Pressure, 2}
	}
	return unit{"kPa", quantity.Pressure, 1}
}

func (s Style) speedUnit() unit {
	if s.Units == quantity.InchSystem {
		return unit{"ft/s", quantity.Velocity, 1}
	}
	return unit{"m/s", quantity.Velocity, 2}
}

// pipeLength prints a length given in m.
func (s Style) pipeLength(v float64) string {
	return quantity.Long(v * 1000).In(s.Units)
}

// boreUnit is what a calliper shows.
func (s Style) boreUnit() unit {
	if s.Units == quantity.InchSystem {
		return unit{"in", quantity.Length, 3}
	}
	return unit{"mm", quantity.Length, 1}
}

// amount is money as exact decimal text: a JSON number, null where it is not known.
type amount string

// MarshalJSON writes the digits as they are.
func (a amount) MarshalJSON() ([]byte, error) {
	if a == "" {
		return []byte("null"), nil
	}
	return []byte(a), nil
}
