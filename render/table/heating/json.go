package heating

import (
	"math"
	"slices"

	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

type heatJSON struct {
	Loss     lossJSON        `json:"loss"`
	Unit     unitJSON        `json:"unit"`
	ByAir    []atAirJSON     `json:"by_air,omitempty"`
	HeatUp   *riseJSON       `json:"heat_up,omitempty"`
	Recovery *riseJSON       `json:"recovery,omitempty"`
	Year     *yearJSON       `json:"year,omitempty"`
	Timer    *timerJSON      `json:"timer,omitempty"`
	Sizes    []sizeJSON      `json:"sizes"`
	Supply   []supplyJSON    `json:"supply"`
	Assumed  []heatAssumed   `json:"assumed"`
	Notes    []string        `json:"notes,omitempty"`
	Cold     bool            `json:"kept_cold,omitempty"`   // the water wants cooling, of which nothing is worked out
	Foreign  []string        `json:"not_counted,omitempty"` // heat exchangers of another source, and units to which no water comes in the mode that heats
	Findings []table.Finding `json:"findings,omitempty"`
}

type lossJSON struct {
	UA       float64        `json:"ua_W_K"`
	Standing float64        `json:"standing_W"`
	Air      float64        `json:"air_C"`
	Room     *float64       `json:"room_C,omitempty"`
	Water    float64        `json:"water_C"`
	Terms    []heatTermJSON `json:"terms"`
	Open     openJSON       `json:"open"`
}

type heatTermJSON struct {
	Term    string   `json:"term"`
	W       float64  `json:"W"`
	KWhYear *float64 `json:"kWh_year,omitempty"`
}

type openJSON struct {
	EvaporationW   float64 `json:"evaporation_W"`
	EvaporationKgH float64 `json:"evaporation_kg_h"`
	ConvectionW    float64 `json:"convection_W"`
	RadiationW     float64 `json:"radiation_W"`
}

type unitJSON struct {
	At             []unitAtJSON `json:"at"`
	Each           []eachJSON   `json:"together,omitempty"` // of several units that heat together
	HoldsDownToC   *float64     `json:"holds_down_to_C,omitempty"`
	RatingsAssumed bool         `json:"ratings_assumed"`
}

type eachJSON struct {
	ID      string   `json:"id"`
	Flow    *float64 `json:"flow_m3_h,omitempty"`
	Enters  float64  `json:"enters_C"`
	SetTo   float64  `json:"set_to_C"`
	Output  float64  `json:"output_kW"`
	Input   float64  `json:"input_kW"`
	Heat    *float64 `json:"heat_kWh_year,omitempty"`
	KWh     *float64 `json:"kWh_year,omitempty"`
	Share   *float64 `json:"share,omitempty"`
	COP     *float64 `json:"seasonal_cop,omitempty"`
	Assumed bool     `json:"ratings_assumed"`
}

type unitAtJSON struct {
	Air    float64 `json:"air_C"`
	Water  float64 `json:"water_C"`
	Output float64 `json:"output_kW"`
	Input  float64 `json:"input_kW"`
	COP    float64 `json:"cop"`
	From   string  `json:"from"`
}

type atAirJSON struct {
	Air     float64 `json:"air_C"`
	Hours   *int    `json:"hours,omitempty"`
	Colder  *int    `json:"hours_colder,omitempty"`
	Loses   float64 `json:"loses_W"`
	Open    float64 `json:"cover_off_more_W"`
	Gives   float64 `json:"unit_gives_W"`
	Element float64 `json:"element_gives_W,omitempty"`
}

type riseJSON struct {
	From    float64 `json:"from_C"`
	To      float64 `json:"to_C"`
	Air     float64 `json:"air_C"`
	Reached bool    `json:"reached"`
	Hours   float64 `json:"hours"`
	Heat    float64 `json:"heat_kWh"`
	Ends    float64 `json:"ends_C"`
	Through string  `json:"through,omitempty"`
	Element float64 `json:"element_share"`
}

type accountJSON struct {
	KWh      float64     `json:"kWh"`
	KWhRange *rangeJSON  `json:"kWh_range,omitempty"`
	Cost     *float64    `json:"cost,omitempty"`
	Months   []monthJSON `json:"months"`
}

type monthJSON struct {
	Month   int      `json:"month"`
	Heat    float64  `json:"heat_kWh"`
	Unit    float64  `json:"unit_kWh"`
	Element float64  `json:"element_kWh"`
	Pump    float64  `json:"pump_kWh"`
	Cost    *float64 `json:"cost,omitempty"`
}

type yearJSON struct {
	Today       *accountJSON `json:"today,omitempty"`
	Planned     *accountJSON `json:"planned,omitempty"`
	OtherWay    string       `json:"other_way,omitempty"`
	Other       *accountJSON `json:"other,omitempty"`
	SavingKWh   *float64     `json:"saving_kWh,omitempty"`
	SavingKWhR  *rangeJSON   `json:"saving_kWh_range,omitempty"`
	Saving      *float64     `json:"saving,omitempty"`
	SavingR     *rangeJSON   `json:"saving_range,omitempty"`
	Share       *float64     `json:"saving_share,omitempty"`
	ShareR      *rangeJSON   `json:"saving_share_range,omitempty"`
	Payback     *float64     `json:"payback_years,omitempty"`
	PaybackMin  bool         `json:"payback_at_least,omitempty"`
	Samples     int          `json:"samples"`
	Moves       []movesJSON  `json:"moves_it_most,omitempty"`
	WouldAlso   []savingJSON `json:"would_also_save,omitempty"`
	HoursShort  int          `json:"hours_short"`
	AfterBath   int          `json:"hours_short_after_a_bath"`
	SeasonalCOP *float64     `json:"seasonal_cop,omitempty"`
}

type movesJSON struct {
	What    string  `json:"what"`
	Saving  float64 `json:"saving_kWh"`
	Assumed bool    `json:"assumed"`
}

type savingJSON struct {
	What string   `json:"what"`
	Of   string   `json:"of"`
	KWh  float64  `json:"kWh"`
	Cost *float64 `json:"cost,omitempty"`
}

type timerJSON struct {
	On        [][2]string `json:"on"`
	SetTo     float64     `json:"set_to_C"`
	Cost      float64     `json:"cost_day"`
	AlwaysOn  float64     `json:"cost_day_always_on"`
	Lowest    float64     `json:"lowest_C"`
	KeepsBand bool        `json:"keeps_band"`
}

type sizeJSON struct {
	Unit    string   `json:"unit"`
	This    bool     `json:"this"`
	Holds   *float64 `json:"holds_down_to_C,omitempty"`
	Hold    bool     `json:"holds"`
	Hours   *float64 `json:"hours"`
	Fed     bool     `json:"fed"`
	OK      bool     `json:"ok"`
	Reasons []string `json:"reasons"`
}

type supplyJSON struct {
	Feeds       []string       `json:"feeds,omitempty"`
	Voltage     float64        `json:"voltage_V"`
	Rating      *float64       `json:"rating_A,omitempty"`
	Loads       []loadJSON     `json:"loads"`
	Together    []togetherJSON `json:"together"`
	Drop        *float64       `json:"drop_V,omitempty"`
	DropPercent *float64       `json:"drop_percent,omitempty"`
	Dip         *float64       `json:"dip_V,omitempty"`
	UnitFuse    *float64       `json:"unit_fuse_A,omitempty"`
	Says        []string       `json:"says,omitempty"`
}

type loadJSON struct {
	ID      string  `json:"id"`
	Running float64 `json:"running_A"`
	Start   float64 `json:"start_A"`
}

type togetherJSON struct {
	IDs       []string `json:"ids"`
	Running   float64  `json:"running_A"`
	WithStart float64  `json:"with_start_A"`
	Over      float64  `json:"over_A"`
}

type heatAssumed struct {
	What   string  `json:"what"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit,omitempty"`
	Source string  `json:"source"`
	Moves  float64 `json:"moves"`
}

// JSON prints the heat report for other programs: kWh, W, °C, hours, money in the job's
// currency, as their keys say; sentences have the units asked for.
func JSON(r *job.Report, s form.Style) ([]byte, error) {
	out := heatJSON{Loss: lossOf(r), Unit: unitTableOf(r), HeatUp: riseOf(r.HeatUp), Recovery: riseOf(r.Recovery), Notes: r.Notes, Cold: r.Cold, Foreign: slices.Concat(r.Foreign, r.Others),
		Sizes: []sizeJSON{}, Supply: []supplyJSON{}, Assumed: []heatAssumed{}}
	if r.Year != nil {
		out.Year = yearOf(r.Year, s)
		for _, a := range r.Moves {
			out.Year.Moves = append(out.Year.Moves, movesJSON{What: s.Say(a.What), Saving: form.Round(math.Abs(a.Saving), 1), Assumed: !a.Given})
		}
	}
	if t := r.Timer; t != nil {
		out.Timer = &timerJSON{On: [][2]string{}, SetTo: form.Round(r.TimerC, 2), Cost: form.Round(t.CostDay, 4), AlwaysOn: form.Round(t.AlwaysDay, 4), Lowest: form.Round(t.LowestC, 2), KeepsBand: t.OK}
		for _, w := range t.On {
			out.Timer.On = append(out.Timer.On, [2]string{clock(w.FromH), clock(w.ToH)})
		}
	}
	for _, a := range r.Airs {
		j := atAirJSON{Air: form.Round(a.AirC, 2), Loses: form.Round(a.LosesW, 1), Open: form.Round(a.OpenW, 1), Gives: form.Round(a.GivesW, 1), Element: form.Round(a.ElementW, 1)}
		if r.Year != nil {
			j.Hours, j.Colder = &a.Hours, &a.Colder
		}
		out.ByAir = append(out.ByAir, j)
	}
	for _, s := range r.Sizes {
		j := sizeJSON{Unit: s.Unit, This: s.This, Hold: s.Hold, Fed: s.Flow, OK: s.OK(), Reasons: append([]string{}, s.Reasons...)}
		if s.HoldsKnown {
			j.Holds = form.Ptr(form.Round(s.HoldsC, 1))
		}
		if !math.IsInf(s.Hours, 1) {
			j.Hours = form.Ptr(form.Round(s.Hours, 2))
		}
		out.Sizes = append(out.Sizes, j)
	}
	for _, supply := range r.Supplies {
		out.Supply = append(out.Supply, supplyOf(supply, s))
	}
	for _, a := range r.Assumed {
		unit := ""
		if !a.Plain {
			unit = a.Dim.BaseUnit()
		}
		out.Assumed = append(out.Assumed, heatAssumed{What: s.Say(a.What), Value: form.Round(a.Value, 4), Unit: unit, Source: s.Say(a.Source), Moves: form.Round(a.MovesKWh, 1)})
	}
	out.Findings = table.FindingsOf(r.Problems, s)
	return form.WriteJSON(out)
}

func lossOf(r *job.Report) lossJSON {
	l := r.Loss
	out := lossJSON{UA: form.Round(l.UA, 3), Standing: form.Round(l.StandingW, 1), Air: form.Round(l.AirC, 2), Water: form.Round(l.WaterC, 2), Terms: []heatTermJSON{},
		Open: openJSON{form.Round(l.Open.EvaporationW, 1), form.Round(l.Open.EvaporationKgH, 3), form.Round(l.Open.ConvectionW, 1), form.Round(l.Open.RadiationW, 1)}}
	if l.Indoor {
		out.Room = form.Ptr(form.Round(l.RoomC, 2))
	}
	for _, t := range l.Terms {
		j := heatTermJSON{Term: string(t.Term), W: form.Round(t.W, 1)}
		if l.KWhYear {
			j.KWhYear = form.Ptr(form.Round(t.KWhYear, 1))
		}
		out.Terms = append(out.Terms, j)
	}
	return out
}

func unitTableOf(r *job.Report) unitJSON {
	out := unitJSON{At: []unitAtJSON{}, RatingsAssumed: r.Unit.Assumed}
	for _, x := range r.Unit.At {
		from := string(x.Working.Basis)
		if x.Rated {
			from = "sheet"
		}
		out.At = append(out.At, unitAtJSON{form.Round(x.AirC, 2), form.Round(x.WaterC, 2), form.Round(x.Working.OutputW/1e3, 3), form.Round(x.Working.InputW/1e3, 3), form.Round(x.Working.COP(), 2), from})
	}
	for _, u := range r.Unit.Each {
		j := eachJSON{ID: u.ID, Enters: form.Round(u.EntersC, 2), SetTo: form.Round(u.SetC, 2), Output: form.Round(u.Working.OutputW/1e3, 3), Input: form.Round(u.Working.InputW/1e3, 3), Assumed: u.Assumed}
		if u.FlowM3s > 0 {
			j.Flow = form.Ptr(form.Round(u.FlowM3s*3600, 3))
		}
		if u.Year {
			j.Heat, j.KWh, j.Share = form.Ptr(form.Round(u.HeatKWh, 1)), form.Ptr(form.Round(u.KWh, 1)), form.Ptr(form.Round(u.Share, 4))
			if u.COP > 0 {
				j.COP = form.Ptr(form.Round(u.COP, 3))
			}
		}
		out.Each = append(out.Each, j)
	}
	if r.Unit.HoldsKnown {
		out.HoldsDownToC = form.Ptr(form.Round(r.Unit.HoldsC, 1))
	}
	return out
}

func riseOf(x *job.Rise) *riseJSON {
	if x == nil {
		return nil
	}
	return &riseJSON{form.Round(x.FromC, 2), form.Round(x.ToC, 2), form.Round(x.AirC, 2), x.Warmed.Reached, form.Round(x.Warmed.Hours, 3), form.Round(x.Warmed.HeatKWh, 2), form.Round(x.Warmed.EndsC, 2), x.Through, form.Round(x.ElementShare(), 4)}
}

// rangeJSON is a number with the ends between which nine of ten samples lie.
type rangeJSON struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

func rangeOf(r job.Range, decimals int) *rangeJSON {
	return &rangeJSON{Low: form.Round(r.Low, decimals), Likely: form.Round(r.Likely, decimals), High: form.Round(r.High, decimals)}
}

func yearOf(y *job.YearReport, s form.Style) *yearJSON {
	out := &yearJSON{Samples: y.Samples, Today: accountOf(y.Today, y.TodayKWh, y.Priced), Planned: accountOf(y.Planned, y.PlannedKWh, y.Priced)}
	if y.Planned != nil {
		out.HoursShort, out.AfterBath = y.Planned.Short, y.Planned.Bathed
		if y.Planned.UnitCOP > 0 {
			out.SeasonalCOP = form.Ptr(form.Round(y.Planned.UnitCOP, 3))
		}
	}
	if y.Other != nil {
		out.OtherWay, out.Other = y.OtherWay, accountOf(y.Other, job.Range{Low: y.Other.KWh, Likely: y.Other.KWh, High: y.Other.KWh}, y.Priced)
		out.Other.KWhRange = nil
	}
	if y.Today == nil || y.Planned == nil || y.Cold() {
		return out
	}
	out.SavingKWh, out.SavingKWhR = form.Ptr(form.Round(y.SavingKWh.Likely, 1)), rangeOf(y.SavingKWh, 1)
	out.Share, out.ShareR = form.Ptr(form.Round(y.SavingShare.Likely, 4)), rangeOf(y.SavingShare, 4)
	if y.Priced {
		out.Saving, out.SavingR = form.Ptr(form.Round(y.SavingCost.Likely, 2)), rangeOf(y.SavingCost, 2)
	}
	if y.PaybackKnown {
		out.Payback, out.PaybackMin = form.Ptr(form.Round(y.Payback.Likely, 2)), y.PaybackAtLeast
	}
	for _, p := range y.Pays {
		saving := savingJSON{What: s.Say(p.What), Of: string(p.Of), KWh: form.Round(p.KWh, 1)}
		if y.Priced {
			saving.Cost = form.Ptr(form.Round(p.Cost, 2))
		}
		out.WouldAlso = append(out.WouldAlso, saving)
	}
	return out
}

func accountOf(a *heat.Account, r job.Range, priced bool) *accountJSON {
	if a == nil {
		return nil
	}
	out := &accountJSON{KWh: form.Round(a.KWh, 2), KWhRange: rangeOf(r, 1)}
	if priced {
		out.Cost = form.Ptr(form.Round(a.Cost, 2))
	}
	for i, m := range a.Months {
		j := monthJSON{Month: i + 1, Heat: form.Round(m.HeatKWh, 2), Unit: form.Round(m.UnitKWh, 2), Element: form.Round(m.ElementKWh, 2), Pump: form.Round(m.PumpKWh, 2)}
		if priced {
			j.Cost = form.Ptr(form.Round(m.Cost, 2))
		}
		out.Months = append(out.Months, j)
	}
	return out
}

func supplyOf(s job.Supply, style form.Style) supplyJSON {
	out := supplyJSON{Feeds: s.Feeds, Voltage: s.VoltageV, Loads: []loadJSON{}, Together: []togetherJSON{}}
	if s.RatingA > 0 {
		out.Rating = form.Ptr(s.RatingA)
	}
	for _, c := range s.Loads {
		out.Loads = append(out.Loads, loadJSON{c.ID, form.Round(c.RunningA, 2), form.Round(math.Max(c.StartA, c.RunningA), 2)})
	}
	for _, t := range s.Together {
		out.Together = append(out.Together, togetherJSON{t.IDs, form.Round(t.RunningA, 2), form.Round(t.WithStart, 2), form.Round(t.OverA, 2)})
	}
	if s.Drop {
		out.Drop, out.DropPercent = form.Ptr(form.Round(s.DropV, 2)), form.Ptr(form.Round(100*s.DropV/s.VoltageV, 2))
	}
	for _, t := range s.Says {
		out.Says = append(out.Says, style.Say(t))
	}
	if s.FuseA > 0 {
		out.UnitFuse = form.Ptr(form.Round(s.FuseA, 1))
	}
	if s.DipV > 0 {
		out.Dip = form.Ptr(form.Round(s.DipV, 2))
	}
	return out
}

// CSV prints the year month by month, or without a climate the terms of the loss.
func CSV(r *job.Report) []byte {
	if r.Year == nil {
		var rows [][]string
		for _, t := range r.Loss.Terms {
			rows = append(rows, []string{form.Cell(string(t.Term)), form.Fixed(t.W, 1)})
		}
		return form.WriteCSV([]string{"term", "W"}, rows)
	}
	var rows [][]string
	for _, x := range []struct {
		name string
		a    *heat.Account
	}{{"today", r.Year.Today}, {"planned", r.Year.Planned}, {r.Year.OtherWay, r.Year.Other}} {
		if x.a == nil {
			continue
		}
		for i, m := range x.a.Months {
			cost := ""
			if r.Year.Priced {
				cost = form.Fixed(m.Cost, 2)
			}
			rows = append(rows, []string{x.name, form.Fixed(float64(i+1), 0), form.Fixed(m.HeatKWh, 2), form.Fixed(m.UnitKWh, 2), form.Fixed(m.ElementKWh, 2), form.Fixed(m.PumpKWh, 2), cost})
		}
	}
	return form.WriteCSV([]string{"year", "month", "heat_kWh", "unit_kWh", "element_kWh", "pump_kWh", "cost"}, rows)
}
