package field

import "dryfit/catalog/quantity"

// Limit is what a quantity may plausibly be. The bounds are no promises of the trade: far
// outside what any tub has, so that a wrong unit or a slipped digit is asked about. Source:
// common practice, no source.
type Limit struct {
	what     string // in words, with its article: "a leg"
	positive bool   // zero is no answer
	bounds   []bound
	such     string // an example; "" for that of the dimension
}

// bound holds the least and most of one dimension in which the quantity may be given.
type bound struct {
	dim       quantity.Dimension
	low, high string
	least     float64
	most      float64
}

// dims returns the dimensions the quantity may have.
func (l Limit) dims() []quantity.Dimension {
	out := make([]quantity.Dimension, len(l.bounds))
	for i, b := range l.bounds {
		out[i] = b.dim
	}
	return out
}

// Example returns how the quantity is written: as the units' table has it, unless that
// would be a strange one for this quantity.
func (l Limit) Example() string {
	if l.such != "" {
		return l.such
	}
	return l.bounds[0].dim.Example()
}

// Parses reports whether a text is a quantity of one of the limit's dimensions, however much of it.
func (l Limit) Parses(text string) bool {
	_, err := quantity.Parse(text, l.dims()...)
	return err == nil
}

// SuchAs gives the limit an example of its own.
func (l Limit) SuchAs(text string) Limit {
	l.such = text
	return l
}

func within(dim quantity.Dimension, low, high string) bound {
	return bound{dim: dim, low: low, high: high, least: inBase(dim, low), most: inBase(dim, high)}
}

func inBase(dim quantity.Dimension, text string) float64 {
	q, err := quantity.Parse(text, dim)
	if err != nil {
		panic("description: bad limit " + text + ": " + err.Error())
	}
	return q.Value
}

func plausible(what string, bounds ...bound) Limit { return Limit{what: what, bounds: bounds} }

func positive(what string, bounds ...bound) Limit {
	return Limit{what: what, positive: true, bounds: bounds}
}

// The one table of what is plausible. Runs and flows reach beyond tubs, so that the worked
// examples of textbooks can be written down: three pipes of 80 to 150 m, a line of 300 m.
var (
	LegLength     = positive("a leg", within(quantity.Length, "0 mm", "100 m"))
	RunLength     = plausible("the length of a run", within(quantity.Length, "0 mm", "1000 m"))
	PartLength    = plausible("the length of a part", within(quantity.Length, "0 mm", "5 m"))
	PortPosition  = plausible("the place of a port", within(quantity.Length, "0 mm", "10 m"))
	StandPosition = plausible("the place of the unit", within(quantity.Length, "0 mm", "100 m"))
	BoreWidth     = positive("a bore", within(quantity.Length, "1 mm", "500 mm")).SuchAs("52.5 mm")
	JetBore       = positive("the bore of a jet", within(quantity.Length, "1 mm", "58 mm")).SuchAs("5.9 mm") // an open eye of a pool is as wide as its pipe: 52.5 mm of 2 in (ASTM D1785, schedule 40), 57 of 63 mm (EN ISO 1452, PN 10)
	OutsideWidth  = positive("an outside diameter", within(quantity.Length, "1 mm", "500 mm")).SuchAs("60.3 mm")
	Roughness     = plausible("a roughness", within(quantity.Length, "0 mm", "5 mm")).SuchAs("0.0015 mm")
	clearRoom     = plausible("the room around a pipe", within(quantity.Length, "0 mm", "10 m")).SuchAs("100 mm")
	endPlay       = plausible("the play of a pipe end", within(quantity.Length, "0 mm", "10 m")).SuchAs("20 mm")
	ExtraLength   = plausible("the extra length", within(quantity.Length, "0 mm", "10 m")).SuchAs("100 mm")
	CutOffset     = plausible("the place of the cut", within(quantity.Length, "0 mm", "100 m"))
	SawKerf       = plausible("a kerf", within(quantity.Length, "0 mm", "20 mm")).SuchAs("1.3 mm")
	StockLength   = positive("a length of stock", within(quantity.Length, "1 mm", "100 m")).SuchAs("3 m")
	Clearance     = plausible("the room round the unit", within(quantity.Length, "0 mm", "10 m")).SuchAs("600 mm")
	FromWater     = plausible("the distance from the water", within(quantity.Length, "0 mm", "100 m")).SuchAs("2.5 m")
	OutdoorAir    = plausible("the temperature of the air", within(quantity.Temperature, "-40 °C", "40 °C")).SuchAs("-6 °C")
	Depth         = plausible("the depth below the water line", within(quantity.Length, "-5 m", "10 m"))
	Volume        = positive("the volume", within(quantity.Volume, "10 l", "200 m3"))
	WaterWarmth   = plausible("the temperature of the water", within(quantity.Temperature, "0 °C", "45 °C"))
	RatedWater    = plausible("the temperature of the water", within(quantity.Temperature, "5 °C", "75 °C")).SuchAs("38 °C") // an exchanger freezes below; EN 14511 goes to 65 °C (from memory)
	RatedAir      = plausible("the temperature of the air", within(quantity.Temperature, "-40 °C", "60 °C")).SuchAs("7 °C")
	Density       = positive("a density", within(quantity.Density, "500 kg/m3", "2000 kg/m3"))
	Viscosity     = positive("a viscosity", within(quantity.Viscosity, "0.01 mPa s", "0.1 Pa s"))
	Flow          = positive("a flow", within(quantity.Flow, "0.001 m3/h", "1500 m3/h"))
	CurveFlow     = plausible("a flow", within(quantity.Flow, "0 m3/h", "1500 m3/h"))
	Drop          = plausible("a drop", within(quantity.Pressure, "0 bar", "20 bar"), within(quantity.Head, "0 m", "200 m"))
	PumpHead      = plausible("a pump's head", within(quantity.Head, "0 m", "100 m"), within(quantity.Pressure, "0 bar", "10 bar"))
	SuctionHead   = plausible("an NPSH", within(quantity.Head, "0 m", "20 m"), within(quantity.Pressure, "0 bar", "2 bar"))
	Highest       = positive("a highest pressure", within(quantity.Pressure, "0.1 bar", "20 bar"), within(quantity.Head, "1 m", "200 m")).SuchAs("3.5 bar")
	GaugePressure = plausible("a pressure by a gauge", within(quantity.Pressure, "-1 bar", "20 bar"), within(quantity.Head, "-10 m", "200 m")).SuchAs("0.4 bar")
	ReadingOff    = positive("how far a reading may be off", within(quantity.Share, "0 %", "100 %"), within(quantity.Pressure, "0 bar", "5 bar"), within(quantity.Head, "0 m", "50 m")).SuchAs("5 %")
	Cracking      = plausible("a cracking pressure", within(quantity.Pressure, "0 bar", "2 bar"), within(quantity.Head, "0 m", "20 m"))
	SpringAsked   = positive("a cracking pressure", within(quantity.Pressure, "0 bar", "2 bar"), within(quantity.Head, "0 m", "20 m"))
	ValveKv       = positive("a Kv", within(quantity.Kv, "0.01 m3/h", "5000 m3/h"))
	ValveCv       = positive("a Cv", within(quantity.Cv, "0.01 gpm", "5000 gpm"))
	PumpPower     = positive("the power of a pump", within(quantity.Power, "5 W", "100 kW")).SuchAs("250 W")
	ElectricPower = positive("a power", within(quantity.Power, "1 W", "100 kW"))
	ElementPower  = positive("the power of an element", within(quantity.Power, "100 W", "100 kW")).SuchAs("3 kW")
	Voltage       = positive("a voltage", within(quantity.Voltage, "1 V", "1000 V"))
	Current       = positive("a current", within(quantity.Current, "0.001 A", "200 A"))
	Share         = plausible("a share", within(quantity.Share, "0 %", "100 %"))

	AirWarmth        = plausible("the temperature of the air", within(quantity.Temperature, "-50 °C", "60 °C")).SuchAs("7 °C")
	WarmthDifference = plausible("a difference of temperature", within(quantity.TemperatureDifference, "0 K", "50 K"))
	HeatUpTime       = positive("the time to heat up", within(quantity.Time, "1 min", "1000 h")).SuchAs("12 h")
	FallTime         = positive("the time of the fall", within(quantity.Time, "1 min", "1000 h")).SuchAs("24 h")
	OpenTime         = plausible("the time the cover is off", within(quantity.Time, "0 s", "24 h")).SuchAs("45 min")
	HeatPower        = plausible("a heat", within(quantity.Power, "0 W", "100 kW")).SuchAs("310 W")
	LossPerKelvin    = positive("the heat loss per kelvin", within(quantity.Conductance, "0.01 W/K", "1000 W/K"))
	WaterArea        = positive("an area", within(quantity.Area, "0.01 m2", "1000 m2"))
	Insulance        = positive("a thermal resistance", within(quantity.Insulance, "0.01 m2 K/W", "10 m2 K/W"))
	WindSpeed        = plausible("a wind", within(quantity.Velocity, "0 m/s", "50 m/s"))
	Impedance        = positive("an impedance", within(quantity.Resistance, "0.0001 ohm", "20 ohm"))
	Conductor        = positive("the size of a conductor", within(quantity.Section, "0.1 mm2", "500 mm2"))
	CableLength      = positive("the length of a cable", within(quantity.Length, "1 mm", "1000 m")).SuchAs("22 m")
	CableDrop        = positive("the voltage drop of a cable", within(quantity.CableDrop, "0.01 mV/A/m", "100 mV/A/m"))
	StandbyPower     = plausible("a standby power", within(quantity.Power, "0 W", "1 kW")).SuchAs("15 W")
	StartEnergy      = plausible("the loss of a start", within(quantity.Energy, "0 kWh", "5 kWh")).SuchAs("0.05 kWh")
	PlateCurrent     = positive("the current of a pump", within(quantity.Current, "0.05 A", "100 A")).SuchAs("8.2 A")
	PlateVoltage     = positive("the voltage of a pump", within(quantity.Voltage, "12 V", "690 V")).SuchAs("230 V")
	StartingCurrent  = plausible("a starting current", within(quantity.Current, "0 A", "1000 A")).SuchAs("38 A")
	AirFlow          = plausible("a flow of air", within(quantity.Air, "0 l/s", "400 l/s"))
	Lagging          = plausible("a thickness of insulation", within(quantity.Length, "0 mm", "500 mm")).SuchAs("19 mm")
	BuriedDepth      = plausible("how deep a pipe lies", within(quantity.Length, "0 mm", "5 m")).SuchAs("600 mm")
)

// What bare numbers may be.
const (
	MostJets     = 500
	MostBars     = 10000
	MostFittings = 500
	MostRatio    = 2    // of two speeds of a pump
	MostK        = 1e4  // a loss coefficient
	MostDirty    = 50   // a dirty filter's drop over a clean one's
	mostPrice    = 1e12 // in whatever currency
	LeastR       = 0.05 // thermal resistance in ft²·h·°F/Btu: a sheet of plastic by itself
	LeastFactor  = 0.1  // a power factor: a motor that turns nothing
	MostR        = 100  // thermal resistance in ft²·h·°F/Btu
	MostTimes    = 100  // a week, or a year
	MostActivity = 10   // factor on the evaporation
	MostBathers  = 50
)
