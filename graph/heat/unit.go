package heat

// Fluid is the tub's water.
type Fluid struct {
	Density  float64 // kg/m³
	Capacity float64 // J/(kg K)
}

// perK returns the heat that warms a flow of 1 m³/s by 1 K [W/K].
func (f Fluid) perK() float64 { return f.Density * f.Capacity }

// Unit is a heat pump. Zero values mean "not said", but for StandbyW and StartJ, where
// they mean none.
type Unit struct {
	ID        string
	Ratings   []Rating
	RatedFlow float64 // m³/s at which the ratings were taken; 0: the one that warms by 2.5 K
	LeastAirC float64 // coldest air it runs in
	HasLeast  bool
	Guessed   bool    // LeastAirC is what is usual: nobody said where the unit stops
	MostC     float64 // hottest water it makes, its highest set point
	HasMost   bool
	Inverter  bool
	LeastW    float64 // output of an inverter at its slowest; 0: three tenths of the full
	StandbyW  float64
	StartJ    float64 // input lost at each start [J]
	Fluid     Fluid
}

// Makes reports whether the unit makes water of a temperature, °C.
func (u *Unit) Makes(waterC float64) bool { return !u.HasMost || waterC <= u.MostC }

// ratedRise is the rise of the water at the rated flow where a sheet is silent [K]. Source:
// AHRI 1160 (from memory).
const ratedRise = 2.5

// Working is what a unit gives and takes at full speed.
type Working struct {
	OutputW, InputW float64
	Basis           Basis
	EntersC         float64 // water, where it was asked of a plant
}

// COP returns output over input; 0 where the unit stands.
func (w Working) COP() float64 {
	if w.InputW <= 0 {
		return 0
	}
	return w.OutputW / w.InputW
}

// At returns what the unit gives at full speed in air with water entering at waterC and a
// flow [m³/s]; 0 flow stands for the rated one. Below its least air it stands.
//
// Water less than rated leaves hotter, by dT (Q0/Q - 1); output and input follow by the
// slopes. Source: the balance of heat.
func (u *Unit) At(air Air, waterC, flow float64) Working { return u.sheet().at(air, waterC, flow) }

// sheet is a unit with its table in order.
type sheet struct {
	*Unit
	table   table
	leaving bool // the table is by the leaving water's temperature
	frosted bool // its coldest ratings hold their defrosts
}

// sheet sorts the unit's ratings, once for many questions.
func (u *Unit) sheet() *sheet {
	s := &sheet{Unit: u, frosted: u.Frosted()}
	s.table, s.leaving = u.sorted()
	return s
}

// stands reports whether the unit gives nothing in such air, or nothing is known of it.
func (s *sheet) stands(air Air) bool {
	return len(s.Ratings) == 0 || s.HasLeast && air.TempC < s.LeastAirC
}

func (s *sheet) at(air Air, waterC, flow float64) Working {
	if s.stands(air) {
		return Working{}
	}
	r, readC := s.full(air, waterC, flow)
	return Working{OutputW: r.outputW, InputW: r.inputW, Basis: s.table.basis(air.TempC, readC)}
}

// full returns what the unit gives and takes in air it works in, and at which water its table was read.
func (s *sheet) full(air Air, waterC, flow float64) (f figure, readC float64) {
	readC = waterC
	f = s.table.at(air.TempC, readC)
	if s.leaving { // the rise moves the output by half a per cent for each kelvin: settles at once
		for range 4 {
			was := f.outputW
			readC = waterC + s.rise(was)
			if f = s.table.at(air.TempC, readC); f.outputW == was {
				break // what follows would be the same
			}
		}
	}
	if !s.frosted && air.TempC < 7 {
		out, cop := Frost(air.TempC, air.Humidity)
		f.outputW, f.inputW = f.outputW*out, f.inputW*out/cop
	}
	if rated := s.flow(f.outputW); flow > 0 && flow < rated {
		f = f.warmer(f.waterC + s.rise(f.outputW)*(rated/flow-1))
	}
	return f, readC
}

// flow returns the rated flow [m³/s].
func (u *Unit) flow(outputW float64) float64 {
	if u.RatedFlow > 0 {
		return u.RatedFlow
	}
	return outputW / (ratedRise * u.Fluid.perK())
}

// rise returns by what the water warms at the rated flow [K].
func (u *Unit) rise(outputW float64) float64 { return outputW / (u.flow(outputW) * u.Fluid.perK()) }

// Frosted reports whether the coldest ratings hold their defrosts.
func (u *Unit) Frosted() bool {
	for _, r := range u.Ratings {
		if r.AirC < 7 && r.Frost {
			return true
		}
	}
	return false
}

// sorted returns the ratings by one kind of water temperature, and whether that is the
// leaving water's. Where both kinds are listed the leaving ones are turned into entering.
func (u *Unit) sorted() (t table, leaving bool) {
	leaving = true
	for _, r := range u.Ratings {
		leaving = leaving && r.Leaving
	}
	list := make([]Rating, len(u.Ratings))
	for i, r := range u.Ratings {
		if r.Leaving && !leaving {
			r.WaterC -= u.rise(r.OutputW)
			r.Leaving = false
		}
		list[i] = r
	}
	return newTable(list), leaving
}

// Run is how a unit meets a need for heat.
type Run struct {
	HeatW, InputW float64 // means over the time
	Share         float64 // of the time in which it runs
}

// Hysteresis is the band of a thermostat [K]. Source: common practice, no source.
const Hysteresis = 1.0

// Meet returns how the unit meets a need [W] as a mean: a fixed-speed one by running a share
// of the time, an inverter by turning slower down to its least output and then the same.
// Each start loses StartJ of input; how often it starts follows from the tub's
// capacity [J/K] and the thermostat's band:
//
//	starts/s = need (output - need)/(C ΔT output)
//
// An inverter gains 8 % at half load and no more below. Source: the balance of heat; the
// gain from the certification data named at the slopes; the loss for each start is judgement.
func (u *Unit) Meet(needW float64, w Working, capacity float64) Run {
	return u.meet(needW, w.OutputW, w.InputW, capacity)
}

// meet is Meet for what the unit gives and takes at full speed.
func (u *Unit) meet(needW, outputW, inputW, capacity float64) Run {
	if needW <= 0 || outputW <= 0 {
		return Run{}
	}
	full := min(needW, outputW)
	least, running := outputW, inputW
	if u.Inverter {
		least = u.slowest(outputW)
		gain := 1 + 0.16*(1-max(0.5, max(full, least)/outputW))
		if full >= least {
			return Run{HeatW: full, InputW: full / outputW * inputW / gain, Share: 1}
		}
		running = least / outputW * inputW / gain
	}
	share := full / least
	starts := full * (least - full) / (capacity * Hysteresis * least)
	return Run{HeatW: full, InputW: running*share + starts*u.StartJ, Share: share}
}

// slowest returns the output at the slowest the unit turns [W], of what it gives at full speed; a
// fixed-speed one has one speed. The three tenths of an inverter whose sheet is silent are judgement.
func (u *Unit) slowest(outputW float64) float64 {
	switch {
	case !u.Inverter:
		return outputW
	case u.LeastW > 0:
		return min(u.LeastW, outputW)
	}
	return 0.3 * outputW
}
