package heat

import "math"

// Month is one month of a year's account, kWh and money.
type Month struct {
	HeatKWh                                       float64 // into the water by unit and element
	UnitKWh, ElementKWh, PumpKWh, Cost, ShortHour float64
}

// Account is a year of one plant.
type Account struct {
	Months   [12]Month
	KWh      float64 // electricity
	Cost     float64
	HeatKWh  float64
	UnitHeat float64    // kWh of it from the units
	Units    []UnitYear // each, in the order of the plant
	PumpKWh  float64
	Terms    map[Term]float64 // kWh lost
	ColdestC float64          // water, at an hour's end
	Short    int              // hours that ended more than a tenth of a kelvin below the set point
	Bathed   int              // those of them that began with the cover off
	EndsC    float64
	BalanceJ float64 // heat in less losses less stored; rounding alone
	UnitCOP  float64 // heat of the units over their input, stand-by left out; 0 without one
}

// UnitYear is what one unit of several carries of a year.
type UnitYear struct {
	HeatKWh, KWh float64 // KWh: with its stand-by
	COP          float64 // stand-by left out; 0: it never ran
}

// Year follows a tub through a year of weather, hour by hour, with a plant that holds its
// set point where it can. Within an hour powers are constant and the water follows
//
//	t1 = T + (t0 - T) exp(-UA h/C),   T = ta + (heat - use)/UA
//
// exactly. The pump runs its filter hours and, where it is called, as long as heat is made;
// its heat counts. The units heat first, up to the hottest water they make: those of one set point each the same
// share of the time, those set lower what is missing there. The element gives the rest, up to its own set point
// where it has one.
func Year(tub *Tub, plant *Plant, w *Weather, tariff Tariff) *Account {
	y := yearRun{tub: tub, plant: plant, price: tariff.byHour(), c: tub.Capacity(), skin: tub.UA(), acc: &Account{Terms: map[Term]float64{}, ColdestC: math.Inf(1)}}
	y.perWatt = hourS / y.c
	if y.skin > 0 {
		y.perSkin = 1 / y.skin
		y.perWatt = -math.Expm1(-y.skin*hourS/y.c) * y.perSkin
		y.fadingS = y.perWatt * y.c
	}
	y.pumpHeat, y.others = plant.PumpW*plant.PumpHeat, plant.OtherW*plant.PumpHeat
	for hour := range y.open {
		y.open[hour] = tub.OpenShare(hour)
		y.filter[hour], y.may[hour] = plant.filterAt(hour)
	}
	y.bank = bankOf(plant.Units, tub.SetC)
	n, levels := len(plant.Units), len(y.bank.levels)
	y.working, y.each, y.full, y.cap = make([]figure, n), make([]unitSum, n), make([]float64, levels), make([]float64, levels)
	for i := range plant.Units {
		y.standby += plant.Units[i].Unit.StandbyW
	}
	t, next := tub.SetC, w.Hours
	for month := range daysOf {
		for range w.days(month) {
			for hour, air := range next[:24] {
				air.TempC += w.WarmerK
				t = y.hour(t, air, hour, &y.acc.Months[month])
			}
			next = next[24:]
		}
		y.acc.Months[month].fromWh()
	}
	a := y.acc
	a.UnitHeat /= 1e3
	a.EndsC = t
	for m := range a.Months {
		a.Months[m].Cost += tariff.Standing * float64(w.days(m))
		a.KWh += a.Months[m].UnitKWh + a.Months[m].ElementKWh + a.Months[m].PumpKWh
		a.Cost += a.Months[m].Cost
		a.HeatKWh += a.Months[m].HeatKWh
		a.PumpKWh += a.Months[m].PumpKWh
	}
	for k, term := range usedTerms {
		a.Terms[term] += y.used[k] / JoulesPerKWh
	}
	lost := y.used.total()
	for _, term := range Terms() {
		if ua := tub.SkinUA[term]; ua > 0 {
			a.Terms[term] = ua * y.kelvinS / JoulesPerKWh
			lost += ua * y.kelvinS
		}
	}
	a.Terms[TermPipes] = y.pipesJ / JoulesPerKWh
	a.BalanceJ = y.inJ - lost - y.pipesJ - y.c*(t-tub.SetC)
	if y.unitRunJ > 0 {
		a.UnitCOP = a.UnitHeat * JoulesPerKWh / y.unitRunJ
	}
	a.Units = y.units(float64(len(w.Hours)))
	return a
}

// yearRun is the work in progress.
type yearRun struct {
	tub      *Tub
	plant    *Plant
	bank     *bank
	working  []figure // of each unit in the hour
	each     []unitSum
	full     []float64 // output of each level of the bank in the hour [W]
	cap      []float64 // the most that it may give as a mean of the hour [W]
	price    [24]float64
	c, skin  float64
	perWatt  float64 // by what one more watt over an hour warms the water [K/W]
	perSkin  float64 // by how much one more watt warms the water in the end [K/W]
	fadingS  float64 // what a kelvin above the air comes to over an hour in which it fades [K s/K]
	open     [24]float64
	may      [24]float64 // see Plant.filterAt
	filter   [24]float64 // see Plant.filterAt
	pumpHeat float64     // of the pump, into the water, while it runs [W]
	others   float64     // the same of other speeds and pumps, a mean
	standby  float64
	kelvinS  float64 // water above air, over time
	inJ      float64
	pipesJ   float64
	unitRunJ float64 // input while running
	used     usedLoss
	bathed   bool // the cover was off since the water last had its temperature
	acc      *Account
}

// unitSum adds up what one unit gives and takes.
type unitSum struct{ heatWh, inputWh float64 }

// hour moves the water through one hour and returns its temperature.
func (y *yearRun) hour(t float64, air Air, hour int, m *Month) float64 {
	tub, plant := y.tub, y.plant
	filter, may, pumpHeat, others := y.filter[hour], y.may[hour], y.pumpHeat, y.others

	y.bank.work(air, t, nil, y.working)
	// what the pipes lose follows the pump; they count with the water's temperature at the
	// hour's beginning, so that the hour stays linear.
	pipes := tub.PipesUA * (t - air.TempC) * filter
	around := tub.Around(air)
	usedW := y.takes(t, &around, hour, filter*pumpHeat+others-pipes)
	drift := y.response(t, around.TempC, filter*pumpHeat+others-usedW-pipes)
	need := max(0, (tub.SetC-drift)/y.perWatt)
	unitMost, elementMost := y.most(may, drift)
	most := unitMost + elementMost
	heat := min(need, most)
	share := filter
	if run := y.running(); run > 0 && plant.Runs == PumpOnCall && need > filter*run {
		// beyond its filter hours the pump runs for the heat: its own heat helps, the pipes
		// take a little more.
		extra := pumpHeat - tub.PipesUA*(t-air.TempC)
		heat = (need + filter*extra) / (1 + extra/run)
		if heat > run {
			heat = need - (1-filter)*extra
		}
		heat = max(0, min(heat, most))
		share = max(filter, min(1, heat/run))
		pipes += tub.PipesUA * (t - air.TempC) * (share - filter)
	}
	net := heat + share*pumpHeat + others - usedW - pipes
	next := y.response(t, around.TempC, net)
	y.kelvinS += y.above(t, around.TempC, net)

	byUnit := min(heat, unitMost)
	input := y.share(byUnit)
	element := heat - byUnit
	pump := share*plant.PumpW + plant.OtherW
	y.book(m, hour, heat, byUnit, element, input, pump)
	y.inJ += (heat + share*pumpHeat + others) * hourS
	y.pipesJ += pipes * hourS
	y.acc.ColdestC = min(y.acc.ColdestC, next)
	y.bathed = y.bathed || y.open[hour] > 0
	if next < tub.SetC-0.1 {
		y.acc.Short++
		m.ShortHour++
		if y.bathed {
			y.acc.Bathed++
		}
	} else {
		y.bathed = false
	}
	return next
}

// units is what each unit carried in a number of hours.
func (y *yearRun) units(hours float64) []UnitYear {
	var out []UnitYear
	for i, sum := range y.each {
		u := UnitYear{HeatKWh: sum.heatWh / 1e3, KWh: (sum.inputWh + y.plant.Units[i].Unit.StandbyW*hours) / 1e3}
		if sum.inputWh > 0 {
			u.COP = sum.heatWh / sum.inputWh
		}
		out = append(out, u)
	}
	return out
}

// share has the units make a mean of heatW in the hour, and returns what they take for it [W].
func (y *yearRun) share(heatW float64) (input float64) {
	for n, level := range y.bank.levels {
		give := min(heatW, y.cap[n])
		if give <= 0 {
			continue
		}
		heatW -= give
		for _, i := range level {
			w := &y.working[i]
			if w.outputW <= 0 {
				continue
			}
			part := w.outputW / y.full[n]
			// as many starts as the tub with all of them has, so each has its part of the water
			run := y.bank.units[i].meet(give*part, w.outputW, w.inputW, y.c*part)
			y.each[i].heatWh += run.HeatW
			y.each[i].inputWh += run.InputW
			input += run.InputW
		}
	}
	return input
}

// most returns what the units and the element may give [W] in an hour in which heat may be made a share of
// the time and the water would come to drift without it: neither heats above its own set point.
func (y *yearRun) most(may, drift float64) (unit, element float64) {
	outputW := 0.0
	for n, level := range y.bank.levels {
		y.full[n] = 0
		for _, i := range level {
			y.full[n] += y.working[i].outputW
		}
		outputW += y.full[n]
		y.cap[n] = may * y.full[n]
		if top := y.bank.tops[n]; top < y.tub.SetC {
			y.cap[n] = min(y.cap[n], max(0, (top-drift)/y.perWatt-unit))
		}
		unit += y.cap[n]
	}
	element = may * y.plant.Beside(outputW)
	if top := may * y.plant.TopW; top > 0 && y.plant.TopC < y.tub.SetC {
		rest := element - top
		element = rest + min(top, max(0, (y.plant.TopC-drift)/y.perWatt-unit-rest))
	}
	return unit, element
}

// takes is what use takes from the water in an hour, W, where otherW goes in beside what is made and taken: what is
// blown and refilled, and more while the cover is off; it is entered by what takes it.
func (y *yearRun) takes(t float64, around *Air, hour int, otherW float64) float64 {
	if y.open[hour] <= 0 { // nothing else takes anything
		blown, refill := y.tub.always(t, around)
		y.used[usedBlown] += blown * hourS
		y.used[usedRefill] += refill * hourS
		return blown + refill
	}
	used := y.bath(t, around, hour, otherW)
	for k := range used {
		y.used[k] += used[k] * hourS
	}
	return used.total()
}

// bath is what use takes in an hour with a bath: what begins at t falls while the cover is off, where nothing makes
// up for it, and loses the less.
func (y *yearRun) bath(t float64, around *Air, hour int, otherW float64) usedLoss {
	share, vapour := y.open[hour], around.vapour()
	held := y.tub.usedIn(t, around, vapour, share)
	used := held
	for range 3 { // the fall of the fall's own mean settles at once
		drift := y.response(t, around.TempC, otherW-used.total())
		unit, element := y.most(y.may[hour], drift)
		ends := drift + (unit+element)*y.perWatt
		if ends >= t {
			return held
		}
		used = y.tub.usedIn((t+ends)/2, around, vapour, share)
	}
	return used
}

// book enters an hour's watts: Wh, until fromWh.
func (y *yearRun) book(m *Month, hour int, heat, byUnit, element, input, pump float64) {
	m.HeatKWh += heat
	m.UnitKWh += input + y.standby
	m.ElementKWh += element
	m.PumpKWh += pump
	m.Cost += y.price[hour] * (input + y.standby + element + pump)
	y.acc.UnitHeat += byUnit
	y.unitRunJ += input * hourS
}

// fromWh turns a month's Wh into kWh, and its cost by the kWh: once, and not at every hour.
func (m *Month) fromWh() {
	for _, v := range []*float64{&m.HeatKWh, &m.UnitKWh, &m.ElementKWh, &m.PumpKWh, &m.Cost} {
		*v /= 1e3
	}
}

// running returns the heat that is made while anything heats [W]: what the units that heat first give at their
// slowest, else the element's. What helps them out runs no longer than they do.
func (y *yearRun) running() float64 {
	for _, level := range y.bank.levels {
		run := 0.0
		for _, i := range level {
			if w := y.working[i].outputW; w > 0 {
				run += y.bank.units[i].slowest(w)
			}
		}
		if run > 0 {
			return run
		}
	}
	return y.plant.ElementW
}

// response returns the water's temperature after an hour with net W going in.
func (y *yearRun) response(t, airC, net float64) float64 {
	return t + y.perWatt*(net-y.skin*(t-airC))
}

// above returns the integral of water above air over an hour [K s].
func (y *yearRun) above(t, airC, net float64) float64 {
	d := t - airC
	if y.skin <= 0 {
		return d*hourS + net*hourS*hourS/(2*y.c)
	}
	rest := net * y.perSkin
	return rest*hourS + (d-rest)*y.fadingS
}
