package quantity

import (
	"math/big"
	"slices"
	"sync"
)

// UnitInfo is one line of the table of units.
type UnitInfo struct {
	Symbol    string // as a description writes it
	Dimension Dimension
	Aliases   []string // other spellings that are read
	Factor    string   // exact: Value = Factor · (number - Offset); a decimal, or a product and quotient of decimals
	Offset    string   // "" for none
	Example   string
	Source    string
}

// The sources of the conversion factors.
const (
	sourceSI   = "SI brochure (BIPM), exact by definition"
	sourceNIST = "NIST SP 811 (2008) appendix B, exact"
	// A vacuum gauge on a pump's suction reads inches of mercury.
	sourceMercury = "inch of conventional mercury of 13595.1 kg/m3: NIST SP 811 (2008) appendix B.8 prints 3386.389 Pa"
	sourceUKUnit  = "UK Units of Measurement Regulations 1995: gallon 4.54609 dm3, exact"
	sourceIEC534  = "definitions in IEC 60534-1 (Kv: m3/h at 1 bar, Cv: US gpm at 1 psi), worked out from NIST SP 811"
	sourceHead    = "head is counted in metres of the water pumped"
)

// cvToKv is the Kv of a valve with a Cv of 1: one US gpm in m³/h times the square root of
// 1 bar over 1 psi, to 16 figures. Handbooks print 0.865.
const cvToKv = "0.8649776554423018"

// unitTable is the one table of units. Where a symbol stands for several dimensions the
// first that is wanted counts.
var unitTable = []UnitInfo{
	{"mm", Length, nil, "1", "", "450 mm", sourceSI},
	{"cm", Length, nil, "10", "", "45 cm", sourceSI},
	{"m", Length, nil, "1000", "", "1.8 m", sourceSI},
	{"in", Length, nil, "25.4", "", "1-1/2 in", sourceNIST},
	{"ft", Length, nil, "304.8", "", "12 ft 6 in", sourceNIST},

	{"l", Volume, []string{"L"}, "0.001", "", "1150 l", sourceSI},
	{"m3", Volume, []string{"m³"}, "1", "", "1.15 m3", sourceSI},
	{"gal", Volume, nil, "0.003785411784", "", "300 gal", sourceNIST},
	{"ft3", Volume, []string{"ft³"}, "0.3048*0.3048*0.3048", "", "40 ft3", sourceNIST},
	{"imp-gal", Volume, nil, "0.00454609", "", "250 imp-gal", sourceUKUnit},

	{"l/min", Flow, []string{"L/min"}, "0.001/60", "", "95 l/min", sourceSI},
	{"l/s", Flow, []string{"L/s"}, "0.001", "", "1.6 l/s", sourceSI},
	{"l/h", Flow, []string{"L/h"}, "0.001/3600", "", "5700 l/h", sourceSI},
	{"m3/h", Flow, []string{"m³/h"}, "1/3600", "", "5.8 m3/h", sourceSI},
	{"m3/s", Flow, []string{"m³/s"}, "1", "", "0.0016 m3/s", sourceSI},
	{"gpm", Flow, nil, "0.003785411784/60", "", "25 gpm", sourceNIST},
	{"imp-gpm", Flow, nil, "0.00454609/60", "", "21 imp-gpm", sourceUKUnit},

	{"Pa", Pressure, nil, "1", "", "6000 Pa", sourceSI},
	{"kPa", Pressure, nil, "1000", "", "6 kPa", sourceSI},
	{"mbar", Pressure, nil, "100", "", "60 mbar", sourceNIST},
	{"bar", Pressure, nil, "100000", "", "3.5 bar", sourceNIST},
	{"psi", Pressure, nil, "0.45359237*9.80665/0.0254/0.0254", "", "0.5 psi", sourceNIST},
	{"inHg", Pressure, []string{"in Hg"}, "25.4*13.5951*9.80665", "", "3 inHg", sourceMercury},

	{"m", Head, nil, "1", "", "2.4 m", sourceHead},
	{"ft", Head, nil, "0.3048", "", "8 ft", sourceHead},

	{"°C", Temperature, nil, "1", "", "38 °C", sourceSI},
	{"°F", Temperature, nil, "5/9", "32", "100 °F", sourceNIST},
	{"K", Temperature, nil, "1", "273.15", "311.15 K", sourceSI},

	{"K", TemperatureDifference, nil, "1", "", "2.5 K", sourceSI},
	{"°C", TemperatureDifference, nil, "1", "", "2.5 °C", sourceSI},
	{"°F", TemperatureDifference, nil, "5/9", "", "4.5 °F", sourceNIST},

	{"W", Power, nil, "1", "", "240 W", sourceSI},
	{"kW", Power, nil, "1000", "", "2.9 kW", sourceSI},
	{"hp", Power, nil, "550*0.3048*0.45359237*9.80665", "", "1.5 hp", "NIST SP 811 (2008) appendix B, horsepower of 550 ft lbf/s, exact"},
	{"Btu/h", Power, []string{"BTU/h", "BTU/H", "btu/h", "Btu/hr", "BTU/hr", "BTU/HR", "BTUH"}, "1055.05585262/3600", "", "28000 Btu/h", "NIST SP 811 (2008) appendix B, Btu of the International Table, exact"},

	{"A", Current, nil, "1", "", "14.5 A", sourceSI},
	{"V", Voltage, nil, "1", "", "230 V", sourceSI},
	{"kg", Mass, nil, "1", "", "48 kg", sourceSI},
	{"lb", Mass, nil, "0.45359237", "", "106 lb", sourceNIST},
	{"kg/m3", Density, []string{"kg/m³"}, "1", "", "993 kg/m3", sourceSI},
	{"lb/ft3", Density, []string{"lb/ft³"}, "0.45359237/0.3048/0.3048/0.3048", "", "62 lb/ft3", sourceNIST},
	{"Pa s", Viscosity, []string{"Pa·s"}, "1", "", "0.00068 Pa s", sourceSI},
	{"mPa s", Viscosity, []string{"mPa·s"}, "0.001", "", "0.68 mPa s", sourceSI},
	{"cP", Viscosity, nil, "0.001", "", "0.68 cP", sourceNIST},

	{"s", Time, nil, "1", "", "45 s", sourceSI},
	{"min", Time, nil, "60", "", "30 min", sourceSI},
	{"h", Time, nil, "3600", "", "4 h", sourceSI},

	{"%", Share, nil, "0.01", "", "60 %", sourceSI},

	{"m3/h", Kv, []string{"m³/h"}, "1", "", "31 m3/h", sourceIEC534},
	{"gpm", Cv, nil, cvToKv, "", "36 gpm", sourceIEC534},

	{"m2", Area, []string{"m²"}, "1", "", "4.2 m2", sourceSI},
	{"ft2", Area, []string{"ft²"}, "0.3048*0.3048", "", "45 ft2", sourceNIST},
	{"W/K", Conductance, nil, "1", "", "9.1 W/K", sourceSI},
	{"W/°F", Conductance, nil, "9/5", "", "5.1 W/°F", sourceNIST},
	{"m2 K/W", Insulance, []string{"m²K/W", "m² K/W", "m2K/W"}, "1", "", "2.1 m2 K/W", sourceSI},
	{"m/s", Velocity, nil, "1", "", "0.5 m/s", sourceSI},
	{"ft/s", Velocity, nil, "0.3048", "", "6 ft/s", sourceNIST},
	{"mm2", Section, []string{"mm²"}, "1", "", "2.5 mm2", sourceSI},
	{"mV/A/m", CableDrop, nil, "1", "", "18 mV/A/m", sourceSI},
	{"ohm", Resistance, []string{"Ω"}, "1", "", "0.4 ohm", sourceSI},
	{"kWh", Energy, nil, "1", "", "0.2 kWh", sourceSI},

	{"l/s", Air, []string{"L/s"}, "0.001", "", "8 l/s", sourceSI},
	{"m3/h", Air, []string{"m³/h"}, "1/3600", "", "29 m3/h", sourceSI},
	{"l/min", Air, []string{"L/min"}, "0.001/60", "", "480 l/min", sourceSI},
	{"cfm", Air, []string{"CFM"}, "0.3048*0.3048*0.3048/60", "", "17 cfm", sourceNIST},
	{"m3/s", Air, []string{"m³/s"}, "1", "", "0.008 m3/s", sourceSI},
}

// chains are the units that may follow each other in one quantity ("12 ft 6 in").
var chains = [][]string{{"ft", "in"}, {"h", "min", "s"}}

// Units returns the table of every unit that is read.
func Units() []UnitInfo {
	out := slices.Clone(unitTable)
	for i := range out {
		out[i].Aliases = slices.Clone(out[i].Aliases)
	}
	return out
}

// IsSymbol reports whether a word is the symbol of a unit that is read.
func IsSymbol(word string) bool {
	return slices.ContainsFunc(unitTable, func(u UnitInfo) bool { return u.Symbol == word })
}

// spells reports whether the text is a spelling of the unit.
func (u *UnitInfo) spells(text string) bool {
	return u.Symbol == text || slices.Contains(u.Aliases, text)
}

// exact turns the number in this unit into the dimension's base unit.
func (u UnitInfo) exact(number *big.Rat) *big.Rat {
	out := new(big.Rat).Set(number)
	if u.Offset != "" {
		out.Sub(out, exactOf()[u.Offset])
	}
	return out.Mul(out, exactOf()[u.Factor])
}

// exactOf holds the factors and offsets of the table, worked out once; never written to.
var exactOf = sync.OnceValue(func() map[string]*big.Rat {
	out := map[string]*big.Rat{}
	for _, u := range unitTable {
		out[u.Factor] = product(u.Factor)
		if u.Offset != "" {
			out[u.Offset] = product(u.Offset)
		}
	}
	return out
})

// product works out a product and quotient of decimals such as "0.001/60", exactly.
func product(text string) *big.Rat {
	out := big.NewRat(1, 1)
	divide := false
	for start, i := 0, 0; i <= len(text); i++ {
		if i < len(text) && text[i] != '*' && text[i] != '/' {
			continue
		}
		r, ok := new(big.Rat).SetString(text[start:i])
		if !ok {
			panic("quantity: bad factor " + text)
		}
		if divide {
			out.Quo(out, r)
		} else {
			out.Mul(out, r)
		}
		divide = i < len(text) && text[i] == '/'
		start = i + 1
	}
	return out
}

// fitting returns the symbols of the units that measure one of the dimensions, each once,
// in the order of the table.
func fitting(want []Dimension) []string {
	var out []string
	for _, u := range unitTable {
		if wanted(want, u.Dimension) && !slices.Contains(out, u.Symbol) {
			out = append(out, u.Symbol)
		}
	}
	return out
}

// wanted reports whether the dimension is among those wanted; an empty list wants any.
func wanted(want []Dimension, d Dimension) bool {
	return len(want) == 0 || slices.Contains(want, d)
}
