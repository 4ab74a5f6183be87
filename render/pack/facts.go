package pack

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
	"dryfit/graph/rule"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
	"dryfit/graph/takeoff"
	"dryfit/render/drawing"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// jobIn is a job's facts and the units its papers are written in.
type jobIn struct {
	*practice.Job
	units quantity.System
}

// say words a text.
func (j jobIn) say(t quantity.Text) string { return t.In(j.units) }

// said words what practice says of the job.
func (j jobIn) said(lists ...[]practice.Sentence) []string {
	return practice.Texts(practice.Pick(j.Job, slices.Concat(lists...)), j.units)
}

// saidTo is said of those sentences alone that are for a reader.
func (j jobIn) saidTo(who practice.Reader, lists ...[]practice.Sentence) []string {
	all := practice.Pick(j.Job, slices.Concat(lists...))
	return practice.Texts(slices.DeleteFunc(all, func(s practice.Said) bool { return s.For&who == 0 }), j.units)
}

// factsOf gathers what the sentences of practice ask of a job.
func factsOf(p *plan.Plan, units quantity.System) jobIn {
	j := &practice.Job{}
	if p.After == nil {
		return jobIn{j, units}
	}
	f := facts{p: p, c: p.After.Circuit, j: j, names: tag.Of(p.Circuit, p.Net()), set: p.After.Layout.Stage, net: p.After.Layout.Stage.Net()}
	c := f.c
	j.Water = f.set.Water.TemperatureC.V
	j.Cold = f.set.KeptCold()
	for _, e := range f.net.OtherSources() {
		j.Others = append(j.Others, f.names.Tag(e.ID))
	}
	j.SiteAir = practice.Temp{C: c.Site.AirC, Known: c.Site.AirSet}
	j.WarmRoom = c.Site.KeepsFromFreezing()
	j.Region, j.Earthing, j.OldPipe = c.Site.Region, c.Site.Earthing, c.Pipe.Material
	for _, e := range c.OfKind(graph.ElementHeater) {
		if f.net.Apart(e) {
			continue
		}
		one := practice.Element{ID: f.names.Tag(e.ID)}
		if e.Element != nil {
			one.Disconnected, one.Interlock = e.Element.Disconnected, e.Element.Interlock
			if power := f.set.Part(e.ID).Power; power.How != settle.Assumed {
				one.PowerW = power.V
			}
			one.SetPoint = practice.Temp{C: e.Element.SetPointC, Known: e.Element.SetPointSet}
		}
		j.Elements = append(j.Elements, one)
	}
	if u := c.TheUnit(); u != nil && len(f.net.At(u)) > 0 { // one that nothing joins is not built
		f.unit(u)
		if b, _ := f.net.UnitBranch(u); b != nil {
			f.branch(b)
		}
	} else if pump := f.net.HeaterPump(); pump != nil {
		f.pump(pump)
	}
	f.suctions()
	f.work()
	j.AnyJets = len(c.OfKind(graph.JetGroup)) > 0
	j.NoCabinet = c.Cabinet == nil && !j.PlugIn && (j.Filter == settle.Sand || !j.AnyJets)
	j.Bands = drawing.HasBands(p)
	j.MarkedOut = len(table.MarkingBlocks(p, form.Style{Units: units})) > 0
	return jobIn{j, units}
}

// facts is the gathering.
type facts struct {
	p     *plan.Plan
	c     *graph.Circuit
	j     *practice.Job
	names *tag.Names
	set   *settle.Stage
	net   *stream.Net
}

func (f *facts) tags(parts []*graph.Part, want func(graph.Kind) bool) []string {
	var out []string
	for _, p := range parts {
		if want(p.Kind) {
			out = append(out, f.names.Tag(p.ID))
		}
	}
	return out
}

func (f *facts) level(p *graph.Part) practice.Level {
	below, ok := f.p.After.Layout.Below(p)
	switch {
	case !ok:
		return practice.LevelUnknown
	case below > 0:
		return practice.BelowWater
	}
	return practice.AboveWater
}

func (f *facts) unit(u *graph.Part) {
	one := f.oneUnit(u)
	f.j.Unit, f.j.UnitPa = &one, f.set.Part(u.ID).Highest.V
	for _, other := range f.c.Units() {
		if other != u && len(f.net.At(other)) > 0 {
			f.j.Fellows = append(f.j.Fellows, f.oneUnit(other))
			if pa := f.set.Part(other.ID).Highest.V; pa < f.j.UnitPa {
				f.j.UnitPa = pa // the weakest decides what a test may put on them
			}
		}
	}
	if len(f.j.Fellows) > 0 {
		f.switches()
	}
}

func (f *facts) oneUnit(u *graph.Part) practice.Unit {
	unit := practice.Unit{ID: f.names.Tag(u.ID), New: u.New(), Level: f.level(u), Fed: f.fed(u)}
	if d := u.Unit; d != nil {
		unit.SetPoint = practice.Temp{C: d.SetPointC, Known: d.SetPointSet}
		st := f.set.Part(u.ID)
		if st == nil && f.p.Before != nil { // it is taken out
			st = f.p.Before.Layout.Stage.Part(u.ID)
		}
		if st != nil {
			unit.LeastAir = practice.Temp{C: st.LeastAir.V, Known: st.LeastAir.Known}
		}
		unit.StopsAtHighLimit, unit.DrainPlug = d.StopsAtHighLimit, d.DrainPlug
		unit.Refrigerant, unit.Flammable, unit.StandsOn = d.Refrigerant, d.Flammable(), d.StandsOn
		unit.Inside = d.Outdoors != nil && !*d.Outdoors
	}
	return unit
}

// fed is what the description says of the circuit a unit hangs on: who else draws from it.
func (f *facts) fed(u *graph.Part) practice.Fed {
	s := f.c.SupplyOf(u)
	if s == nil {
		return practice.Fed{}
	}
	named := map[string]bool{}
	for _, other := range f.c.Supplies {
		for _, id := range other.Feeds {
			named[id] = true
		}
	}
	out := practice.Fed{Said: true, Way: s.Connection, RatingA: s.RatingA.V}
	for _, p := range f.c.Parts {
		on := slices.Contains(s.Feeds, p.ID) || len(s.Feeds) == 0 && !named[p.ID]
		if on && p != u && !p.Removed && draws(p) {
			out.Sharers = append(out.Sharers, f.names.Tag(p.ID))
		}
	}
	out.Sharers = practice.ByNumber(out.Sharers)
	return out
}

// draws reports whether a part draws current from a supply.
func draws(p *graph.Part) bool {
	switch p.Kind {
	case graph.HeatPump, graph.Pump, graph.Blower:
		return true
	case graph.ElementHeater:
		return p.Element == nil || !p.Element.Disconnected
	}
	return false
}

// switches names, for every unit, the valves that shut it off and no other.
func (f *facts) switches() {
	branches := f.net.Branches()
	for _, b := range branches {
		to, _ := b.Isolators()
		own := slices.DeleteFunc(slices.Clone(to), func(v *graph.Part) bool {
			return slices.ContainsFunc(branches, func(o stream.Branch) bool {
				others, _ := o.Isolators()
				return o.Unit != b.Unit && slices.Contains(others, v)
			})
		})
		one := practice.Switch{Unit: f.names.Tag(b.Unit.ID), Shared: len(own) == 0}
		if one.Shared {
			own = to
		}
		for _, v := range own {
			one.Valves = append(one.Valves, f.names.Tag(v.ID))
		}
		if len(one.Valves) > 0 {
			f.j.Switches = append(f.j.Switches, one)
		}
	}
}

func (f *facts) pump(p *graph.Part) {
	f.j.Pump = practice.Pump{ID: f.names.Tag(p.ID), Above: p.BelowWaterSet && p.BelowWaterMM < 0}
	f.j.TwoSpeeds = len(p.SpeedNames()) > 1
	f.j.HoseAtPump = slices.ContainsFunc(f.net.Leaving(p), func(r *graph.Run) bool {
		return !r.New() && r.Spec.IsHose() && (r.LengthMM > 0 || len(r.Legs) > 0)
	})
	f.j.Slow, f.j.Fast = rule.SlowAndFast(f.set.Part(p.ID), f.set.Water)
	if p.Pump != nil {
		f.j.Pump.AlwaysOn, f.j.Pump.RunsForHeat = p.Pump.AlwaysOn, p.Pump.RunsForHeat
		f.j.Pump.PowerW = f.set.Part(p.ID).LeastPower().V
	}
	f.j.GreatestPa, _ = rule.GreatestPressure(f.set, p)
	if filter := f.net.Upstream(p).First(graph.Filter); filter != nil {
		f.filter(filter)
	} else if filter := f.net.Downstream(p).First(graph.Filter); filter != nil {
		f.filter(filter)
	}
	f.j.Diverter = f.net.Downstream(p).First(graph.DiverterValve) != nil
	f.j.Jets = f.net.Downstream(p).First(graph.JetGroup) != nil
}

// filter says what the filter is of.
func (f *facts) filter(p *graph.Part) { f.j.Filter = f.set.Part(p.ID).Media() }

func (f *facts) branch(b *stream.UnitBranch) {
	byHand := func(k graph.Kind) bool { return k.IsHandValve() }
	j := f.j
	for _, each := range f.net.Branches() {
		f.valves(each.UnitBranch)
	}
	pockets := func(k graph.Kind) bool { return k == graph.ThermometerPocket }
	j.Pockets = len(f.tags(slices.Concat(b.ToUnitParts, b.StubParts), pockets)) > 0 && len(f.tags(slices.Concat(b.FromUnitParts, b.StubParts), pockets)) > 0
	if b.Pump != nil {
		f.pump(b.Pump)
	}
	if e := b.Element(); e != nil && e.Kind.IsHandValve() {
		j.Shut = f.p.After.StandsShut(e.ID)
	}
	if e := b.Element(); e != nil && e.Kind == graph.CheckValve {
		j.Check, j.CheckAt = f.names.Tag(e.ID), f.level(e)
		j.Aside = rule.PassesCheck(b, e)
		for _, p := range b.BypassParts {
			if byHand(p.Kind) && rule.BesideCheck(b, p, e) {
				j.Beside = append(j.Beside, f.names.Tag(p.ID))
			}
		}
		j.Planned = f.p.Proposal != nil && e.New()
	}
	for i := range f.p.After.Isolated {
		sol := &f.p.After.Isolated[i]
		if sol.Unit != b.Unit.ID {
			continue
		}
		one := practice.Passing{Mode: f.names.Mode(sol.Mode.Name), Least: rule.WantedPastUnit(f.set, b, f.p.After.Solution(sol.Mode.Name))}
		_, one.Flow = rule.LineFlow(f.net, &sol.Solution, b)
		j.Passing = append(j.Passing, one)
	}
}

// valves adds what shuts one unit off, leads the water past it and empties its pipes: with several
// units, all are shut off where it is said that they are.
func (f *facts) valves(b *stream.UnitBranch) {
	j := f.j
	to, from := b.Isolators()
	way := practice.Way{Unit: f.names.Tag(b.Unit.ID), Past: f.tags(b.BypassParts, graph.Kind.IsHandValve)}
	way.Isolators = practice.ByNumber(f.tags(slices.Concat(to, from), graph.Kind.IsHandValve))
	j.Ways = append(j.Ways, way)
	join := func(list *[]string, more []string) {
		for _, t := range more {
			if !slices.Contains(*list, t) {
				*list = append(*list, t)
			}
		}
		*list = practice.ByNumber(*list)
	}
	join(&j.To, f.tags(to, graph.Kind.IsHandValve))
	join(&j.From, f.tags(from, graph.Kind.IsHandValve))
	join(&j.Bypass, way.Past)
	join(&j.Drains, f.tags(b.StubParts, func(k graph.Kind) bool { return k == graph.DrainValve }))
	join(&j.Bleeds, f.tags(b.StubParts, func(k graph.Kind) bool { return k == graph.AirBleed }))
}

// suctions names the hand valves between tub and pumps.
func (f *facts) suctions() {
	for _, pump := range f.c.Pumps() {
		if pump.BelowWaterSet && pump.BelowWaterMM < 0 {
			f.j.Dry = append(f.j.Dry, f.names.Tag(pump.ID))
		}
		for _, t := range f.tags(f.net.Suction(pump).Parts, func(k graph.Kind) bool { return k.IsHandValve() }) {
			if !slices.Contains(f.j.Suctions, t) {
				f.j.Suctions = append(f.j.Suctions, t)
			}
		}
	}
}

// work says what of pipe and joints the job has.
func (f *facts) work() {
	f.parts(f.pipes())
	j, lay := f.j, f.p.After.Layout
	if lay == nil {
		return
	}
	j.Pieces = len(lay.Pieces) > 0
	for _, at := range lay.NewTails(f.p.Circuit) {
		if t := f.names.Tag(at.Part); !slices.Contains(j.Tails, t) {
			j.Tails = append(j.Tails, t)
		}
	}
	for i := range lay.Pieces {
		sawn := lay.Pieces[i].Spec.Sawn()
		j.Saws, j.NewCutHose = j.Saws || sawn, j.NewCutHose || !sawn
	}
	if f.p.Bill != nil {
		j.Marked = slices.ContainsFunc(f.p.Bill.Items, func(i takeoff.Item) bool { return i.Measure })
	}
	j.Bench = f.p.Assembly != nil && slices.ContainsFunc(f.p.Assembly.Steps, func(s route.Step) bool { return s.Phase == route.Bench })
	if f.p.Cuts != nil {
		j.Over = slices.ContainsFunc(f.p.Cuts.Pieces, func(c route.Piece) bool { return c.OverMM > 0 })
	}
	j.OnSite = slices.ContainsFunc(lay.Pieces, func(piece route.Piece) bool { return piece.OnSite })
	for _, part := range f.p.After.Circuit.Parts {
		j.Arrows = j.Arrows || part.New() && part.Kind == graph.CheckValve
	}
	j.Holes = f.holes()
	f.joints(lay.Joints)
}

// holes are the holes that new pipe wants in the walls of the cabinet, wall by wall and size by size.
func (f *facts) holes() []practice.Hole {
	var out []practice.Hole
	for _, h := range solid.Holes(f.p.After.Layout) {
		var place []quantity.Text
		for _, by := range []graph.Vec{{Y: h.At.Y}, {X: h.At.X}, {Z: h.At.Z}} {
			if mm := by.Len(); mm > 0.5 {
				place = append(place, quantity.Say("%s %s", graph.WayWord(by), quantity.Length.Of(mm)))
			}
		}
		out = append(out, practice.Hole{Wall: h.Wall, Piece: h.Piece, PipeMM: h.OutsideMM, Middle: quantity.Join(place, ", "),
			From: quantity.Say("port %s of %s", h.From.Port, f.names.Short(h.From.Part)), Later: len(f.p.OnSite) > 0})
	}
	slices.SortStableFunc(out, func(a, b practice.Hole) int {
		return cmp.Or(cmp.Compare(a.Wall, b.Wall), cmp.Compare(a.PipeMM, b.PipeMM))
	})
	return out
}

// pipes says what the job cuts, joins and takes out of pipe, and returns the names of what goes.
func (f *facts) pipes() (gone []string) {
	j := f.j
	old, hose := 0, 0
	for _, r := range f.p.Circuit.Runs {
		hosed := r.Spec.IsHose()
		j.Cuts, j.CutsHose = j.Cuts || r.RemainsOf != "" && !hosed, j.CutsHose || r.RemainsOf != "" && hosed
		j.Removes = j.Removes || r.Removed
		if r.Removed && !f.remains(r.ID) {
			what := "the pipe "
			if hosed {
				what = "the hose "
			}
			gone = append(gone, what+f.names.Run(r.ID))
			j.GoneRigid = j.GoneRigid || !hosed
		}
		j.JoinsOld = j.JoinsOld || !r.New() && !r.Removed && !r.Spec.IsHose() && f.meetsNew(r)
		if r.New() {
			j.Outdoors, j.NewHose = j.Outdoors || r.Outside || r.Insulated, j.NewHose || hosed
			j.Wall = j.Wall || r.ThroughWall
		} else if r.LengthMM > 0 || len(r.Legs) > 0 {
			old++
			if r.Spec.IsHose() {
				hose++
			}
		}
	}
	j.PlugIn = old > 0 && old == hose && f.boxed()
	return gone
}

// parts says what the job has and takes out of parts, the pipes that go with them.
func (f *facts) parts(pipes []string) {
	j := f.j
	for _, part := range f.p.Circuit.Parts {
		j.Removes = j.Removes || part.Removed
		if part.Removed && part.Kind == graph.HeatPump {
			j.Leaves = append(j.Leaves, f.oneUnit(part))
		}
		j.Valves = j.Valves || !part.Removed && (part.Kind.IsHandValve() || part.Kind == graph.CheckValve || part.Kind == graph.DrainValve)
		if part.Removed {
			if part.Kind != graph.HeatPump { // a step of its own carries it off
				j.Gone = append(j.Gone, f.names.Short(part.ID))
			}
			if o, ok := outOf(part, f.names.Short(part.ID)); ok {
				if i := slices.IndexFunc(f.p.Circuit.Parts, func(n *graph.Part) bool { return n.New() && n.Kind == part.Kind }); i >= 0 {
					o.Instead = f.names.Short(f.p.Circuit.Parts[i].ID)
				}
				j.Out = append(j.Out, o)
			}
		}
		j.Skimmer = j.Skimmer || part.Kind == graph.Tub && slices.ContainsFunc(part.Ports, func(port graph.Port) bool {
			return port.AtSurface()
		})
	}
	switch {
	case len(j.Gone) > 0 && len(pipes) > 0:
		j.Gone = append(j.Gone, pipesWith(len(j.Gone), pipes)...)
	case len(pipes) > 0:
		j.Gone = pipes
	}
}

// mostPipesNamed is how many pipes that go with parts are named one by one.
const mostPipesNamed = 2

// pipesWith is what is said of the pipes that are taken out with so many parts: the schematic crosses them wherever
// they lie, beyond those parts too.
func pipesWith(parts int, pipes []string) []string {
	if len(pipes) <= mostPipesNamed {
		return pipes
	}
	them := "them"
	if parts == 1 {
		them = "it"
	}
	what := "pipes"
	switch hoses := len(slices.DeleteFunc(slices.Clone(pipes), func(name string) bool { return !strings.HasPrefix(name, "the hose ") })); {
	case hoses == len(pipes):
		what = "hoses"
	case hoses > 0:
		what = "pipes and hoses"
	}
	return []string{"the " + strconv.Itoa(len(pipes)) + " " + what + " that go with " + them}
}

// joints says by what the new work is joined, and how long its cement takes.
func (f *facts) joints(joints []route.Joint) {
	j := f.j
	for _, joint := range joints {
		switch joint.Kind {
		case "cement", "slip":
			j.Cement = true
			j.Flexible = j.Flexible || joint.Spec.Flexible()
			j.Metric = j.Metric || joint.Spec.Family() == catalog.Metric
			j.Inch = j.Inch || joint.Spec.Family() != catalog.Metric
		case "barb":
			j.Barbs = true
		case "thread":
			j.Threads = true
		case "union":
			j.UnionNuts = true
		}
	}
	if sizes := cementSizes(f.p); len(sizes) > 0 {
		warm, cold := cureAt(sizes, coldAir), cureAt(sizes, leastAir)
		j.Hold = quantity.Say("%s at %s and above, %s below that", hours(warm), quantity.Temperature.About(coldAir), hours(cold))
	}
}

// remains reports whether something is left of an old run.
func (f *facts) remains(run string) bool {
	return slices.ContainsFunc(f.p.Circuit.Runs, func(r *graph.Run) bool { return r.RemainsOf == run })
}

// meetsNew reports whether an old run with pipe in it ends at a new part.
func (f *facts) meetsNew(r *graph.Run) bool {
	if r.LengthMM == 0 && len(r.Legs) == 0 {
		return false
	}
	for _, end := range []graph.PortRef{r.From, r.To} {
		if p := f.p.Circuit.Part(end.Part); p != nil && p.New() && p.Kind != graph.Union {
			return true
		}
	}
	return false
}

// boxed reports whether pump and heater, or pump and filter, touch each other, as they do in
// the box of a plug-in tub.
func (f *facts) boxed() bool {
	for _, r := range f.p.Circuit.Runs {
		a, b := f.p.Circuit.Part(r.From.Part), f.p.Circuit.Part(r.To.Part)
		if !r.Existing || r.LengthMM > 0 || len(r.Legs) > 0 || a == nil || b == nil {
			continue
		}
		inBox := func(k graph.Kind) bool { return k == graph.Filter || k == graph.ElementHeater }
		if a.Kind == graph.Pump && inBox(b.Kind) || b.Kind == graph.Pump && inBox(a.Kind) {
			return true
		}
	}
	return false
}

// outOf is what the papers say of equipment that is taken out; false for what only joins pipe.
func outOf(p *graph.Part, name string) (practice.Out, bool) {
	o := practice.Out{Name: name}
	switch p.Kind {
	case graph.HeatPump, graph.Filter, graph.JetGroup, graph.HeatExchanger, graph.AirControl:
	case graph.ElementHeater:
		o.Element = true
	case graph.Pump, graph.Blower, graph.FlowSwitch, graph.PressureSwitch:
		o.Wired = true
	case graph.SaltCell, graph.UVChamber, graph.OzoneInjector:
		o.Wired, o.Treats = true, true
	case graph.Feeder:
		o.Treats = true
	default:
		return o, false
	}
	return o, true
}
