package heat

// PumpRuns says how the pump runs while heat is wanted.
type PumpRuns string

// The ways.
const (
	PumpOnCall PumpRuns = "contact" // as long as heat is made, beside its filter hours
	PumpHours  PumpRuns = "hours"   // in its filter hours only, and heat is made in them alone
	PumpAlways PumpRuns = "always"
)

// Plant is what heats a tub.
type Plant struct {
	Units    []Served // none: the element alone
	ElementW float64  // 0: none, or disconnected
	ApartW   float64  // of ElementW, what never heats at once with the unit: only where the unit can't
	TopW     float64  // of ElementW, what has a set point of its own
	TopC     float64  // and heats up to that only [°C]
	PumpW    float64  // electric, at the speed that heats
	PumpHeat float64  // share of it that ends in the water
	FilterH  float64  // hours a day in which the pump runs anyway
	OtherW   float64  // electric, a mean over the day: other speeds and pumps by the hours somebody sets
	Runs     PumpRuns
	Heating  [24]float64 // share of each hour of the day in which heat may be made
}

// AnyTime is a plant's Heating where nothing restrains it.
func AnyTime() [24]float64 {
	var h [24]float64
	for i := range h {
		h[i] = 1
	}
	return h
}

// Window is a time of day in which heating is on; one that ends before it begins runs past
// midnight.
type Window struct{ FromH, ToH float64 }

// Shares returns the share of each hour of the day that the windows cover.
func Shares(windows []Window) [24]float64 {
	var h [24]float64
	for i := range h {
		for _, w := range windows {
			h[i] += Band{FromH: w.FromH, ToH: w.ToH}.covers(float64(i), float64(i+1))
		}
		h[i] = min(1, h[i])
	}
	return h
}

// FilterShare returns the share of a day in which the pump runs anyway.
func (p *Plant) FilterShare() float64 {
	if p.Runs == PumpAlways {
		return 1
	}
	return min(1, p.FilterH/24)
}

// filterAt returns the share of an hour of the day in which the pump runs anyway, and that of it in which heat
// may be made. Hours without which no heat is made are first those in which it may be: who has a tub heated at
// night sets its pump so. What is over, and any other pump's hours, are spread over the rest.
func (p *Plant) filterAt(hour int) (runs, may float64) {
	may = p.Heating[hour]
	if p.Runs != PumpHours {
		return p.FilterShare(), may
	}
	open := 0.0
	for _, h := range p.Heating {
		open += h
	}
	if open <= 0 {
		return p.FilterShare(), 0
	}
	inside := may * min(1, p.FilterH/open)
	outside := 0.0
	if over := p.FilterH - open; over > 0 && open < 24 {
		outside = (1 - may) * min(1, over/(24-open))
	}
	return inside + outside, inside
}

// MayRun returns the share of the day in which heat may be made, above 0.
func (p *Plant) MayRun() float64 {
	sum := 0.0
	for hour := range p.Heating {
		_, may := p.filterAt(hour)
		sum += may
	}
	return max(sum/24, 1e-9) // 0 stands for all of the day
}

// Beside returns what the elements may give [W] while the units give outputW: all of it only where
// they give nothing.
func (p *Plant) Beside(outputW float64) float64 {
	if outputW > 0 {
		return p.ElementW - p.ApartW
	}
	return p.ElementW
}

// BesideAt is Beside at a temperature of the water, °C: what has a set point of its own is off from there up,
// the rest heats on.
func (p *Plant) BesideAt(outputW, waterC float64) float64 {
	if p.TopW > 0 && waterC >= p.TopC {
		return p.Beside(outputW) - p.TopW
	}
	return p.Beside(outputW)
}
