package graph

import (
	"strings"

	"dryfit/catalog"
)

// Kind is what a part is, in the words of the description.
type Kind string

// The kinds.
const (
	Tub               Kind = "tub"
	Suction           Kind = "suction"
	JetGroup          Kind = "jet-group"
	Manifold          Kind = "manifold"
	Pump              Kind = "pump"
	Filter            Kind = "filter"
	ElementHeater     Kind = "element-heater"
	HeatExchanger     Kind = "heat-exchanger" // of another source: a boiler, the sun, a district main
	HeatPump          Kind = "heat-pump"
	Tee               Kind = "tee"
	GateValve         Kind = "gate-valve"
	BallValve         Kind = "ball-valve"
	ButterflyValve    Kind = "butterfly-valve"
	CheckValve        Kind = "check-valve"
	DiverterValve     Kind = "diverter-valve"
	Union             Kind = "union"
	Coupling          Kind = "coupling"
	SlipCoupling      Kind = "slip-coupling"
	Reducer           Kind = "reducer"
	Transition        Kind = "transition"
	Barb              Kind = "barb"
	Feeder            Kind = "feeder"
	SaltCell          Kind = "salt-cell"
	OzoneInjector     Kind = "ozone-injector"
	UVChamber         Kind = "uv-chamber"
	Blower            Kind = "blower"
	AirControl        Kind = "air-control"
	DrainValve        Kind = "drain-valve"
	AirBleed          Kind = "air-bleed"
	FlowSwitch        Kind = "flow-switch"
	PressureSwitch    Kind = "pressure-switch"
	PressureGauge     Kind = "pressure-gauge"
	ThermometerPocket Kind = "thermometer-pocket"
	Strainer          Kind = "strainer"
	Cap               Kind = "cap"
)

// Kinds lists every kind in the order of the design.
func Kinds() []Kind {
	return []Kind{Tub, Suction, JetGroup, Manifold, Pump, Filter, ElementHeater, HeatExchanger, HeatPump, Tee,
		GateValve, BallValve, ButterflyValve, CheckValve, DiverterValve, Union, Coupling, SlipCoupling,
		Reducer, Transition, Barb, Feeder, SaltCell, OzoneInjector, UVChamber, Blower, AirControl, DrainValve,
		AirBleed, FlowSwitch, PressureSwitch, PressureGauge, ThermometerPocket, Strainer, Cap}
}

// Word is the kind as one says it: "gate valve", "UV chamber".
func (k Kind) Word() string {
	if k == UVChamber {
		return "UV chamber"
	}
	return strings.ReplaceAll(string(k), "-", " ")
}

// IsHandValve reports whether the kind is a valve set by hand.
func (k Kind) IsHandValve() bool {
	return k == GateValve || k == BallValve || k == ButterflyValve
}

// OnePort reports whether the kind has the single port "in": it stands at the end of a run.
func (k Kind) OnePort() bool {
	switch k {
	case Blower, AirControl, DrainValve, AirBleed, PressureGauge, Cap: // a suction fitting stands between tub and pipe
		return true
	}
	return false
}

// UserPorts reports whether the description names the ports.
func (k Kind) UserPorts() bool { return k == Tub || k == Manifold || k == DiverterValve }

// Part is one thing the water (or air) passes through. The fields after Loss are nil
// unless the kind has them.
type Part struct {
	ID       string
	Kind     Kind
	Type     string // name of a catalogue row; "" for the kind's generic row
	Note     string // the user's words
	Existing bool
	Removed  bool
	Known    Knowledge

	Spec              catalog.Spec // "" : that of its runs
	Size              catalog.Size // zero: that of its runs (of the larger, at a tee's run)
	BranchSize        catalog.Size // of a tee's branch; zero: that of its run
	LengthMM          float64      // stop to stop along its run; 0 without LengthSet: the catalogue's
	LengthSet         bool         // the description gives it, zero or more
	Ends              string       // what its ports are: "socket", "spigot", "thread", "union", "barb"; "" as its row says
	OutsideMM         float64      // largest outside diameter of a part in line, as measured; 0: the catalogue's
	Box               *Span        // two opposite corners of what it takes up, from its first port, mm; nil: not given
	KeepClear         []KeepClear  // boxes no new pipe passes, their corners counted from its first port
	Ports             []Port
	HighestPressurePa float64 // 0: the catalogue's

	Loss *Loss // nil: the catalogue's

	Pump          *PumpData
	Filter        *FilterData
	Jets          *JetData
	Valve         *ValveData
	Check         *CheckData
	Unit          *UnitData
	Element       *ElementData
	Blower        *BlowerData
	BelowWaterMM  float64 // depth below the water line of a pump's eye or a tub's ports; BelowWaterSet tells
	BelowWaterSet bool
	LeastFlow     float64 // m³/s the part asks for (filter, element, feeder); 0: none said
	Surroundings

	Pos    Pos
	KeyPos map[string]Pos
}

// Port is one opening of a part.
type Port struct {
	Name  string
	Size  catalog.Size // zero: the part's
	At    *Vec         // from the part's first port, mm; nil: not given
	Faces *Vec         // way the port points, outward; nil: not given
	Air   bool         // carries air, not water

	CoverRating float64 // m³/s that the suction cover there is marked with; 0: not given
	Pos         Pos
}

// Port returns the port with the name, or nil.
func (p *Part) Port(name string) *Port {
	for i := range p.Ports {
		if p.Ports[i].Name == name {
			return &p.Ports[i]
		}
	}
	return nil
}

// PumpData is what a pump adds.
type PumpData struct {
	Speeds   []Speed
	AlwaysOn bool
	Check    string       // "": passes water when off; "check": a check of its own stops it
	NPSH     []CurvePoint // required, over flow; may be empty
	TypeSaid bool         // the speeds come from a catalogue row
	LabelW   float64      // watts on its label, of the speed with the most, by which the row's curves were scaled; 0: not said
	LabelRow string       // name of that row
	RowW     float64      // W at the fastest speed of that row

	RunsForHeat string // one of RunsForHeatWords; "": not said
	Electric    Electric
}

// Described reports whether the description says the speeds itself, by no type and no label.
func (d *PumpData) Described() bool { return d != nil && len(d.Speeds) > 0 && !d.TypeSaid }

// OnlyEnds reports whether the description says of a pump's curves no more than their ends, the
// head at no flow and the flow at no head: what lies between is the shape of its kind.
func (d *PumpData) OnlyEnds() bool {
	if !d.Described() {
		return false
	}
	curves := 0
	for _, s := range d.Speeds {
		c := s.Curve
		if len(c) == 0 {
			continue
		}
		if curves++; len(c) != 2 || c[0].Flow != 0 || c[1].Head.Value != 0 {
			return false
		}
	}
	return curves > 0
}

// What keeps a pump running while the unit heats.
const (
	RunsByHours   = "hours"   // circulation hours of the controller
	RunsByContact = "contact" // a pump contact of the unit
	RunsAlways    = "always"  // it is never off
)

// NeverOff reports whether it is said of a pump, in either way, that it is never switched off.
func (d *PumpData) NeverOff() bool {
	return d != nil && (d.AlwaysOn || d.RunsForHeat == RunsAlways)
}

// RunsForHeatWords lists them.
func RunsForHeatWords() []string { return []string{RunsByHours, RunsByContact, RunsAlways} }

// Speed is one speed of a pump.
type Speed struct {
	Name       string
	Ratio      float64      // of the first speed that has a curve; 0: Curve is its own. A catalogue row's speed has both
	Curve      []CurvePoint // flow rising
	PowerW     float64      // electric, 0: not given
	RatioSaid  bool         // Ratio was said of a pump of a type, not its row's
	ShaftW     float64      // that its plate gives in horsepower, of which PowerW is what it draws for it; 0: none does
	PlateA     float64      // A on its plate; 0: not said
	PlateV     float64      // V on its plate, with PlateA
	ByPlate    bool         // PowerW was not said: it is what PlateA and PlateV come to
	PowerTaken bool         // PowerW was not said: it is that of the row, as large as the label makes it
	Efficiency float64      // wire to water, 0 to 1; 0: not given
	HoursADay  Amount       // that the controller runs it at this speed
	Pos        Pos
}

// CurvePoint is one point of a pump curve.
type CurvePoint struct {
	Flow float64 // m³/s
	Head Drop
}

// FilterData is what a filter adds.
type FilterData struct {
	Media       string  // "cartridge" or "sand"; "": cartridge
	DirtyFactor float64 // of the clean drop; 0: 3
}

// JetData is what a jet group adds: count jets in parallel.
type JetData struct {
	Count  int
	BoreMM float64 // of one jet; 0: catalogue's
	K      float64 // of one jet on its bore; HasK
	HasK   bool
	Rated  *LossPoint // of one jet; nil: not given
}

// ValveData is what a hand valve (or a diverter) adds.
type ValveData struct {
	Position    Opening // 0 shut to 1 open; 1 where not said
	PositionSet bool
	Kv          float64       // at this position, m³/h; 0: the opening curve's
	Ways        []DiverterWay // diverter-valve only: share of each outlet's opening; empty: all open
}

// DiverterWay is one outlet of a diverter and how far it is open.
type DiverterWay struct {
	Port string
	Open Opening
}

// CheckData is what a check valve adds.
type CheckData struct {
	Style       string  // "spring" or "swing"; "" spring
	CrackingPa  float64 // CrackingSet false: catalogue's
	CrackingSet bool
}

// UnitData is what a heat pump adds. Flows in m³/s; 0: not given. Temperatures °C, each
// with a flag beside it that tells whether it was given.
type UnitData struct {
	Least, Rated, Most  float64
	PortsSize           catalog.Size
	Ratings             []Rating
	RatingsAt           RatingNotes // what holds for every rating that does not say otherwise
	VoltageV, FullLoadA float64
	FuseA               float64 // of the fuse or breaker its plate asks for
	Electric            Electric
	Inverter            bool
	LeastOutputW        Amount // of an inverter, W
	StandbyW            Amount // electric, W
	StartLossKWh        Amount // heat lost at each start, kWh

	SetPointC         float64 // what its own thermostat is set to
	SetPointSet       bool
	LeastAirC         float64 // coldest air it works in
	LeastAirSet       bool
	MostWaterC        float64 // highest set point
	MostWaterSet      bool
	CalledBy          string     // ByOwnThermostat or ByController; "": not said
	StopsAtHighLimit  *bool      // the tub's high limit, or one of its own, stops it; nil: not said
	DrainPlug         *bool      // its exchanger can be emptied by a plug of its own; nil: not said
	Refrigerant       string     // as on its plate: "R32", "R290"
	StandsOn          string     // one of StandsOnWords; "": not said
	Outdoors          *bool      // nil: not said, taken as yes
	Blows             string     // the direction its fan blows; "": not said
	ServiceSide       string     // the direction its service panel looks; "": not said
	Clearances        Clearances // the room its sheet asks for
	FromWaterMM       float64
	FromWaterMeasured bool // FromWaterMM was given: level distance from the rim to the unit's case
}

// Clearances is the room a unit's sheet asks for round its case, mm.
type Clearances struct {
	Behind  Amount // where it draws its air
	Fan     Amount // before its fan
	Service Amount // at its service panel
}

// What calls a unit for heat.
const (
	ByOwnThermostat = "own-thermostat"
	ByController    = "controller"
)

// StandsOnWords lists what a unit may stand on.
func StandsOnWords() []string { return []string{"slab", "feet", "brackets", "deck", "roof"} }

// Flammable reports whether the refrigerant on the plate is propane or another of the
// hydrocarbons, which want a clear zone. Source: safety class A3 of ISO 817 (from memory).
func (u *UnitData) Flammable() bool {
	switch strings.ToUpper(strings.ReplaceAll(u.Refrigerant, "-", "")) {
	case "R290", "R600A", "R1270", "R441A", "R436A":
		return true
	}
	return false
}

// Rating is one line of a heat pump's performance table.
type Rating struct {
	AirC, WaterC float64
	OutputW      float64
	InputW       float64 // 0: not given
	COP          float64 // output over input; 0: not given
	RatingNotes
}

// RatingNotes is under what circumstances a rating was taken.
type RatingNotes struct {
	Humidity Amount // of the air, share
	Defrost  *bool  // defrosts are in the figures; nil: not said
	WaterIs  string // "entering" or "leaving" the unit; "": not said
}

// Input returns the electric input of a rating, W, in whichever form it was given; 0 where
// neither was.
func (t *Rating) Input() float64 {
	if t.InputW == 0 && t.COP > 0 {
		return t.OutputW / t.COP
	}
	return t.InputW
}

// ElementData is what an element heater adds.
type ElementData struct {
	PowerW       float64
	Disconnected bool
	Electric     Electric
	Interlock    string  // one of Interlocks; "": not said
	SetPointC    float64 // °C, what the tub's controller is set to; SetPointSet tells
	SetPointSet  bool
}

// The ways in which an element is kept from heating against the unit. Anything else is a
// hope, not an interlock. Common practice, no source.
const (
	InterlockContact    = "contact"         // a contact of the unit releases the element
	InterlockChangeover = "changeover"      // a switch or relay feeds the one or the other
	InterlockSetPoint   = "set-point"       // the element's set point stands 2 to 3 K below the unit's
	InterlockMode       = "controller-mode" // a setting of the controller for a heat source of another make
)

// Interlocks lists the ways.
func Interlocks() []string {
	return []string{InterlockContact, InterlockChangeover, InterlockSetPoint, InterlockMode}
}

// BlowerData is what a blower adds.
type BlowerData struct {
	PowerW   Amount // electric, W
	AirFlow  Amount // m³/s of air
	Electric Electric
}

// OwnLength reports whether the part has a length of its own, and not its catalogue row's: one
// that was given, zero too, or that the tool built it with.
func (p *Part) OwnLength() bool { return p.LengthSet || p.LengthMM > 0 }
