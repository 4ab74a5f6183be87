package table

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
	"dryfit/graph/sample"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
)

type rangeJSON struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
	// of a sample: its middle (likely is the case that is taken), the shares of it in which a
	// pump is past its curve, and whether an end is open for that
	Middle     *float64 `json:"middle,omitempty"`
	BeyondLow  float64  `json:"beyond_low,omitempty"`
	BeyondHigh float64  `json:"beyond_high,omitempty"`
	PastLow    int      `json:"beyond_low_samples,omitempty"`
	PastHigh   int      `json:"beyond_high_samples,omitempty"`
	Of         int      `json:"of_samples,omitempty"` // beside the two above
	OpenLow    bool     `json:"open_low,omitempty"`
	OpenHigh   bool     `json:"open_high,omitempty"`
}

// sampleRange prints a range of a sample, its values by a function.
func sampleRange(r spread.Range, value func(float64) float64) *rangeJSON {
	out := &rangeJSON{Low: value(r.Low), Likely: value(r.Likely), High: value(r.High), Middle: form.Ptr(value(r.Middle)),
		BeyondLow: form.Round(r.BeyondLow(), 4), BeyondHigh: form.Round(r.BeyondHigh(), 4), PastLow: r.PastLow, PastHigh: r.PastHigh, OpenLow: r.OpenLow, OpenHigh: r.OpenHigh}
	if r.PastLow+r.PastHigh > 0 {
		out.Of = r.Of
	}
	return out
}

type modeJSON struct {
	Mode       string           `json:"mode"`
	Stage      string           `json:"stage"`
	Parts      []partFlow       `json:"parts"`
	Runs       []runFlow        `json:"runs"`
	Residual   float64          `json:"residual_m3_h"`
	Energy     float64          `json:"energy_error_m"`
	Iterations int              `json:"iterations"`
	Heads      []lists.HeadJSON `json:"total_dynamic_head_m"`
	Notes      []Finding        `json:"notes,omitempty"`
	NoAnswer   string           `json:"no_answer,omitempty"` // why there are no numbers
}

type partFlow struct {
	ID            string     `json:"id"`
	Kind          string     `json:"kind"`
	Flow          float64    `json:"flow_m3_h"`
	FlowRange     *rangeJSON `json:"flow_m3_h_range,omitempty"`
	Moving        *float64   `json:"flow_if_moving_m3_h,omitempty"` // were its water moving already: where a pump holds at two flows
	Drop          float64    `json:"drop_kPa"`
	DropRange     *rangeJSON `json:"drop_kPa_range,omitempty"`
	State         string     `json:"state,omitempty"`
	Legs          []legFlow  `json:"legs,omitempty"`
	MarginPa      *float64   `json:"margin_kPa,omitempty"`
	MarginFlow    *float64   `json:"margin_m3_h,omitempty"`
	Spring        *rangeJSON `json:"spring_opens_kPa,omitempty"` // a margin means nothing within it
	Head          *float64   `json:"head_m,omitempty"`
	Power         *float64   `json:"power_W,omitempty"`
	Efficiency    *float64   `json:"efficiency,omitempty"`
	NPSHAvailable *float64   `json:"npsh_available_m,omitempty"`
	ShutOff       *float64   `json:"shut_off_kPa,omitempty"`
	Extrapolated  bool       `json:"shut_off_extrapolated,omitempty"`
	Greatest      *float64   `json:"greatest_kPa,omitempty"` // where the curve rises: more than at shut-off
	Rise          *float64   `json:"temperature_rise_K,omitempty"`
	Static        *float64   `json:"static_kPa,omitempty"`
	LevelKnown    *bool      `json:"static_counts_level,omitempty"`
}

type legFlow struct {
	Port string  `json:"port"`
	Flow float64 `json:"flow_m3_h"`
	Drop float64 `json:"drop_kPa"`
	K    float64 `json:"k"`
}

type runFlow struct {
	ID        string     `json:"id"`
	Flow      float64    `json:"flow_m3_h"`
	FlowRange *rangeJSON `json:"flow_m3_h_range,omitempty"`
	Velocity  *float64   `json:"velocity_m_s,omitempty"`
	Drop      float64    `json:"drop_kPa"`
	PipeDrop  float64    `json:"pipe_drop_kPa"`
	Reynolds  float64    `json:"reynolds"`
	Friction  float64    `json:"friction_factor"`
	Bore      *float64   `json:"bore_mm,omitempty"`
	Suction   bool       `json:"suction"`
	Static    *float64   `json:"static_kPa,omitempty"`
	Level     *bool      `json:"static_counts_level,omitempty"`
}

type summaryJSON struct {
	Text         []string        `json:"text"`
	Modes        []modeSummary   `json:"modes"`
	Promises     []promiseJSON   `json:"promises,omitempty"`
	Set          *setJSON        `json:"throttle_set,omitempty"`
	MeasureFirst []influenceJSON `json:"measure_first,omitempty"`
	Samples      int             `json:"samples,omitempty"`
	SamplesOf    int             `json:"samples_of,omitempty"` // where the circuit is too large for all of them, or some fit what was read
	Unsolved     int             `json:"samples_unsolved,omitempty"`
	Unknowns     int             `json:"unknowns,omitempty"`         // where the circuit is too large for each to be tried by itself
	Tried        int             `json:"unknowns_tried,omitempty"`   // so many were
	Supposed     *supposedJSON   `json:"if_the_work_fits,omitempty"` // where only a measure can tell
	Read         []readJSON      `json:"read,omitempty"`             // on the tub as it stands
}

type modeSummary struct {
	Mode       string     `json:"mode"`
	Unit       float64    `json:"unit_flow_m3_h"`
	Described  *float64   `json:"unit_flow_as_described_m3_h,omitempty"` // where what was read contradicts it, and the others fit that
	Least      float64    `json:"unit_least_m3_h"`
	Rated      float64    `json:"unit_rated_m3_h"`
	Most       float64    `json:"unit_most_m3_h"`
	Rise       float64    `json:"temperature_rise_K"`
	Bypass     *float64   `json:"bypass_flow_m3_h,omitempty"` // as of UnitFlow
	CheckState string     `json:"check_state,omitempty"`
	Jets       float64    `json:"jets_flow_m3_h"`
	JetsToday  *float64   `json:"jets_flow_today_m3_h,omitempty"` // neither where today's flow has no answer
	JetsChange *float64   `json:"jets_change_percent,omitempty"`
	JetsRange  *rangeJSON `json:"jets_change_percent_range,omitempty"`
	Pump       float64    `json:"pump_flow_m3_h"`
	Units      []UnitFlow `json:"units,omitempty"` // every one that has water, where there are several
}

// UnitFlow is what one of several units gets in a mode, as flow and plan.json print it.
type UnitFlow struct {
	ID         string   `json:"id"`
	Flow       float64  `json:"flow_m3_h"`
	Described  *float64 `json:"as_described_m3_h,omitempty"` // where what was read contradicts it
	Least      float64  `json:"least_m3_h"`
	Rated      float64  `json:"rated_m3_h"`
	Most       float64  `json:"most_m3_h"`
	Rise       float64  `json:"temperature_rise_K"`
	Bypass     *float64 `json:"bypass_flow_m3_h,omitempty"` // where something throttles or checks it
	CheckState string   `json:"check_state,omitempty"`
	Shares     string   `json:"shares_bypass_with,omitempty"` // the unit at which both are said
}

// asDescribed is what a unit gets as described, where what was read contradicts that; else nil.
func asDescribed(u plan.UnitSummary) *float64 {
	if u.AsDescribed == 0 {
		return nil
	}
	return form.Ptr(form.M3h(u.AsDescribed))
}

// UnitFlows lists what each unit gets in a mode; none where there is only one.
func UnitFlows(m *plan.ModeSummary) (out []UnitFlow) {
	if len(m.Beside) == 0 {
		return nil
	}
	for _, u := range m.Units() {
		one := UnitFlow{u.ID, form.M3h(u.Flow), asDescribed(u), form.M3h(u.Least), form.M3h(u.Rated), form.M3h(u.Most), form.Round(u.RiseK, 3), nil, "", u.Shares}
		if u.Shares == "" {
			one.Bypass, one.CheckState = pastFlow(u.Past, u.Bypass), u.State
		}
		out = append(out, one)
	}
	return out
}

// pastFlow prints what flows in a unit's bypass, m³/h; nil where nothing throttles or checks it: nobody
// looks at what passes there.
func pastFlow(past string, flow float64) *float64 {
	if past == "" {
		return nil
	}
	return form.Ptr(form.M3h(flow))
}

type promiseJSON struct {
	Mode  string  `json:"mode"`
	Text  string  `json:"text"`
	Share float64 `json:"share"`
	Kept  int     `json:"kept"`
	Of    int     `json:"of"`
	Level string  `json:"level_unknown_of,omitempty"` // whose depth below the water nobody gave

	ShareSet *float64 `json:"share_set,omitempty"` // once a throttle is set by its reading
	KeptSet  int      `json:"kept_set,omitempty"`
	OfSet    int      `json:"of_set,omitempty"`
	Accepted string   `json:"accepted,omitempty"` // the reason for which it is taken on
}

type influenceJSON struct {
	What   string  `json:"what"`
	Part   string  `json:"part,omitempty"`
	Mode   string  `json:"mode"`
	Effect float64 `json:"effect_percent"`
	Moves  string  `json:"moves"`
	UnitID string  `json:"unit_id,omitempty"` // of several units, whose flow it moves so
	Unit   float64 `json:"unit_flow_percent,omitempty"`
	Jets   float64 `json:"jets_flow_percent,omitempty"`
	Head   float64 `json:"pump_head_percent,omitempty"`
	Until  string  `json:"until_set,omitempty"` // valve by whose setting it moves the unit's flow no more so far
}

// FlowJSON prints the solution of every mode and stage, and the summary.
func FlowJSON(p *plan.Plan, s form.Style) ([]byte, error) {
	out := struct {
		Modes   []modeJSON    `json:"modes"`
		Summary summaryJSON   `json:"summary"`
		Assumed []assumedJSON `json:"assumed"`
		Advice  *adviceJSON   `json:"advice,omitempty"`
	}{Modes: []modeJSON{}, Summary: flowSummary(p, s), Assumed: assumedList(p, s), Advice: adviceOf(p.Advice, s)}
	for _, st := range stages(p) {
		for i := range st.stage.Solutions {
			mode := modeOf(&st.stage.Solutions[i], p.Ranges, s)
			mode.Stage = string(st.name)
			out.Modes = append(out.Modes, mode)
		}
		for _, n := range st.stage.NoAnswer {
			out.Modes = append(out.Modes, modeJSON{Mode: n.Mode, Stage: string(st.name), NoAnswer: s.Say(n.Why),
				Parts: []partFlow{}, Runs: []runFlow{}, Heads: []lists.HeadJSON{}})
		}
	}
	return form.WriteJSON(out)
}

// named is a stage with its name. Where nothing is new and nothing removed, before and
// after are one stage under two names.
type named struct {
	name  graph.Stage
	stage *stage.Stage
}

func stages(p *plan.Plan) []named {
	var out []named
	if p.Before != nil {
		out = append(out, named{graph.Before, p.Before})
	}
	if p.After != nil {
		out = append(out, named{graph.After, p.After})
	}
	return out
}

func modeOf(sol *hydraulic.Solution, ranges *spread.Ranges, s form.Style) modeJSON {
	out := modeJSON{
		Mode: sol.Mode.Name, Stage: string(sol.Stage), Parts: []partFlow{}, Runs: []runFlow{},
		Residual: form.Round(sol.Residual*3600, 12), Energy: form.Round(sol.EnergyError, 9), Iterations: sol.Iterations, Heads: lists.Heads(sol),
	}
	if len(sol.Notes) > 0 {
		out.Notes = FindingsOf(sol.Notes, s)
	}
	spread := ranges.Of(sol.Mode.Name, sol.Stage)
	for i := range sol.Parts {
		f := partOf(&sol.Parts[i])
		if spread != nil {
			f.FlowRange = flowRange(spread.Parts[i])
			f.DropRange = dropRange(spread.Drops[i])
		}
		out.Parts = append(out.Parts, f)
	}
	for i, r := range sol.Runs {
		f := runFlow{
			ID: r.Run.ID, Flow: form.M3h(r.Flow), Drop: form.KPa(r.Drop), PipeDrop: form.KPa(r.PipeDrop),
			Reynolds: form.Round(r.Reynolds, 0), Friction: form.Round(r.Friction, 6), Suction: r.Suction,
		}
		if !r.Bare {
			f.Velocity, f.Bore = form.Ptr(form.Round(r.Velocity, 4)), form.Ptr(form.MM(r.BoreMM))
			f.Static, f.Level = form.Ptr(form.KPa(r.StaticPa)), &r.LevelKnown
		}
		if spread != nil {
			f.FlowRange = flowRange(spread.Runs[i])
		}
		out.Runs = append(out.Runs, f)
	}
	return out
}

func flowRange(r spread.Range) *rangeJSON {
	return sampleRange(r, form.M3h)
}
func dropRange(r spread.Range) *rangeJSON {
	return sampleRange(r, form.KPa)
}

// springRange prints between what a spring may open; nil where there is none.
func springRange(s hydraulic.Spring) *rangeJSON {
	if s.HighPa == 0 {
		return nil
	}
	return &rangeJSON{Low: form.KPa(s.LowPa), Likely: form.KPa(s.Pa), High: form.KPa(s.HighPa)}
}

func partOf(p *hydraulic.PartFlow) partFlow {
	out := partFlow{ID: p.Part.ID, Kind: string(p.Part.Kind), Flow: form.M3h(p.Flow), Drop: form.KPa(p.Drop), State: p.State}
	out.Moving = movingFlow(p)
	for _, l := range p.Legs {
		out.Legs = append(out.Legs, legFlow{l.Port, form.M3h(l.Flow), form.KPa(l.Drop), form.Round(l.K, 4)})
	}
	switch p.Part.Kind {
	case graph.CheckValve:
		out.MarginPa, out.MarginFlow = form.Ptr(form.KPa(p.MarginPa)), form.Ptr(form.M3h(p.MarginFlow))
		out.Spring = springRange(p.Spring)
	case graph.Pump:
		if p.State == "off" {
			break
		}
		out.Head, out.ShutOff, out.Extrapolated = form.Ptr(form.Round(p.HeadM, 4)), form.Ptr(form.KPa(p.ShutOffPa)), p.ShutOffExtrapolated
		if p.GreatestPa > p.ShutOffPa {
			out.Greatest = form.Ptr(form.KPa(p.GreatestPa))
		}
		if p.PowerW > 0 {
			out.Power = form.Ptr(form.Round(p.PowerW, 1))
		}
		if p.Efficiency > 0 {
			out.Efficiency = form.Ptr(form.Round(p.Efficiency, 4))
		}
		if p.NPSHKnown {
			out.NPSHAvailable = form.Ptr(form.Round(p.NPSHAvailableM, 3))
		}
	case graph.HeatPump:
		out.Static, out.LevelKnown = form.Ptr(form.KPa(p.StaticPa)), &p.LevelKnown
		if p.RiseK > 0 {
			out.Rise = form.Ptr(form.Round(p.RiseK, 3))
		}
	}
	return out
}

func flowSummary(p *plan.Plan, s form.Style) summaryJSON {
	out := summaryJSON{Text: slices.Concat(SummaryLines(p, s), FartherLines(p, s, ""), WithoutAnswer(p, s)), Modes: []modeSummary{}, Supposed: supposedOf(p, s)}
	for _, m := range plan.Summarise(p) {
		today, change := form.Ptr(form.M3h(m.JetsToday)), form.Ptr(form.Round(m.JetsChange()*100, 2))
		if slices.ContainsFunc(todayWithoutAnswer(p), func(n stage.NoAnswer) bool { return n.Mode == m.Mode }) {
			today, change = nil, nil
		}
		out.Modes = append(out.Modes, modeSummary{
			m.Mode, form.M3h(m.Unit), asDescribed(m.Own()), form.M3h(m.Least), form.M3h(m.Rated), form.M3h(m.Most), form.Round(m.RiseK, 3), pastFlow(m.Past, m.Bypass), m.CheckState,
			form.M3h(m.Jets), today, change, jetsRange(p.Ranges.Of(m.Mode, graph.After)), form.M3h(m.Pump), UnitFlows(&m),
		})
	}
	if r := p.Ranges; r != nil {
		out.Samples, out.Unsolved = r.Samples, r.Unsolved
		switch {
		case r.Narrowed():
			out.SamplesOf = r.Tried
		case r.Samples < sample.Size:
			out.SamplesOf = sample.Size
		}
		if r.Moved < r.Unknowns && !r.Narrowed() {
			out.Unknowns, out.Tried = r.Unknowns, r.Moved
		}
		out.Read = readOf(r)
		for i := range r.Promises {
			q := &r.Promises[i]
			made := promiseJSON{Mode: q.Mode, Text: promiseText(s, q), Share: form.Round(q.Share, 4), Kept: q.Kept, Of: q.Of, Level: q.Level, Accepted: q.Accepted}
			if q.SetOf > 0 {
				made.ShareSet, made.KeptSet, made.OfSet = form.Ptr(form.Round(q.Sure(), 4)), q.SetKept, q.SetOf
			}
			out.Promises = append(out.Promises, made)
		}
		out.Set = setOf(r.Set)
		for _, q := range r.MeasureFirst {
			until := ""
			if r.UntilSet(q.Moves, q.UnitID) != "" {
				until = r.Set.Valve
			}
			out.MeasureFirst = append(out.MeasureFirst, influenceJSON{q.Said(), q.Part, q.Mode, form.Round(q.Effect*100, 2), q.Moves.Of(q.OneOf()), q.UnitID, form.Round(q.Unit*100, 2), form.Round(q.Jets*100, 2), form.Round(q.Head*100, 2), until})
		}
	}
	return out
}

// jetsRange prints the range of what the jets lose or gain, %; nil where there is none.
func jetsRange(r *spread.ModeRanges) *rangeJSON {
	if r == nil || !r.HasJets {
		return nil
	}
	return sampleRange(r.JetsChange, func(v float64) float64 { return form.Round(v*100, 2) })
}
