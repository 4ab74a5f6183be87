package plan

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/stage"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
	"dryfit/graph/takeoff"
)

// HeatOf answers a question about a plan's heat, money and supply, from its solved flows and
// its lists where it has them.
func HeatOf(p *Plan, ask job.Ask) *job.Report {
	account := p.HeatAccount(ask)
	weather, problems := WeatherOf(p.Circuit.Climate)
	more := job.More{Weather: weather, Bill: p.bill()}
	unit, mode := account.Heats()
	if weather != nil {
		more.Sample = p.sampledFlows(mode)
	}
	more.OfSize = p.flowsOf(account.Neighbours(), unit, mode)
	r := account.Answer(more)
	r.Problems = append(problems, r.Problems...)
	return r
}

// flowsOf solves the heating mode with units of the catalogue in the unit's place, and returns
// the flow each gets, m³/s, by its row's name; those without an answer are left out.
func (p *Plan) flowsOf(rows []string, unit *settle.Part, mode string) map[string]float64 {
	if unit == nil || p.After == nil || mode == "" {
		return nil
	}
	out := map[string]float64{}
	for _, row := range rows {
		q := p.InPlace(row, mode)
		if q == nil {
			return nil
		}
		for i := range q.After.Solutions {
			out[row] = math.Abs(q.After.Solutions[i].Part(unit.ID).Flow)
		}
	}
	return out
}

// sampledFlows returns the unit's flow in a mode at the points of the sample that a year's ranges
// stand on: of the ranges there are, else of ranges made at those points alone.
func (p *Plan) sampledFlows(mode string) job.Sampled {
	if p.After == nil || mode == "" {
		return job.Sampled{}
	}
	r := p.Ranges
	if r == nil {
		r = spread.Sample(p.Before.LaidOut(), p.After.Layout, p.unitID(), p.throttle())
	}
	out := job.Sampled{Points: r.Few(), All: r.All()}
	of := r.Of(mode, graph.After)
	if of == nil {
		return out
	}
	at := map[int]float64{}
	for n, i := range r.Points {
		at[i] = of.UnitFlow[n]
	}
	for _, i := range out.Points {
		flow, ok := at[i]
		if !ok {
			flow = math.NaN()
		}
		out.FlowM3s = append(out.FlowM3s, flow)
	}
	return out
}

// design works out the coldest day and the supply; nil where the description has neither.
func (p *Plan) design() *job.DesignDay {
	if !p.Circuit.Site.AirSet && len(p.Circuit.Supplies) == 0 {
		return nil
	}
	d := p.HeatAccount(job.Ask{}).Design()
	return &d
}

// HeatAccount settles the heat of a job; the description's own is settled once, and what all
// hang on is gathered once.
func (p *Plan) HeatAccount(ask job.Ask) *job.Account {
	own := ask == job.Ask{}
	if own && p.account != nil {
		return p.account
	}
	if p.heatOf == nil {
		in := p.heatInput()
		p.heatOf = &in
	}
	in := *p.heatOf
	in.Ask = ask
	account := job.NewAccount(in)
	if own {
		p.account = account
	}
	return account
}

// heatInput gathers what heat hangs on.
func (p *Plan) heatInput() job.Input {
	c := p.Circuit
	stage := p.After
	if stage == nil {
		stage = p.Before
	}
	var in job.Input
	settled := settleOf(stage, c)
	in.Stage, in.SetC = settled, settled.Water.TemperatureC.V
	in.Fluid = heat.Fluid{Density: settled.Water.Density.V, Capacity: formula.HeatCapacity(in.SetC)}
	if stage == nil {
		return in
	}
	if unit := stage.Circuit.TheUnit(); unit != nil {
		in.Unit = settled.Part(unit.ID)
	}
	branch, _ := settled.Branch()
	in.Heating = p.heating(stage, branch)
	in.Old = p.oldHeats(in.Unit, in.Heating.Mode)
	in.Beside = beside(stage, in.Unit, in.Heating.Mode)
	if sol := stage.Solution(in.Heating.Mode); sol != nil && len(in.Beside) > 0 {
		ids := []string{in.Unit.ID}
		for _, o := range in.Beside {
			ids = append(ids, o.Unit.ID)
		}
		in.Warmed = sol.Warmed(ids)
	}
	in.Pipes = outsidePipes(stage, branch)
	if before := p.Before; before == stage {
		in.Today = in.Pipes
	} else if before != nil {
		branch, _ := before.Layout.Stage.Branch()
		in.Today = outsidePipes(before, branch)
	}
	return in
}

// oldHeats lists the units but the job's that heat the water today: those that are taken out, and those that stay
// to which a pump's water comes, where flows are known some in a mode; with the flow in a mode, where it is known.
func (p *Plan) oldHeats(own *settle.Part, mode string) []job.Beside {
	if p.Before == nil || p.Before.Layout == nil || own == nil || own.Existing {
		return nil
	}
	set, sol := p.Before.Layout.Stage, p.Before.Solution(mode)
	var out []job.Beside
	for _, u := range set.Parts {
		if u.Kind != graph.HeatPump || !u.Existing || u.ID == own.ID {
			continue
		}
		// how the valves of one that is taken out stand is written of the time after it
		if !u.Removed && (!set.Net().Pumped(u.Part) || len(p.Before.Solutions) > 0 && p.Before.StandsShut(u.ID)) {
			continue
		}
		one := job.Beside{Unit: u}
		if sol != nil {
			if f := sol.Part(u.ID); f != nil {
				one.FlowM3s = math.Abs(hydraulic.Passing(f.Flow))
			}
		}
		out = append(out, one)
	}
	return out
}

// beside lists the units but one that heat its water with it: those that get water in the mode that heats,
// or, where no flows are known, that a pump's water comes to.
func beside(stage *stage.Stage, unit *settle.Part, mode string) []job.Beside {
	var out []job.Beside
	set := stage.Layout.Stage
	sol := stage.Solution(mode)
	for _, b := range set.Branches() {
		if unit == nil || b.Unit.ID == unit.ID || b.Pump == nil || set.Net().Apart(b.Unit) {
			continue
		}
		pump := b.Pump
		if sol != nil {
			pump = cmp.Or(b.Feeder(sol.Mode), pump)
		}
		one := job.Beside{Unit: set.Part(b.Unit.ID), Pump: set.Part(pump.ID)}
		if one.Pump != nil && len(one.Pump.Speeds.V) > 0 {
			one.Speed = slowest(one.Pump)
		}
		if sol != nil {
			f := sol.Part(b.Unit.ID)
			if f == nil || hydraulic.Passing(f.Flow) == 0 {
				continue
			}
			one.FlowM3s = math.Abs(f.Flow)
			if speed, ok := sol.Mode.Speeds[pump.ID]; ok {
				one.Speed = speed
			}
		}
		out = append(out, one)
	}
	return out
}

// settleOf returns the settled stage; of the whole circuit where there is none.
func settleOf(stage *stage.Stage, c *graph.Circuit) *settle.Stage {
	if stage == nil {
		return settle.Of(c)
	}
	return stage.Layout.Stage
}

// heating finds the mode in which the tub is heated: the slowest in which the unit gets
// water; of those at that speed of its pump the one in which most units do. Without flows, or without a unit, the slowest speed of the pump that heats.
func (p *Plan) heating(stage *stage.Stage, branch *stream.UnitBranch) job.Heating {
	var h job.Heating
	if branch == nil {
		h.Pump = heaterPump(stage.Layout.Stage)
	} else if branch.Pump != nil {
		h.Pump = stage.Layout.Stage.Part(branch.Pump.ID)
	}
	if h.Pump != nil && len(h.Pump.Speeds.V) > 0 {
		h.Speed = slowest(h.Pump)
	}
	if branch == nil {
		return h
	}
	fed := 0
	for i := range stage.Solutions {
		sol := &stage.Solutions[i]
		flow := sol.Part(branch.Unit.ID)
		if flow == nil || flow.Idle() || flow.Flow <= 1e-9 {
			continue
		}
		units := unitsFed(stage, sol)
		if h.FlowM3s > 0 {
			more := units > fed && h.Pump != nil && sol.Mode.Speeds[h.Pump.ID] == h.Speed
			if !more && (flow.Flow >= h.FlowM3s || units < fed) {
				continue
			}
		}
		fed = units
		h.Mode, h.FlowM3s = sol.Mode.Name, flow.Flow
		if p := branch.Feeder(sol.Mode); p != nil {
			h.Pump = stage.Layout.Stage.Part(p.ID)
		}
		h.WaterPlannedW, h.WaterTodayW = waterPower(sol, h.Pump), waterPower(p.Before.Solution(sol.Mode.Name), h.Pump)
		if h.Pump != nil {
			if speed, ok := sol.Mode.Speeds[h.Pump.ID]; ok {
				h.Speed = speed
			}
		}
		h.With = with(stage, sol, h.Pump, h.Speed)
	}
	return h
}

// with lists the pumps of the unit's water that run in every mode in which one runs at a speed.
func with(stage *stage.Stage, sol *hydraulic.Solution, pump *settle.Part, at string) (out []job.Running) {
	modes := stage.Circuit.AllModes()
	for _, p := range stage.Circuit.Pumps() {
		speed := sol.Mode.Speeds[p.ID]
		if speed == "" || pump == nil || p.ID == pump.ID || stage.Layout.Stage.Net().Apart(p) {
			continue
		}
		without := func(m graph.Mode) bool { return m.Speeds[pump.ID] == at && m.Speeds[p.ID] != speed }
		if other := stage.Layout.Stage.Part(p.ID); other != nil && !slices.ContainsFunc(modes, without) {
			out = append(out, job.Running{Pump: other, Speed: speed})
		}
	}
	return out
}

// unitsFed is how many units get water in a solution.
func unitsFed(stage *stage.Stage, sol *hydraulic.Solution) int {
	n := 0
	for _, u := range stage.Circuit.Units() {
		if f := sol.Part(u.ID); f != nil && !f.Idle() && hydraulic.Passing(f.Flow) != 0 {
			n++
		}
	}
	return n
}

// waterPower is what a pump gives the water in a solution, W; 0 where there is none.
func waterPower(sol *hydraulic.Solution, pump *settle.Part) float64 {
	if sol == nil || pump == nil {
		return 0
	}
	f := sol.Part(pump.ID)
	if f == nil || f.State == "off" {
		return 0
	}
	return formula.HydraulicPower(sol.Water.Density, f.Flow, f.HeadM)
}

// heaterPump returns the pump whose water passes the element; nil where there is none.
func heaterPump(st *settle.Stage) *settle.Part {
	for _, e := range st.Circuit.OfKind(graph.ElementHeater) {
		if pump := st.Net().Upstream(e).First(graph.Pump); pump != nil && !st.Net().Apart(e) {
			return st.Part(pump.ID)
		}
	}
	return nil
}

// slowest returns the name of the speed of a pump that turns slowest: the one called low, else the
// one that takes least power.
func slowest(pump *settle.Part) string {
	best := 0
	for i, s := range pump.Speeds.V {
		if s.Name == "low" {
			return s.Name
		}
		if pump.Powers[i].V < pump.Powers[best].V {
			best = i
		}
	}
	return pump.Speeds.V[best].Name
}

// outsidePipes lists the pipe that runs outdoors: what is said to, and the new pipe to and
// from the unit unless the work stays inside.
func outsidePipes(stage *stage.Stage, branch *stream.UnitBranch) []heat.OutsidePipe {
	mine := map[string]bool{}
	if branch != nil && (stage.Circuit.Retrofit == nil || !stage.Circuit.Retrofit.Inside) {
		for _, list := range [][]*graph.Run{branch.ToUnitRuns, branch.FromUnitRuns} {
			for _, r := range list {
				mine[r.ID] = !r.Existing
			}
		}
	}
	var out []heat.OutsidePipe
	for i := range stage.Layout.Paths {
		path := &stage.Layout.Paths[i]
		r := path.Run
		if !r.Outside && !mine[r.ID] || path.LengthMM <= 0 || path.Pipe.OutsideMM <= 0 {
			continue
		}
		out = append(out, heat.OutsidePipe{LengthM: path.LengthMM / 1e3, OutsideM: path.Pipe.OutsideMM / 1e3, BoreM: path.Pipe.BoreMM / 1e3,
			InsulationM: r.InsulationMM.Or(usualInsulationMM) / 1e3, BuriedM: r.BuriedMM.Or(0) / 1e3, Known: r.InsulationMM.Set})
	}
	return out
}

// usualInsulationMM is the foam round a pipe outside whose thickness nobody said. Source:
// heat pump manuals, 19 to 25 mm (from memory).
const usualInsulationMM = 19

// bill adds up what the work costs the customer, as it is ordered, with margin and tax where they
// are said, and whether every line has a price.
func (p *Plan) bill() job.Bill {
	if p.Bill == nil {
		return job.Bill{}
	}
	order, offer := takeoff.NewOrder(p.Bill), p.Circuit.Offer
	bill := job.Bill{Total: order.Known.InexactFloat64(), Complete: order.Unknown == 0, Times: (1 + offer.Margin.Or(0)) * (1 + offer.Tax.Or(0))}
	for _, l := range order.Lines {
		bill.UnitOpen = bill.UnitOpen || l.Item.Kind == string(graph.HeatPump) && !l.Sum.Valid
	}
	return bill
}

// WeatherOf reads the climate of a description: its file, or its months.
func WeatherOf(c *graph.Climate) (*heat.Weather, []graph.Diagnostic) {
	if c == nil {
		return nil, nil
	}
	if c.File == "" {
		return job.MonthsOf(c).Year(), nil
	}
	if c.Data == nil {
		return nil, nil
	}
	zone := heat.Zone{}
	if v, err := strconv.ParseFloat(c.Zone, 64); err == nil {
		zone = heat.Zone{Hours: v, Said: true}
	}
	w, err := heat.ReadWeather(c.Data, zone)
	var bad *heat.WeatherError
	if errors.As(err, &bad) {
		return nil, []graph.Diagnostic{{
			Pos: graph.Pos{File: c.File, Line: max(bad.Line, 1), Column: 1}, Rule: "weather", Severity: graph.Error,
			Message: quantity.Text(bad.Message),
			Hint:    "an EPW file, or a CSV file whose first line names hour, dry_bulb_C, relative_humidity (per cent) and wind_m_s, with a line for each of 8760 hours",
			Related: []graph.Related{{Pos: c.Pos, Message: "[climate] names the file"}},
		}}
	}
	return w, nil
}
