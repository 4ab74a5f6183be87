package heat

// Term names one way in which a tub loses heat.
type Term string

// The terms, in the order in which they are listed.
const (
	TermCover     Term = "cover"
	TermShell     Term = "walls and floor"
	TermTub       Term = "the tub, cover on" // where cover and shell are not told apart
	TermPipes     Term = "pipes outside"
	TermEvaporate Term = "cover off: evaporation"
	TermConvect   Term = "cover off: warm air"
	TermRadiate   Term = "cover off: radiation"
	TermBathers   Term = "bathers and splash water"
	TermTopUp     Term = "water topped up"
	TermBlown     Term = "air through the water"
	TermRefill    Term = "refills"
)

// Terms lists every term in order.
func Terms() []Term {
	return []Term{TermTub, TermCover, TermShell, TermPipes, TermEvaporate, TermConvect, TermRadiate, TermBathers, TermTopUp, TermBlown, TermRefill}
}

// Tub is the water, its skin and how it is used.
type Tub struct {
	VolumeM3 float64
	Fluid    Fluid
	SetC     float64 // temperature held

	SkinUA  map[Term]float64 // W/K by cover, shell or the tub as one
	PipesUA float64          // W/K of pipes outside, while water runs in them
	AirM3s  float64          // m³/s drawn or blown through the water day and night

	Use      Use
	FillC    float64 // of the water from the tap
	Refills  float64 // a year
	Shelter  float64 // share of the open country's wind that reaches the water
	UseAirM3 float64 // m³/s of the blower while bathed in
	Indoor   bool    // the tub stands in a room: all but the pipes outside lose to its air
	RoomC    float64 // of that room, where Indoor
}

// roomHumidity is that of the air of a room with a tub in it. Source: common practice, no source:
// rooms with open water are kept at 50 to 65 %.
const roomHumidity = 0.6

// Around returns the air round the tub, for the air outdoors: that of its room where it stands
// in one, whose walls are as warm as their air.
func (t *Tub) Around(outdoors Air) Air {
	if !t.Indoor {
		return outdoors
	}
	k := t.RoomC + 273.15
	return Air{TempC: t.RoomC, Humidity: roomHumidity, Wind: outdoors.Wind, Sky: stefan * k * k * k * k}
}

// Use is when and how the tub is bathed in.
type Use struct {
	OpenS      float64 // cover off each time [s]
	TimesAWeek float64
	At         float64 // hour of the day at which it opens, 0 to 24
	AreaM2     float64 // of the water
	Activity   float64
	Wind       float64 // m/s at the water; WindSet false: the weather's by Tub.Shelter
	WindSet    bool
	Bathers    float64
}

// Capacity returns the heat that warms the tub by a kelvin [J/K].
func (t *Tub) Capacity() float64 { return t.VolumeM3 * t.Fluid.perK() }

// UA returns the standing loss for each kelvin [W/K], the pipes outside left out.
func (t *Tub) UA() float64 {
	sum := 0.0
	for _, term := range Terms() {
		sum += t.SkinUA[term]
	}
	return sum
}

// Standing returns what skin and pipes lose [W] at a water temperature, for the air outdoors.
func (t *Tub) Standing(waterC float64, air Air) float64 {
	return t.standing(t.UA(), waterC, air)
}

// standing is Standing where the UA of the skin is at hand: adding it up takes longer than all else.
func (t *Tub) standing(skin, waterC float64, air Air) float64 {
	return skin*(waterC-t.Around(air).TempC) + t.PipesUA*(waterC-air.TempC)
}

// Carried water and warmed bodies, for each bather and time.
const (
	splashKg = 2.0             // 1 to 3 l, judgement
	bodyJ    = 75.0 * 1 * 3500 // 75 kg warmed by 1 K, 3.5 kJ/(kg K): textbook of physiology, from memory
)

// Days of a week, and seconds of a year.
const (
	weekDays = 7.0
	yearS    = 365.0 * 24 * hourS
)

// wind returns the wind at the water for that of the open country [m/s].
func (t *Tub) wind(open float64) float64 {
	if t.Use.WindSet {
		return t.Use.Wind
	}
	return open * t.Shelter
}

// OpenShare returns the share of an hour of the day (0 to 23) in which the cover is off, on
// a day of bathing.
func (t *Tub) OpenShare(hour int) float64 {
	length := min(t.Use.OpenS/hourS, 24)
	share := 0.0
	for _, day := range []float64{-24, 0} { // what began the evening before
		from := max(float64(hour), t.Use.At+day)
		to := min(float64(hour+1), t.Use.At+day+length)
		share += max(0, to-from)
	}
	return min(1, share)
}

// Parts of a tub's loss besides its skin and pipes [W], in the order of usedTerms.
type usedLoss [7]float64

// Where in it what goes on with the cover on stands.
const (
	usedBlown  = 5
	usedRefill = 6
)

var usedTerms = [7]Term{TermEvaporate, TermConvect, TermRadiate, TermBathers, TermTopUp, TermBlown, TermRefill}

// total returns the sum [W].
func (u usedLoss) total() float64 {
	sum := 0.0
	for _, v := range u {
		sum += v
	}
	return sum
}

// Bathing returns the loss with the cover off [W] at a water temperature, as long as it is off,
// for the air outdoors.
func (t *Tub) Bathing(waterC float64, air Air) Open {
	around := t.Around(air)
	return t.bathing(waterC, around, moistOf(waterC, around))
}

func (t *Tub) bathing(waterC float64, around Air, m moist) Open {
	around.Wind = t.wind(around.Wind)
	return Surface{t.Use.AreaM2, t.Use.Activity}.lose(waterC, around, m)
}

// always returns what air through the water and refills take [W] as a mean, the cover on or off, in
// the air around the tub.
func (t *Tub) always(waterC float64, around *Air) (blown, refill float64) {
	if t.AirM3s > 0 {
		blown = Blown(t.AirM3s, waterC, *around)
	}
	if t.Refills > 0 {
		refill = t.Refills * t.Capacity() * (waterC - t.FillC) / yearS
	}
	return blown, refill
}

// Taken returns what use and tap take [W] as a mean over an hour of the day (0 to 23), with the bath that
// falls into it at its share of the days.
func (t *Tub) Taken(waterC float64, air Air, hour int) float64 {
	return t.used(waterC, air, t.OpenShare(hour)).total()
}

// used returns what the use and the tap take [W] as a mean of an hour in which the cover is
// off a share of the time.
func (t *Tub) used(waterC float64, air Air, share float64) usedLoss {
	around := t.Around(air)
	if share <= 0 {
		var u usedLoss
		u[usedBlown], u[usedRefill] = t.always(waterC, &around)
		return u
	}
	return t.usedIn(waterC, &around, around.vapour(), share)
}

// usedIn is used while the cover is off a share of the time, for the air around the tub and its vapour [Pa].
func (t *Tub) usedIn(waterC float64, around *Air, vapour, share float64) usedLoss {
	var u usedLoss
	u[usedBlown], u[usedRefill] = t.always(waterC, around)
	share *= t.Use.TimesAWeek / weekDays
	moist := moist{VapourPressure(waterC), vapour}
	o := t.bathing(waterC, *around, moist)
	u[0], u[1], u[2] = share*o.EvaporationW, share*o.ConvectionW, share*o.RadiationW
	if t.Use.OpenS > 0 { // what each bather takes, spread over the time
		u[3] = share / t.Use.OpenS * t.Use.Bathers * (splashKg*t.Fluid.Capacity*(waterC-t.FillC) + bodyJ)
	}
	u[4] = share * o.EvaporationKgH / hourS * t.Fluid.Capacity * (waterC - t.FillC)
	u[usedBlown] += share * blown(t.UseAirM3, waterC, *around, moist)
	return u
}
