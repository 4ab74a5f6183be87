package description

import "dryfit/catalog/quantity"

// limit is what a quantity may plausibly be. The bounds are no promises of the trade: far
// outside what any tub has, so that a wrong unit or a slipped digit is asked about. Source:
// common practice, no source.
type limit struct {
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
func (l limit) dims() []quantity.Dimension {
	out := make([]quantity.Dimension, len(l.bounds))
	for i, b := range l.bounds {
		out[i] = b.dim
	}
	return out
}

// example returns how the quantity is written: as the units' table has it, unless that
// would be a strange one for this quantity.
func (l limit) example() string {
	if l.such != "" {
		return l.such
	}
	return l.bounds[0].dim.Example()
}

// suchAs gives the limit an example of its own.
func (l limit) suchAs(text string) limit {
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

func plausible(what string, bounds ...bound) limit { return limit{what: what, bounds: bounds} }

func positive(what string, bounds ...bound) limit {
	return limit{what: what, positive: true, bounds: bounds}
}

// The one table of what is plausible. Runs and flows reach beyond tubs, so that the worked
// examples of textbooks can be written down: three pipes of 80 to 150 m, a line of 300 m.
var (
	legLength     = positive("a leg", within(quantity.Length, "0 mm", "100 m"))
	runLength     = plausible("the length of a run", within(quantity.Length, "0 mm", "1000 m"))
	partLength    = plausible("the length of a part", within(quantity.Length, "0 mm", "5 m"))
	portPlace     = plausible("the place of a port", within(quantity.Length, "0 mm", "10 m"))
	standPlace    = plausible("the place of the unit", within(quantity.Length, "0 mm", "100 m"))
	boreWidth     = positive("a bore", within(quantity.Length, "0 mm", "500 mm")).suchAs("52.5 mm")
	outsideWidth  = positive("an outside diameter", within(quantity.Length, "0 mm", "500 mm")).suchAs("60.3 mm")
	roughness     = plausible("a roughness", within(quantity.Length, "0 mm", "5 mm")).suchAs("0.0015 mm")
	clearRoom     = plausible("the room around a pipe", within(quantity.Length, "0 mm", "10 m")).suchAs("100 mm")
	endPlay       = plausible("the play of a pipe end", within(quantity.Length, "0 mm", "10 m")).suchAs("20 mm")
	extraLength   = plausible("the extra length", within(quantity.Length, "0 mm", "10 m")).suchAs("100 mm")
	cutOffset     = plausible("the place of the cut", within(quantity.Length, "0 mm", "100 m"))
	sawKerf       = plausible("a kerf", within(quantity.Length, "0 mm", "20 mm")).suchAs("1.3 mm")
	stockLength   = positive("a length of stock", within(quantity.Length, "0 mm", "100 m")).suchAs("3 m")
	clearance     = plausible("the room round the unit", within(quantity.Length, "0 mm", "10 m")).suchAs("600 mm")
	fromWater     = plausible("the distance from the water", within(quantity.Length, "0 mm", "100 m")).suchAs("2.5 m")
	outdoorAir    = plausible("the temperature of the air", within(quantity.Temperature, "-40 °C", "40 °C")).suchAs("-6 °C")
	depth         = plausible("the depth below the water line", within(quantity.Length, "-5 m", "10 m"))
	volume        = positive("the volume", within(quantity.Volume, "0 m3", "200 m3"))
	waterWarmth   = plausible("the temperature of the water", within(quantity.Temperature, "0 °C", "45 °C"))
	ratedWater    = plausible("the temperature of the water", within(quantity.Temperature, "0 °C", "60 °C"))
	ratedAir      = plausible("the temperature of the air", within(quantity.Temperature, "-40 °C", "60 °C"))
	density       = positive("a density", within(quantity.Density, "500 kg/m3", "2000 kg/m3"))
	viscosity     = positive("a viscosity", within(quantity.Viscosity, "0 Pa s", "0.1 Pa s"))
	flow          = positive("a flow", within(quantity.Flow, "0 m3/h", "1500 m3/h"))
	curveFlow     = plausible("a flow", within(quantity.Flow, "0 m3/h", "1500 m3/h"))
	drop          = plausible("a drop", within(quantity.Pressure, "0 bar", "20 bar"), within(quantity.Head, "0 m", "200 m"))
	pumpHead      = plausible("a pump's head", within(quantity.Head, "0 m", "100 m"), within(quantity.Pressure, "0 bar", "10 bar"))
	suctionHead   = plausible("an NPSH", within(quantity.Head, "0 m", "20 m"), within(quantity.Pressure, "0 bar", "2 bar"))
	highest       = positive("a highest pressure", within(quantity.Pressure, "0 bar", "20 bar"), within(quantity.Head, "0 m", "200 m")).suchAs("3.5 bar")
	cracking      = plausible("a cracking pressure", within(quantity.Pressure, "0 bar", "2 bar"), within(quantity.Head, "0 m", "20 m"))
	springAsked   = positive("a cracking pressure", within(quantity.Pressure, "0 bar", "2 bar"), within(quantity.Head, "0 m", "20 m"))
	valveKv       = positive("a Kv", within(quantity.Kv, "0 m3/h", "5000 m3/h"))
	valveCv       = positive("a Cv", within(quantity.Cv, "0 gpm", "5000 gpm"))
	electricPower = positive("a power", within(quantity.Power, "0 W", "100 kW"))
	voltage       = positive("a voltage", within(quantity.Voltage, "0 V", "1000 V"))
	current       = positive("a current", within(quantity.Current, "0 A", "200 A"))
	share         = plausible("a share", within(quantity.Share, "0 %", "100 %"))

	airWarmth        = plausible("the temperature of the air", within(quantity.Temperature, "-50 °C", "60 °C"))
	warmthDifference = plausible("a difference of temperature", within(quantity.TemperatureDifference, "0 K", "50 K"))
	heatUpTime       = positive("the time to heat up", within(quantity.Time, "0 s", "1000 h")).suchAs("12 h")
	fallTime         = positive("the time of the fall", within(quantity.Time, "0 s", "1000 h")).suchAs("24 h")
	openTime         = plausible("the time the cover is off", within(quantity.Time, "0 s", "24 h")).suchAs("45 min")
	heatPower        = plausible("a heat", within(quantity.Power, "0 W", "100 kW")).suchAs("310 W")
	lossPerKelvin    = positive("the heat loss per kelvin", within(quantity.Conductance, "0 W/K", "1000 W/K"))
	waterArea        = positive("an area", within(quantity.Area, "0 m2", "1000 m2"))
	insulance        = positive("a thermal resistance", within(quantity.Insulance, "0 m2 K/W", "20 m2 K/W"))
	windSpeed        = plausible("a wind", within(quantity.Velocity, "0 m/s", "50 m/s"))
	impedance        = positive("an impedance", within(quantity.Resistance, "0 ohm", "20 ohm"))
	conductor        = positive("the size of a conductor", within(quantity.Section, "0 mm2", "500 mm2"))
	cableLength      = positive("the length of a cable", within(quantity.Length, "0 mm", "1000 m")).suchAs("22 m")
	cableDrop        = positive("the voltage drop of a cable", within(quantity.CableDrop, "0 mV/A/m", "100 mV/A/m"))
	standbyPower     = plausible("a standby power", within(quantity.Power, "0 W", "1 kW")).suchAs("15 W")
	startEnergy      = plausible("the loss of a start", within(quantity.Energy, "0 kWh", "5 kWh")).suchAs("0.05 kWh")
	startingCurrent  = plausible("a starting current", within(quantity.Current, "0 A", "1000 A")).suchAs("38 A")
	airFlow          = plausible("a flow of air", within(quantity.Flow, "0 m3/h", "1500 m3/h")).suchAs("8 l/s")
	lagging          = plausible("a thickness of insulation", within(quantity.Length, "0 mm", "500 mm")).suchAs("19 mm")
	buriedDepth      = plausible("how deep a pipe lies", within(quantity.Length, "0 mm", "5 m")).suchAs("600 mm")
)

// What bare numbers may be.
const (
	mostJets     = 500
	mostBars     = 10000
	mostFittings = 500
	mostRatio    = 2    // of two speeds of a pump
	mostK        = 1e4  // a loss coefficient
	mostDirty    = 50   // a dirty filter's drop over a clean one's
	mostPrice    = 1e12 // in whatever currency
	mostR        = 100  // thermal resistance in ft²·h·°F/Btu
	mostTimes    = 100  // a week, or a year
	mostActivity = 10   // factor on the evaporation
	mostBathers  = 50
	mostCOP      = 20
)
