package graph

import "slices"

// Amount is a number that may have been left out: zero is a value, left out is left out.
type Amount struct {
	V   float64
	Set bool
}

// Given returns the amount of a value that was given.
func Given(v float64) Amount { return Amount{V: v, Set: true} }

// Or returns the value, or another where it was left out.
func (a Amount) Or(v float64) float64 {
	if a.Set {
		return a.V
	}
	return v
}

// Site is [site]: where the tub stands, and what is asked of its heating there.
type Site struct {
	AirC      float64 // coldest the tub must be held at, °C; AirSet tells
	AirSet    bool
	HeatUpS   Amount // from fill to bathing, s
	FillC     Amount // of what comes out of the tap, °C
	Sheltered string // "open", "fenced", "walled", "indoor"; "" where nothing was said or WindShare says it
	RoomC     Amount // of the air of the room the tub stands in, °C; not set: outdoors, or not said
	WindShare Amount // share of the wind that reaches the water, 0 to 1
	Region    string // whose distances apply, one of Regions; "": not said
	Earthing  string // earthing of the supply, one of Earthings; "": not said
	Pos       Pos
	KeyPos    map[string]Pos
}

// Freezes reports whether it is said that the site freezes, and whether it is said at all.
func (s Site) Freezes() (yes, said bool) { return s.AirSet && s.AirC < 0, s.AirSet }

// Indoor reports whether the tub is said to stand in a room.
func (s Site) Indoor() bool { return s.Sheltered == "indoor" || s.RoomC.Set }

// frostFreeC is the air of a room, °C, above which its cold corners don't freeze either. Judgement.
const frostFreeC = 5

// KeepsFromFreezing reports whether the tub stands in a room that is said to be above frost, or to
// be a room and no more.
func (s Site) KeepsFromFreezing() bool {
	return s.Indoor() && (!s.RoomC.Set || s.RoomC.V > frostFreeC)
}

// HeatedFromC is the water, °C, below which a tub is kept cold: heat pumps for pools and tubs are
// set from there up. Source: common practice, no source.
const HeatedFromC = 15

// KeptCold reports whether water of a temperature, °C, has to be cooled and not heated: it is
// below what heat pumps for bathing are set to, colder than it comes from the tap, or colder than
// the coldest air.
func (s Site) KeptCold(waterC float64) bool {
	return waterC < HeatedFromC || s.FillC.Set && waterC < s.FillC.V || s.AirSet && waterC < s.AirC
}

// usualTapC is what comes out of the tap where nobody says it, °C. Judgement: between the mains of
// winter and of summer.
const usualTapC = 10

// TapC is the temperature of what comes out of the tap, °C: as said, else the usual.
func (s *Site) TapC() float64 { return s.FillC.Or(usualTapC) }

// Regions lists whose rules on distances there are: the United Kingdom, the rest of Europe
// (and wherever IEC 60364 holds), North America.
func Regions() []string { return []string{"uk", "eu", "us"} }

// Earthings lists the systems of earthing by the names of IEC 60364-1; "tn-c-s" is what is
// called protective multiple earthing.
func Earthings() []string { return []string{"tn-s", "tn-c-s", "tt"} }

// PVCU is what new rigid pipe is made of.
const PVCU = "pvc-u"

// Materials lists what old pipe is printed with.
func Materials() []string { return []string{PVCU, "flexible-pvc", "abs", "cpvc"} }

// HeatLoss is [heat-loss]: what is known of the tub's loss with the cover on, in one of
// three forms, the best first.
type HeatLoss struct {
	Fall     *LossFall
	Standing *LossStanding
	UA       Amount // W/K
	Pos      Pos
	KeyPos   map[string]Pos
}

// LossFall is a fall of the water's temperature that was watched, heating off and cover on.
type LossFall struct {
	FromC, ToC Amount // °C
	InS        Amount // s
	AirC       Amount // °C
	PlusMinusK Amount // of each reading, K
	HeatW      Amount // of a pump that ran meanwhile, W
	Pos        Pos
}

// LossStanding is a power that holds the tub warm, declared or measured.
type LossStanding struct {
	PowerW, WaterC, AirC Amount // W, °C, °C
	Pos                  Pos
}

// Cover is [cover].
type Cover struct {
	AreaM2     Amount
	Resistance Amount // m²·K/W
	R          Amount // the same in ft²·h·°F/Btu, where it was written so
	Pos        Pos
	KeyPos     map[string]Pos
}

// Shell is one of [[shell]]: a wall of the tub, or its floor.
type Shell struct {
	Name       string
	AreaM2     Amount
	Resistance Amount // m²·K/W
	R          Amount // the same in ft²·h·°F/Btu, where it was written so
	Pos        Pos
}

// SIPerR is one ft²·h·°F/Btu in m²·K/W. Source: NIST SP 811 (2008) appendix B.8, Btu of the
// International Table.
const SIPerR = 0.1761102

// Insulance returns the cover's thermal resistance, m²·K/W, in whichever form it was given.
func (c *Cover) Insulance() Amount { return insulance(c.Resistance, c.R) }

// Insulance returns the wall's thermal resistance, m²·K/W, in whichever form it was given.
func (s *Shell) Insulance() Amount { return insulance(s.Resistance, s.R) }

func insulance(si, r Amount) Amount {
	if si.Set || !r.Set {
		return si
	}
	return Given(r.V * SIPerR)
}

// Use is [use]: how the tub is bathed in.
type Use struct {
	OpenS      Amount // cover off, each time, s
	TimesAWeek Amount
	At         Clock      // when; its Set false: left out
	AreaM2     Amount     // of the water
	Activity   Amount     // factor on the evaporation, -
	WindMS     Amount     // at the water, m/s
	Bathers    Amount     // at once
	Between    *[2]Amount // band the timer may use, °C; nil: left out
	Heating    []Hours    // in which heat may be made, by the unit and today by the element; empty: always
	Refills    Amount     // a year
	Pos        Pos
	KeyPos     map[string]Pos
}

// Clock is a time of day, local standard time the whole year.
type Clock struct {
	Minute int // from midnight, 0 to 1440
	Set    bool
}

// Hours is a stretch of the day; where To is not after From it goes on past midnight.
type Hours struct{ From, To Clock }

// Climate is [climate]: a file of hourly weather, or twelve months.
type Climate struct {
	File      string    // name as written, beside the description
	Data      []byte    // what stands in File, put here by whoever reads files; nil: nobody did
	Zone      string    // of the file's hours, from UTC: "+1"
	AirC      []float64 // mean of each month, °C
	SwingK    []float64 // of the day, K; one for all months, or twelve
	Humidity  []float64 // share, 0 to 1; one or twelve
	WindMS    []float64 // m/s; one or twelve
	DayToDayK Amount    // K
	Pos       Pos
	KeyPos    map[string]Pos
}

// Tariff is [tariff]. Money is decimal text in the job's currency; "" is left out, "0" is
// a price.
type Tariff struct {
	Price    string // a kWh
	Standing string // a day
	Work     string // of the fitter and the electrician, for the payback
	Bands    []TariffBand
	Pos      Pos
	KeyPos   map[string]Pos
}

// TariffBand is a stretch of the day with a price of its own.
type TariffBand struct {
	From, To Clock
	Price    string
	Pos      Pos
}

// Supply is one of [[supply]]: an electric circuit.
type Supply struct {
	Feeds      []string // ids of parts; empty: everything that no other feeds
	VoltageV   Amount
	RatingA    Amount
	Continuous Amount // share of the rating that may run for hours, 0 to 1
	Connection string // "plug", "fused-spur", "own-circuit"; "": left out
	Impedance  Amount // of the supply, ohm
	Cable      *Cable
	Pos        Pos
	KeyPos     map[string]Pos
}

// Cable is what leads from the board to the load.
type Cable struct {
	SectionMM2 Amount
	LengthMM   Amount // one way, mm
	Kind       string // in the user's words: "flexible"
	DropMVAM   Amount // voltage drop, mV/A/m, where the size does not say it
	Pos        Pos
}

// Electric is what a motor or heater draws beside its power.
type Electric struct {
	PowerFactor Amount // 0 to 1
	StartingA   Amount // A
	Phases      int    // on how many of three it stands, 1 (or between two) or 3; 0: not said
}

// SupplyOf returns the electric circuit that feeds a part: the one that names it, else the first that
// feeds everything; nil where there is none.
func (c *Circuit) SupplyOf(p *Part) *Supply {
	var rest *Supply
	for i := range c.Supplies {
		s := &c.Supplies[i]
		if slices.Contains(s.Feeds, p.ID) {
			return s
		}
		if len(s.Feeds) == 0 && rest == nil {
			rest = s
		}
	}
	return rest
}
