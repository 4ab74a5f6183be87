package job

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// supplies works out what each circuit of the supply carries. Without any [[supply]] one that
// feeds everything is listed, so that the currents are there to plan by.
func supplies(in *Input, s *scene, b *builder) []Supply {
	list := in.Stage.Circuit.Supplies
	if len(list) == 0 {
		list = []graph.Supply{{}}
	}
	fed := map[string]bool{}
	for i := range list {
		for _, id := range list[i].Feeds {
			fed[id] = true
		}
	}
	var out []Supply
	for i := range list {
		out = append(out, b.supply(in, s, &list[i], fed))
	}
	return out
}

func (b *builder) supply(in *Input, s *scene, from *graph.Supply, fed map[string]bool) Supply {
	out := Supply{Feeds: from.Feeds, RatingA: from.RatingA.V, Pos: from.Pos, Plug: from.Connection == "plug"}
	feeds := func(p *settle.Part) bool {
		return !p.Removed && (slices.Contains(from.Feeds, p.ID) || len(from.Feeds) == 0 && !fed[p.ID])
	}
	out.VoltageV = from.VoltageV.Or(0)
	for _, p := range in.Stage.Parts { // the plate of a unit says it of the circuit it is on, and of no other
		if out.VoltageV <= 0 && feeds(p) && p.Voltage.How == settle.Given {
			out.VoltageV = p.Voltage.V
		}
	}
	if out.VoltageV <= 0 {
		out.VoltageV = settle.UsualVoltageV
		if from.Pos.IsValid() {
			b.assume("voltage of "+supplyOf(from, in.Stage.Circuit), out.VoltageV, quantity.Voltage, settle.UsualVoltageSource, 0, 0, nil)
		}
	}
	if out.RatingA > 0 && from.Continuous.Set {
		out.LongA = out.RatingA * from.Continuous.V
	}
	for _, p := range in.Stage.Parts {
		if feeds(p) {
			out.FuseA = max(out.FuseA, p.Fuse.V)
			out.Loads = append(out.Loads, b.consumers(in, s, p, out.VoltageV)...)
		}
	}
	if len(out.Loads) == 0 {
		return out
	}
	if phases, one := catalog.Phases(out.VoltageV); phases > 1 {
		b.assume("phases of "+supplyOf(from, in.Stage.Circuit), phases, number, threePhases(out.VoltageV, one), 0, 0, nil)
	} else if out.betweenTwo() {
		b.assume("phases of "+supplyOf(from, in.Stage.Circuit), 3, number, betweenTwo(out.VoltageV), 0, 0, nil)
	}
	out.Together = heat.Sets(out.Loads, out.RatingA, out.LongA)
	b.cable(from, &out)
	if from.Impedance.Set {
		most := 0.0
		for _, c := range out.Loads {
			most = math.Max(most, math.Max(c.StartA, c.RunningA))
		}
		out.DipV = heat.Dip(most, from.Impedance.V)
	}
	out.Says = b.says(from, &out)
	return out
}

// supplyOf names a circuit of the supply: where there are several, by what it feeds.
func supplyOf(from *graph.Supply, c *graph.Circuit) quantity.Text {
	switch {
	case len(c.Supplies) < 2:
		return "the supply"
	case len(from.Feeds) == 0:
		return "the supply of all that no other feeds"
	}
	named := make([]string, len(from.Feeds))
	for i, id := range from.Feeds {
		named[i] = strconv.Quote(id)
	}
	return quantity.Text("the supply of " + strings.Join(named, ", "))
}

// threePhases is why a supply of a voltage [V] is taken to have three phases, and what of it may be less;
// one is the voltage of one of them [V].
func threePhases(voltage, one float64) quantity.Text {
	return graph.Say("%s is more than one phase has (IEC 60038, from memory): taken to be between two of three, with pumps and element from one of them to the neutral, at %s; what stands between two, or on all three, draws less of each", quantity.Voltage.Of(voltage), quantity.Voltage.Of(one))
}

// betweenTwo is why what nobody gives all three phases of a supply of a voltage [V] is counted between two.
func betweenTwo(voltage float64) quantity.Text {
	return graph.Say("%s stands between two of three phases (North America, from memory), or some of its loads stand on three: what does not say phases = 3 is counted between the same two; on all three it draws %s %% of that of each", quantity.Voltage.Of(voltage), "58")
}

// betweenTwo reports whether a supply below what one phase has at most has three phases all the same, and
// something on it is counted between two of them: at 208 V, or where a load stands on all three.
func (s *Supply) betweenTwo() bool {
	three := s.VoltageV >= 200 && s.VoltageV <= 216 // 208 V and what its plates are printed with
	some := false
	for _, c := range s.Loads {
		three, some = three || c.Balanced, some || !c.Balanced
	}
	phases, _ := catalog.Phases(s.VoltageV)
	return phases == 1 && three && some
}

func (b *builder) cable(from *graph.Supply, out *Supply) {
	if from.Cable == nil || !from.Cable.LengthMM.Set {
		return
	}
	c := heat.Cable{SizeMM2: from.Cable.SectionMM2.V, LengthM: from.Cable.LengthMM.V / 1e3, Kind: from.Cable.Kind, DropVperAm: from.Cable.DropMVAM.V / 1e3}
	per, source := c.PerAmpereMetre(1)
	if per <= 0 {
		return
	}
	out.Drop, out.DropFrom = true, source
	worst := out.Together[0]
	phases, one := catalog.Phases(out.VoltageV)
	onOne := out.onOnePhase(worst)
	if phases > 1 {
		out.DropV = c.Drop(worst.RunningA, onOne, 1) * out.VoltageV / one
		return
	}
	out.DropV = c.Drop(math.Sqrt(3)*(worst.RunningA-onOne)+onOne, onOne, 1) // between two of three, where some stands on all
}

// onOnePhase returns what those of a set draw that run on one phase, A: what returns by the neutral.
func (s *Supply) onOnePhase(set heat.Set) float64 {
	sum := 0.0
	for _, c := range s.Loads {
		if !c.Balanced && slices.Contains(set.IDs, c.ID) {
			sum += c.RunningA
		}
	}
	return sum
}

// OnOneOfThree reports whether the supply has three phases and something of a set is taken to run on one
// of them, so that it may be less that one bears.
func (s *Supply) OnOneOfThree(set heat.Set) bool {
	phases, _ := catalog.Phases(s.VoltageV)
	return phases > 1 && s.onOnePhase(set) > 0
}

// consumers returns what a part draws of the phase that bears most, on which all that runs on one
// phase is taken to hang: a pump of several speeds as alternatives, the element and the unit as
// alternatives where something keeps them apart.
func (b *builder) consumers(in *Input, s *scene, p *settle.Part, voltage float64) []heat.Consumer {
	switch p.Kind {
	case graph.HeatPump:
		return []heat.Consumer{b.unitLoad(in, s, p, voltage)}
	case graph.ElementHeater:
		if p.Element == nil || p.Element.Disconnected {
			return nil
		}
		c := load(p.ID, b.powerOf(p, "element"), voltage, p.Element.Electric.PowerFactor.Or(1), p.Element.Electric, heat.StartsElement)
		if keepsApart(p.Element.Interlock) && in.Unit != nil {
			c.Alternative, c.Together = unitOrElement, "elements"
		}
		return []heat.Consumer{c}
	case graph.Pump:
		return b.pumpLoads(p, voltage)
	case graph.Blower:
		e := graph.Electric{}
		if p.Blower != nil {
			e = p.Blower.Electric
		}
		return []heat.Consumer{load(p.ID, b.powerOf(p, "blower"), voltage, b.factor(p, e), e, heat.StartsBlower)}
	}
	return nil
}

// unitOrElement groups the units and the elements that never run together: the units do among
// themselves, and so do the elements.
const unitOrElement = "unit or element"

// keepsApart reports whether an interlock never lets unit and element heat at once. A contact of
// the unit releases the element to help, so that both run.
func keepsApart(interlock string) bool { return interlock == graph.InterlockChangeover }

// factor is the power factor of a motor, as given or assumed.
func (b *builder) factor(p *settle.Part, e graph.Electric) float64 {
	if e.PowerFactor.Set {
		return e.PowerFactor.V
	}
	return b.assumeOf(p.Part, quantity.Text("power factor of "+name(p.Part)), catalog.MotorFactor, number, "from memory; say power-factor where its plate does", 0, 0, nil)
}

// load is what a motor or an element of a power [W] draws of a supply of a voltage [V].
func load(id string, power, voltage, factor float64, e graph.Electric, starts float64) heat.Consumer {
	phases, one := catalog.PhasesOf(voltage, e.Phases)
	if e.Phases < 3 {
		phases = 1 // of three it is taken to stand on one
	}
	a := heat.Current(power/phases, one, factor)
	return heat.Consumer{ID: id, Part: id, RunningA: a, StartA: math.Max(a, e.StartingA.Or(a*starts)), Balanced: e.Phases == 3}
}

func (b *builder) pumpLoads(p *settle.Part, voltage float64) []heat.Consumer {
	e := graph.Electric{}
	if p.Pump != nil {
		e = p.Pump.Electric
	}
	speeds, factor := p.Speeds.V, 1.0
	for _, speed := range speeds {
		if n, _ := catalog.PhasesOf(speed.PlateV, e.Phases); n > 1 {
			e.Phases = 3
		}
	}
	if slices.ContainsFunc(speeds, func(s graph.Speed) bool { return s.PlateA <= 0 }) {
		factor = b.factor(p, e)
	}
	var out []heat.Consumer
	for _, speed := range speeds {
		power := b.pumpPower(p, speed.Name, nil)
		starts := heat.StartsPump
		if power < 200 {
			starts = heat.StartsSmallPump
		}
		c := load(p.ID, power, voltage, factor, e, starts)
		if speed.PlateA > 0 { // its plate has it
			at := voltage
			if n, _ := catalog.Phases(speed.PlateV); n == 1 && e.Phases < 3 {
				_, at = catalog.Phases(voltage)
			}
			c.RunningA = speed.PlateA * speed.PlateV / at
			c.StartA = math.Max(c.RunningA, e.StartingA.Or(c.RunningA*starts))
		}
		if len(speeds) > 1 {
			c.ID, c.Speed, c.Alternative = p.ID+" ("+speed.Name+")", speed.Name, "pump "+p.ID
		}
		out = append(out, c)
	}
	return out
}

func (b *builder) unitLoad(in *Input, s *scene, p *settle.Part, voltage float64) heat.Consumer {
	d := p.Unit
	if d.VoltageV > 0 && d.Electric.Phases < 3 {
		if n, _ := catalog.Phases(d.VoltageV); n == 1 {
			_, voltage = catalog.Phases(voltage)
		}
	}
	phases, one := catalog.PhasesOf(voltage, d.Electric.Phases)
	c := heat.Consumer{ID: p.ID, Part: p.ID, RunningA: p.FullLoad.V, StartA: p.Starting.V, Balanced: phases > 1}
	if p.FullLoad.Known && p.FullLoad.How != settle.Given && p.FullLoad.How != settle.OwnRow {
		b.assumeOf(p.Part, quantity.Text("full-load current of "+name(p.Part)), c.RunningA, quantity.Current, cmp.Or(p.Row.V.ElectricSource, p.Row.V.Source), 0, 0, nil)
		b.assumed[len(b.assumed)-1].Settled = true
	}
	if s.planned != nil && c.RunningA <= 0 {
		most, ratings := 0.0, unitOf(p, in.Fluid).Ratings
		if len(ratings) == 0 {
			ratings = b.fromRow(p.Row.V).Ratings
		}
		for _, r := range ratings {
			most = math.Max(most, r.InputW)
		}
		c.RunningA = b.assumeOf(p.Part, quantity.Text("full-load current of "+name(p.Part)), heat.Current(most/phases, one, d.Electric.PowerFactor.Or(heat.FactorUnit)), quantity.Current, "from the largest input of its ratings; the plate beats it", 0, 0, nil)
	}
	starts := heat.StartsCompressor
	if d.Inverter {
		starts = heat.StartsInverter
	}
	if !p.Starting.Known {
		c.StartA = c.RunningA * starts
	}
	c.StartA = math.Max(c.RunningA, c.StartA)
	for _, e := range in.Stage.Circuit.OfKind(graph.ElementHeater) {
		if e.Element != nil && !e.Element.Disconnected && keepsApart(e.Element.Interlock) {
			c.Alternative, c.Together = unitOrElement, "units"
		}
	}
	return c
}
