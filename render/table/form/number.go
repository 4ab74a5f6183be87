package form

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

// Round rounds as quantity.Round does. Not-a-number and infinities become 0: no solved plan
// holds one, and JSON has no word for them.
func Round(v float64, decimals int) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return quantity.Round(v, decimals)
}

// MM rounds a length for JSON: 0.01 mm.
func MM(v float64) float64 { return Round(v, 2) }

// M3h turns m³/s into m³/h for JSON.
func M3h(v float64) float64 { return Round(quantity.In(v, quantity.Flow, "m3/h"), 4) }

// KPa turns Pa into kPa for JSON.
func KPa(v float64) float64 { return Round(quantity.In(v, quantity.Pressure, "kPa"), 4) }

// Fixed prints v with the number of decimals.
func Fixed(v float64, decimals int) string {
	return strconv.FormatFloat(Round(v, decimals), 'f', decimals, 64)
}

// Say words a text in the style's units.
func (s Style) Say(t quantity.Text) string { return t.In(s.Units) }

// Says words texts, a string each; empty, not nil, where there are none.
func (s Style) Says(list []quantity.Text) []string {
	return quantity.Worded(list, s.Units)
}

// Rise prints a temperature difference in K.
func (s Style) Rise(v float64) string {
	return quantity.Format(v, quantity.TemperatureDifference, s.Units)
}

// Length prints a length in mm as the style asks: whole mm, or feet and inches to 1/16.
func (s Style) Length(v float64) string { return quantity.Format(v, quantity.Length, s.Units) }

// Second prints the second of two marks in mm, so that it and the first differ by what Length prints
// of the length between them.
func (s Style) Second(first, second float64) string {
	return s.Length(quantity.Beyond(first, second-first, s.Units))
}

// Flow prints a flow in m³/s.
func (s Style) Flow(v float64) string { return quantity.Format(v, quantity.Flow, s.Units) }

// FlowLimit prints a flow in m³/s that something is held against, as it was given.
func (s Style) FlowLimit(v float64) string { return quantity.Flow.Limit(v).In(s.Units) }

// Pressure prints a pressure in Pa.
func (s Style) Pressure(v float64) string { return quantity.Format(v, quantity.Pressure, s.Units) }

// Head prints a head in m.
func (s Style) Head(v float64) string { return quantity.Format(v, quantity.Head, s.Units) }

// Unit is a unit a column is printed in: its name, for the column's head, and its decimals.
type Unit struct {
	Name     string // "" for a bare number
	Dim      quantity.Dimension
	Decimals int
}

// Of returns a value given in the dimension's base unit in the unit, rounded.
func (u Unit) Of(v float64) float64 {
	if u.Name != "" {
		v = quantity.In(v, u.Dim, u.Name)
	}
	return Round(v, u.Decimals)
}

// Text prints a value given in the dimension's base unit in the unit, without its name.
func (u Unit) Text(v float64) string { return Fixed(u.Of(v), u.Decimals) }

// FlowUnit is what flows are printed in.
func (s Style) FlowUnit() Unit {
	if s.Units == quantity.InchSystem {
		return Unit{"gpm", quantity.Flow, 1}
	}
	return Unit{"m3/h", quantity.Flow, 2}
}

// PressureUnit is what pressures are printed in.
func (s Style) PressureUnit() Unit {
	if s.Units == quantity.InchSystem {
		return Unit{"psi", quantity.Pressure, 2}
	}
	return Unit{"kPa", quantity.Pressure, 1}
}

// SpeedUnit is what the speed of water is printed in.
func (s Style) SpeedUnit() Unit {
	if s.Units == quantity.InchSystem {
		return Unit{"ft/s", quantity.Velocity, 1}
	}
	return Unit{"m/s", quantity.Velocity, 2}
}

// PipeLength prints a length given in m.
func (s Style) PipeLength(v float64) string {
	return quantity.Long(v * 1000).In(s.Units)
}

// BoreUnit is what a calliper shows.
func (s Style) BoreUnit() Unit {
	if s.Units == quantity.InchSystem {
		return Unit{"in", quantity.Length, 3}
	}
	return Unit{"mm", quantity.Length, 1}
}

// Amount is money as exact decimal text: a JSON number, null where it is not known.
type Amount string

// MarshalJSON writes the digits as they are.
func (a Amount) MarshalJSON() ([]byte, error) {
	if a == "" {
		return []byte("null"), nil
	}
	return []byte(a), nil
}

// Ptr returns a number of JSON that may be left out.
func Ptr(v float64) *float64 { return &v }
