package quantity

// Dimension says what a quantity measures.
type Dimension int

// The dimensions, with the base unit of each.
const (
	Length                Dimension = iota // mm
	Volume                                 // m³
	Flow                                   // m³/s
	Pressure                               // Pa
	Head                                   // m of the water pumped
	Temperature                            // °C
	TemperatureDifference                  // K
	Power                                  // W
	Current                                // A
	Voltage                                // V
	Mass                                   // kg
	Density                                // kg/m³
	Viscosity                              // Pa·s
	Time                                   // s
	Share                                  // 1 (50 % is 0.5)
	Kv                                     // m³/h at 1 bar
	Cv                                     // m³/h at 1 bar too: converted from US gpm at 1 psi when read
	Area                                   // m²
	Conductance                            // W/K
	Insulance                              // m²·K/W, thermal resistance of an area
	Velocity                               // m/s
	Section                                // mm², of a conductor
	CableDrop                              // mV/A/m
	Resistance                             // ohm
	Energy                                 // kWh
	Air                                    // m³/s of air, as a blower moves it
	dimensions                             // how many there are
)

var dimensionWords = [dimensions]struct{ name, a, base, example string }{
	Length:                {"length", "a length", "mm", "450 mm"},
	Volume:                {"volume", "a volume", "m3", "1150 l"},
	Flow:                  {"flow", "a flow", "m3/s", "5.8 m3/h"},
	Pressure:              {"pressure", "a pressure", "Pa", "6 kPa"},
	Head:                  {"head", "a head of water", "m", "2.4 m"},
	Temperature:           {"temperature", "a temperature", "°C", "38 °C"},
	TemperatureDifference: {"temperature difference", "a temperature difference", "K", "2.5 K"},
	Power:                 {"power", "a power", "W", "2.9 kW"},
	Current:               {"current", "a current", "A", "14.5 A"},
	Voltage:               {"voltage", "a voltage", "V", "230 V"},
	Mass:                  {"mass", "a mass", "kg", "48 kg"},
	Density:               {"density", "a density", "kg/m3", "993 kg/m3"},
	Viscosity:             {"viscosity", "a viscosity", "Pa s", "0.68 mPa s"},
	Time:                  {"time", "a time", "s", "30 min"},
	Share:                 {"share", "a share", "1", "60 %"},
	Kv:                    {"Kv", "a Kv", "m3/h", "31 m3/h"},
	Cv:                    {"Cv", "a Cv", "m3/h", "36 gpm"},
	Area:                  {"area", "an area", "m2", "4.2 m2"},
	Conductance:           {"heat loss per kelvin", "a heat loss per kelvin", "W/K", "9.1 W/K"},
	Insulance:             {"thermal resistance", "a thermal resistance", "m2 K/W", "2.1 m2 K/W"},
	Velocity:              {"velocity", "a velocity", "m/s", "0.5 m/s"},
	Section:               {"cross-section", "a cross-section", "mm2", "2.5 mm2"},
	CableDrop:             {"voltage drop of a cable", "a voltage drop of a cable", "mV/A/m", "18 mV/A/m"},
	Resistance:            {"resistance", "a resistance", "ohm", "0.4 ohm"},
	Energy:                {"energy", "an energy", "kWh", "0.2 kWh"},
	Air:                   {"flow of air", "a flow of air", "m3/s", "8 l/s"},
}

// String returns the dimension in words: "length", "temperature difference".
func (d Dimension) String() string {
	if d < 0 || d >= dimensions {
		return "unknown"
	}
	return dimensionWords[d].name
}

// BaseUnit returns the unit in which a Quantity's Value of the dimension is.
func (d Dimension) BaseUnit() string {
	if d < 0 || d >= dimensions {
		return ""
	}
	return dimensionWords[d].base
}

// Example returns a quantity of the dimension as a user would write it.
func (d Dimension) Example() string {
	if d < 0 || d >= dimensions {
		return ""
	}
	return dimensionWords[d].example
}
