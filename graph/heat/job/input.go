package job

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// Input is what a job's heat hangs on.
type Input struct {
	Stage  *settle.Stage // after the work
	Unit   *settle.Part  // nil: none
	Beside []Beside      // other units that heat the same water at the same time
	// Warmed is by how much a watt of each unit warms the water on its way to each, K/W: first the job's, then
	// those beside it in their order. nil: none does.
	Warmed  [][]float64
	Old     []Beside   // the heat pumps that heat today, be they taken out or not
	Fluid   heat.Fluid // of the water
	SetC    float64    // temperature held
	Heating Heating
	Pipes   []heat.OutsidePipe // that run outdoors, both ways
	Today   []heat.OutsidePipe // those that do today, before the work
	Ask     Ask
}

// Beside is another unit than the one the job is about, its flow in the mode that heats, m³/s, 0: not known, and
// what moves its water there.
type Beside struct {
	Unit    *settle.Part
	FlowM3s float64
	Pump    *settle.Part // nil: none
	Speed   string
}

// More is what the answers take beside: the design day does without.
type More struct {
	Weather *heat.Weather // nil: none, so there is no year
	Sample  Sampled       // of the flows, for the year's ranges
	Bill    Bill
	// OfSize is the flow through a unit of the catalogue in this one's place, by its row's name,
	// m³/s: a larger one loses less. Rows that are not in it are held at this unit's flow.
	OfSize map[string]float64
}

// Heating is the pump's way of running while heat is made.
type Heating struct {
	Mode    string
	Pump    *settle.Part // nil: none
	Speed   string
	FlowM3s float64   // through the unit, after the work; 0: not known
	With    []Running // the other pumps that run in every mode in which this one runs at that speed: as long as that
	// What the pump gives the water in that mode, W: head by flow by weight. 0: not known.
	WaterTodayW, WaterPlannedW float64
}

// Running is a pump at one of its speeds.
type Running struct {
	Pump  *settle.Part
	Speed string
}

// Bill is what the work costs, for the payback.
type Bill struct {
	Total    float64 // of the lines that have a price
	Complete bool    // every line has one
	UnitOpen bool    // a unit that is bought has none: what the rest costs says nothing of the work
	Times    float64 // margin and tax on it and on the labour; 0: neither, as 1
}

// Assumed is a value that nobody gave; or with Given one that was, and is still not exact.
type Assumed struct {
	Given     bool
	What      quantity.Text
	Value     float64
	Dim       quantity.Dimension
	Source    quantity.Text
	Low, High float64 // factors on the value, or differences from it where Adds
	Adds      bool
	Plain     bool    // a number without a unit
	Of        string  // id of the part it is of; "": of none
	Settled   bool    // it is a settled value of that part
	MovesKWh  float64 // half the change of the planned year between the two ends
	Saving    float64 // half the change of the saving, kWh; without a saving that of the year there is
	apply     func(*scene, float64)
}

// Report is all that heat answers.
type Report struct {
	Loss     Loss
	Unit     UnitReport
	Airs     []AtAir // from the coldest up; none without a unit
	AirsF    []AtAir // the same range every ten degrees Fahrenheit
	Asked    *AtAir  // in the coldest air the tub is to be held in, its Hours not counted; nil without a unit
	HeatUp   *Rise
	Recovery *Rise // after the longest time with the cover off
	Year     *YearReport
	Timer    *heat.Timer
	TimerC   float64 // to what its thermostat is set, °C
	Sizes    []Sized
	Supplies []Supply
	Assumed  []Assumed // what nobody gave
	Moves    []Assumed // what moves the saving most, given or not, the heaviest first
	Notes    []string
	Unheated bool     // weather is given, and nothing described heats the water: there is no year
	Cold     bool     // the water is kept cold: heating is not its trouble, and nothing of it is told
	Others   []string // heat pumps beside it that are not counted: no water comes to them in the mode that heats
	Beside   []string // those that are, with it
	Foreign  []string // heat exchangers of another source that stay in this water: what they bring is in no figure
	OldHeats []string // the heat pumps that heat today; where nothing is known of one there is no year of today
	Problems []graph.Diagnostic
}

// Loss is what the tub loses.
type Loss struct {
	UA        float64 // W/K, cover on, pipes in
	StandingW float64 // at AirC
	AirC      float64
	WaterC    float64
	Terms     []TermLoss
	Open      heat.Open // cover off, at AirC
	Indoor    bool      // the tub stands in a room of RoomC; AirC is that of the pipes outside and the unit
	RoomC     float64
	KWhYear   bool // the terms' years are worked out
}

// TermLoss is one way of losing heat.
type TermLoss struct {
	Term    heat.Term
	W       float64 // at the loss's air; of the open terms, while the cover is off
	KWhYear float64
}

// UnitReport is what the unit gives.
type UnitReport struct {
	ID         string
	At         []UnitAt
	HoldsC     float64 // coldest air at which it holds the tub; HoldsKnown
	HoldsKnown bool
	Colder     int     // hours of the climate's year colder than that
	MayRun     float64 // share of the day in which it may heat
	Assumed    bool    // its ratings are the catalogue's for its size
	StopsC     float64 // coldest air it works in; one that is usual, for nobody said it: StopsTaken
	StopsTaken bool
	FlowM3s    float64     // the water it gets; 0 where not known
	Each       []UnitShare // of several, the job's first; none where it is alone
}

// UnitShare is what one of several units carries.
type UnitShare struct {
	ID       string
	FlowM3s  float64 // 0 where not known
	EntersC  float64 // the water that comes to it in the design air, while all run
	Working  heat.Working
	SetC     float64 // what it is set to, by which it runs with the others or after them
	Later    bool    // it runs only where those set higher do not hold the tub
	HeatKWh  float64 // of the planned year
	KWh, COP float64 // COP 0: it never ran
	Share    float64 // of what the units give in that year
	Year     bool    // there is one
	Assumed  bool    // its ratings are the catalogue's for its size
}

// UnitAt is the unit at one pair of temperatures.
type UnitAt struct {
	AirC, WaterC float64
	Rated        bool // as the sheet has it; else worked out
	Stands       bool // a point of the sheet in air in which the unit does not work
	Working      heat.Working
}

// Rise is a tub on its way to its temperature.
type Rise struct {
	FromC, ToC, AirC float64
	Warmed           heat.Warmed
	Through          string // day of the climate, "": air that stays
}

// ElementShare is the share of the heat that the element makes, 0 to 1.
func (r *Rise) ElementShare() float64 {
	if r.Warmed.HeatKWh <= 0 {
		return 0
	}
	return r.Warmed.Element / r.Warmed.HeatKWh
}

// Range is a value's range over the sample, and the value as described.
type Range struct{ Low, Likely, High float64 }

// YearReport compares the year as it is with the year as planned.
type YearReport struct {
	Today, Planned        *heat.Account // Today nil: nothing heats today
	TodayKWh, PlannedKWh  Range
	SavingKWh, SavingCost Range
	SavingShare           Range
	Priced                bool
	Payback               Range // years
	PaybackAtLeast        bool  // some of the bill has no price
	Stands                bool  // the unit is there already: what it saves pays for no work
	PaybackKnown          bool
	PaybackWantsUnit      bool // not known, for the unit has no price
	BathsSpread           bool // less than one bath a day: each day has its share of one
	Samples               int
	Other                 *heat.Account // the other way: the unit alone, or with the element kept; nil: no element
	OtherWay              string
	Pays                  []Saving // what pays first: a larger unit, a better cover, another tariff
}

// Sized is one unit held against the tub.
type Sized struct {
	Unit string
	This bool // the job's own
	heat.Sized
	Reasons []string // "hold", "time", "flow", "water"
}

// Supply is one circuit of the supply.
type Supply struct {
	Feeds    []string
	VoltageV float64
	RatingA  float64 // 0: not given
	LongA    float64 // what may run for hours; 0: not given
	Loads    []heat.Consumer
	Together []heat.Set
	DropV    float64
	Drop     bool // the cable was described
	DropFrom string
	DipV     float64 // at the largest start; 0: not judged
	FuseA    float64 // what the unit on it asks for, by its plate or usual for its size; 0: not known
	Pos      graph.Pos
	Plug     bool
	Says     []quantity.Text // to the electrician
	Apart    quantity.Text   // the first of them: what has to be kept apart, or wants a circuit of its own; "": nothing
}
