package settle

import (
	"cmp"
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// Limits are what a unit asks of its flow, m³/s: by its keys, else by the row it names.
// What neither says is not known.
type Limits struct{ Least, Rated, Most Value }

// UnitLimits returns the limits of a unit in whichever stage it stands.
func UnitLimits(cat *catalog.Catalog, p *graph.Part) Limits {
	var l Limits
	row, named := catalog.Row{}, false
	if p.Type != "" && cat != nil {
		row, named = cat.Row(p.Type)
	}
	u := p.Unit
	if u == nil {
		u = &graph.UnitData{}
	}
	pick := func(own, rows float64) Value {
		switch {
		case own > 0:
			return number(own, quantity.Flow, given(p.KeyPos["flow"]))
		case named && rows > 0:
			return number(rows, quantity.Flow, ofRow(&row, p.KeyPos["type"], false))
		}
		return Value{}
	}
	l.Least, l.Rated, l.Most = pick(u.Least, row.Least), pick(u.Rated, row.Rated), pick(u.Most, row.Most)
	return l
}

// UnitPorts returns the size of a unit's ports: of [ports-size], its size, or the row it
// names; zero where none says it.
func UnitPorts(cat *catalog.Catalog, p *graph.Part) Pick[catalog.Size] {
	switch {
	case p.Unit != nil && !p.Unit.PortsSize.IsZero():
		return Pick[catalog.Size]{p.Unit.PortsSize, given(p.KeyPos["ports-size"])}
	case !p.Size.IsZero():
		return Pick[catalog.Size]{p.Size, given(p.KeyPos["size"])}
	}
	if row, ok := cat.Row(p.Type); ok && p.Type != "" && !row.Size.IsZero() {
		return Pick[catalog.Size]{row.Size, ofRow(&row, p.KeyPos["type"], false)}
	}
	return Pick[catalog.Size]{}
}

func (s *Stage) portsSize(p *graph.Part) Pick[catalog.Size] { return UnitPorts(s.cat, p) }

// PortSize returns the size a unit's port has: the port's own, else that of all of them;
// zero where nothing says it.
func (s *Stage) PortSize(p *graph.Part, port string) catalog.Size {
	if q := p.Port(port); q != nil && !q.Size.IsZero() {
		return q.Size
	}
	return s.portsSize(p).V
}

// settleLimits settles what flow and power a part asks for or gives.
func (s *Stage) settleLimits(out *Part) {
	p, row := out.Part, &out.Row.V
	_, named := s.named(p)
	switch {
	case p.Kind == graph.HeatPump:
		l := UnitLimits(s.cat, p)
		out.Least, out.Rated, out.Most = l.Least, l.Rated, l.Most
		s.settleElectric(out, named)
		out.settleWorking(named)
		out.settleRatings(named)
	case p.LeastFlow > 0:
		out.Least = number(p.LeastFlow, quantity.Flow, given(p.KeyPos["least-flow"]))
	case p.Kind == graph.ElementHeater:
		out.Least = out.byRow(quantity.Flow, "least", func(r *catalog.Row) float64 { return r.Least })
	case named && row.Least > 0:
		out.Least = number(row.Least, quantity.Flow, saysSo(out.Row, "least"))
	}
	switch {
	case p.Element != nil && p.Element.PowerW > 0:
		out.Power = number(p.Element.PowerW, quantity.Power, given(p.KeyPos["power"]))
	case p.Kind == graph.ElementHeater:
		out.Power = out.byRow(quantity.Power, "power", func(r *catalog.Row) float64 { return r.PowerW })
	case p.Kind == graph.HeatPump && named && row.PowerW > 0:
		out.Power = number(row.PowerW, quantity.Power, saysSo(out.Row, "power"))
	}
	if p.Kind == graph.Blower {
		out.settleBlower()
	}
	if p.Kind == graph.Filter {
		if p.Filter != nil && p.Filter.DirtyFactor > 0 {
			out.Dirty = number(p.Filter.DirtyFactor, Bare, given(p.KeyPos["dirty-factor"]))
		} else if out.Dirty = out.byRow(Bare, "dirty-factor", func(r *catalog.Row) float64 { return r.DirtyFactor }); !out.Dirty.Known {
			out.Dirty = number(usualDirty, Bare, assumed("common practice, no source"))
		}
	}
}

// What a blower takes, W, and moves, m³/s of air, where nothing says it, and how far that may be off.
// Judgement: 300 to 900 W, 8 to 20 l/s.
const (
	usualBlowerW    = 600
	usualBlowerM3s  = 0.012
	leastBlowerAir  = -0.4
	mostBlowerAir   = 0.6
	leastBlowerPart = -0.5
	mostBlowerPart  = 0.5
)

// settleBlower settles what a blower takes and what it moves.
func (p *Part) settleBlower() {
	b := p.Blower
	if b == nil {
		b = &graph.BlowerData{}
	}
	if b.PowerW.Set {
		p.Power = number(b.PowerW.V, quantity.Power, given(p.KeyPos["power"]))
	} else {
		p.Power = number(usualBlowerW, quantity.Power, assumed("judgement: 300 to 900 W"))
		p.Power.Low, p.Power.High = leastBlowerPart, mostBlowerPart
	}
	if b.AirFlow.Set {
		p.Air = number(b.AirFlow.V, quantity.Air, given(p.KeyPos["air"]))
	} else {
		p.Air = number(usualBlowerM3s, quantity.Air, assumed(quantity.Say("judgement: %s to %s", quantity.Air.Of(0.008), quantity.Air.Of(0.020))))
		p.Air.Low, p.Air.High = leastBlowerAir, mostBlowerAir
	}
}

// byRow is what the part's row says; where the one it names does not, what it would be taken for
// without a name: a row of the user's that leaves a number out says no more than no row does.
func (p *Part) byRow(dim quantity.Dimension, column string, of func(*catalog.Row) float64) Value {
	for _, row := range []*Pick[catalog.Row]{&p.Row, &p.usual} {
		if v := of(&row.V); v > 0 {
			return number(v, dim, saysSo(*row, column))
		}
	}
	return Value{}
}

// settleRatings settles what a unit gives: by its sheet, else by the row it names. A user's row is a
// sheet written down elsewhere; one of the catalogue is a size (see BySheet).
func (p *Part) settleRatings(named bool) {
	switch {
	case p.Unit != nil && len(p.Unit.Ratings) > 0:
		p.Ratings = Pick[[]graph.Rating]{p.Unit.Ratings, given(p.KeyPos["ratings"])}
	case named && len(p.Row.V.Ratings) > 0:
		p.Ratings.Origin = saysSo(p.Row, "ratings")
		for _, r := range p.Row.V.Ratings {
			p.Ratings.V = append(p.Ratings.V, graph.Rating{AirC: r.AirC, WaterC: r.WaterC, OutputW: r.OutputW, InputW: r.InputW})
		}
	}
}

// BySheet reports whether a unit's ratings are those of a sheet: given, or by a row of the user's.
func (p *Part) BySheet() bool {
	return len(p.Ratings.V) > 0 && (p.Ratings.How == Given || p.Ratings.How == OwnRow)
}

// usualFlow is the rated flow for each watt of output, m³/s: 0.35 m³/h for each kW. Source: the
// catalogue's rows (AHRI 1160's rating flow, from memory).
const usualFlow = 0.35 / 3600 / 1000

// UsualFlow is the rated flow that is usual for a unit's output, m³/s: by its ratings, else its row's; 0
// where neither is known.
func (p *Part) UsualFlow() float64 {
	if most := p.MostOutput(); most > 0 {
		return most * usualFlow
	}
	return p.Row.V.Rated
}

// MostOutput is the greatest output of a unit's ratings, W; 0 where it has none.
func (p *Part) MostOutput() float64 {
	most := 0.0
	for _, r := range p.Ratings.V {
		most = max(most, r.OutputW)
	}
	return most
}

// settleWorking settles down to what air and up to what water a unit works: by its sheet, else by
// the user's row it names; a row of the catalogue is a size and says nothing of this unit.
func (p *Part) settleWorking(named bool) {
	u, row := p.Unit, &p.Row.V
	if u == nil {
		u = &graph.UnitData{}
	}
	for _, x := range []struct {
		to    *Value
		key   string
		said  bool
		sheet float64
		row   *float64
	}{{&p.LeastAir, "least-air", u.LeastAirSet, u.LeastAirC, row.LeastAirC}, {&p.MostWater, "most-water", u.MostWaterSet, u.MostWaterC, row.MostWaterC}} {
		switch {
		case x.said:
			*x.to = number(x.sheet, quantity.Temperature, given(p.KeyPos[x.key]))
		case named && row.Owns(x.key) && x.row != nil:
			*x.to = number(*x.row, quantity.Temperature, p.Row.Origin)
		}
	}
}

// settleElectric settles what a unit draws: as its plate says, or as the row it names; of a unit
// without ratings as its generic row. Where neither says it, it follows from the ratings.
func (s *Stage) settleElectric(out *Part, named bool) {
	u, row := out.Unit, &out.Row.V
	if u == nil {
		u = &graph.UnitData{}
	}
	byRow := row.FullLoadA > 0 && u.FullLoadA <= 0 && (named || len(u.Ratings) == 0)
	out.Voltage = s.voltageOf(out.Part, u)
	phases, one := catalog.PhasesOf(out.Voltage.V, u.Electric.Phases)
	at := cmp.Or(row.VoltageV, UsualVoltageV)
	rowPhases, rowOne := catalog.Phases(at)
	scale := rowPhases * rowOne / (phases * one)
	ofRow := func(a float64) float64 { return a * scale }
	fuse := row.FuseA
	if math.Abs(out.Voltage.V-at) >= 0.1*at || phases != rowPhases {
		fuse = 0 // another would do there
	}
	plate := func(a float64) graph.Amount { return graph.Amount{V: a, Set: a > 0} }
	for _, x := range []struct {
		to    *Value
		key   string
		plate graph.Amount
		rows  float64
	}{{&out.FullLoad, "electric", plate(u.FullLoadA), ofRow(row.FullLoadA)}, {&out.Starting, "starting", u.Electric.StartingA, ofRow(row.StartingA)}, {&out.Fuse, "electric", plate(u.FuseA), fuse}} {
		switch {
		case x.plate.Set:
			*x.to = number(x.plate.V, quantity.Current, given(out.KeyPos[x.key]))
		case byRow && x.rows > 0:
			*x.to = number(x.rows, quantity.Current, out.Row.Origin)
		}
	}
}

// UsualVoltageV is what the currents of rows are at where they do not say it, and a supply where nobody says it, V.
const UsualVoltageV = 230

// UsualVoltageSource says where that is from.
const UsualVoltageSource = quantity.Text("IEC 60038: 230 V; 120 or 240 V in North America")

// voltageOf is the voltage of a unit's supply: of the circuit that feeds it, else by its plate, else
// the usual one. A unit of one phase on a circuit of three stands at what its plate says.
func (s *Stage) voltageOf(p *graph.Part, u *graph.UnitData) Value {
	ofOne := u.VoltageV > 0 && u.VoltageV < catalog.ThreePhasesFromV
	if of := s.Circuit.SupplyOf(p); of != nil && of.VoltageV.Set && of.VoltageV.V > 0 && (of.VoltageV.V < catalog.ThreePhasesFromV || !ofOne) {
		return number(of.VoltageV.V, quantity.Voltage, given(of.KeyPos["voltage"]))
	}
	if u.VoltageV > 0 {
		return number(u.VoltageV, quantity.Voltage, given(p.KeyPos["electric"]))
	}
	return number(UsualVoltageV, quantity.Voltage, assumed(UsualVoltageSource))
}

// usualDirty is what a dirty filter costs over a clean one. Common practice, no source.
const usualDirty = 3

// settlePressures settles what a part stands.
func (s *Stage) settlePressures(out *Part) {
	p := out.Part
	switch {
	case p.HighestPressurePa > 0:
		out.Highest = number(p.HighestPressurePa, quantity.Pressure, given(p.KeyPos["highest-pressure"]))
	case out.Row.V.RatingPa > 0:
		out.Highest = number(out.Row.V.RatingPa, quantity.Pressure, saysSo(out.Row, "rating"))
	default:
		return
	}
	if !p.Kind.Plumbing() {
		return // its sheet says it for water at the temperatures of use
	}
	factor, _ := tables.Derating(ratedAs(out), s.Water.TemperatureC.V)
	out.Derated = number(out.Highest.V*factor, quantity.Pressure, ofKeys(Key{p.ID, "highest pressure"}, Key{waterID, "temperature"}))
}

// ratedAs is the spec by whose table a fitting is derated: its own, its row's, or that of the pipe it
// is for.
func ratedAs(out *Part) catalog.Spec {
	if out.Part.Spec == "" && out.Row.V.Spec != "" {
		return out.Row.V.Spec
	}
	return out.Spec.V
}
