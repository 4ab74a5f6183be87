package heating

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/match"
	"dryfit/render/table/form"
)

// MatchText prints which units suit which tubs: a table for each tub, and where there are several
// tubs one of them all; each in the units of its own style.
func MatchText(tubs []*match.Tub, styles []form.Style) []byte {
	var out []form.Block
	s := form.Style{}
	for i, t := range tubs {
		s = styles[i]
		out = append(out, matchBlock(t, s))
	}
	if len(tubs) > 1 {
		out = append(out, matchAll(tubs))
	}
	return form.Text(out, s)
}

func matchBlock(t *match.Tub, s form.Style) form.Block {
	w := reporter{s: s, currency: t.Job.Currency}
	columns := []form.Column{{Head: "unit"}, {Head: "suits", Widest: 30}, {Head: "holds to", Right: true}, {Head: "heats up h", Right: true}}
	modes := modesOf(t)
	for _, m := range modes {
		columns = append(columns, form.Column{Head: m, Right: true})
	}
	columns = append(columns, form.Column{Head: "asks for", Right: true}, form.Column{Head: "A/start/fuse", Right: true})
	year, priced := yearOfMatch(t)
	if year {
		columns = append(columns, form.Column{Head: "kWh a year", Right: true})
	}
	if priced {
		columns = append(columns, form.Column{Head: strings.TrimSpace(t.Job.Currency + " a year"), Right: true})
	}
	g := form.NewGrid(columns...)
	for i := range t.Units {
		u := &t.Units[i]
		cells := []string{unitName(u), suitsWords(u, s), "-", "never"}
		if t.Cold {
			cells[3] = "-"
		}
		if u.HoldsKnown {
			cells[2] = w.warm(u.HoldsC)
		}
		if !math.IsInf(u.Hours, 1) {
			cells[3] = form.Fixed(u.Hours, 1)
		}
		for _, m := range modes {
			cells = append(cells, flowAt(u, m, s))
		}
		cells = append(cells, asksFor(u, s), form.Fixed(u.FullLoadA, 1)+" / "+form.Fixed(u.StartingA, 0)+" / "+cmp.Or(fuseWords(u), "?"))
		if year {
			cells = append(cells, kWh(u.Year.KWh))
		}
		if priced {
			cells = append(cells, form.Fixed(u.Year.Cost, 0))
		}
		g.Add(cells...)
	}
	title := t.File
	if t.Job.Name != "" {
		title += ": " + t.Job.Name
	}
	return form.Block{Title: title, Grid: g, Lines: w.underMatch(t, year, priced)}
}

// underMatch is what stands under the table of a tub's units: what they are held against, how the rows
// were looked at, and what is left out of it.
func (h reporter) underMatch(t *match.Tub, year, priced bool) []string {
	line := fmt.Sprintf("held at %s in air of %s", h.warm(t.WaterC), h.warm(t.AirC))
	if t.WithinH > 0 {
		line += ", heated up in " + form.Fixed(t.WithinH, 1) + " h"
	}
	lines := []string{
		line + "; flows and what it asks for, least to most, in " + flowUnit(h.s),
		"A at full load, at a start, and the fuse or breaker it asks for; for the electrician to decide and to check",
		"rows of the catalogue are usual figures for their size, each at the flow it would get in this unit's place, a new valve in the bypass set for it, a new spring that nobody asked for chosen for it; read the sheet before you order",
	}
	if !t.Cold {
		lines = append(lines, "heats up: without an element's share") // which heat counts in
	}
	if t.Read {
		lines = append(lines, "flows are not those of the case as described: what was read at the tub contradicts it, and they are by that")
	}
	if !year {
		lines = append(lines, "what a year takes: say [climate]")
	} else if !priced {
		lines = append(lines, "what a year costs: say [tariff] price")
	}
	if t.LeftOut > 0 {
		lines = append(lines, fmt.Sprintf("%d rows more were not looked at", t.LeftOut))
	}
	return lines
}

// matchAll sets every unit against every tub.
func matchAll(tubs []*match.Tub) form.Block {
	columns := []form.Column{{Head: "unit"}}
	var names []string
	at := map[string]map[string]*match.Unit{}
	for _, t := range tubs {
		columns = append(columns, form.Column{Head: strings.TrimSuffix(filepath.Base(t.File), ".toml")})
		at[t.File] = map[string]*match.Unit{}
		for i := range t.Units {
			u := &t.Units[i]
			name := u.Name
			if u.This {
				name = "the job's own"
			}
			if at[t.File][name] = u; !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	g := form.NewGrid(columns...)
	for _, n := range names {
		cells := []string{n}
		for _, t := range tubs {
			word := ""
			if u := at[t.File][n]; u != nil {
				if word = "no"; u.Suits() {
					word = "yes"
				}
			}
			cells = append(cells, word)
		}
		g.Add(cells...)
	}
	return form.Block{Title: "Which suits which", Grid: g}
}

// modesOf lists the modes in which any of the units gets water, in their order.
func modesOf(t *match.Tub) []string {
	var out []string
	for i := range t.Units {
		for _, f := range t.Units[i].Flows {
			if !slices.Contains(out, f.Mode) {
				out = append(out, f.Mode)
			}
		}
	}
	return out
}

func yearOfMatch(t *match.Tub) (year, priced bool) {
	return len(t.Units) > 0 && t.Units[0].Year != nil, len(t.Units) > 0 && t.Units[0].Priced
}

func unitName(u *match.Unit) string {
	switch {
	case u.This:
		return u.Name + " (this job's)"
	case u.Own:
		return u.Name + " (your row)"
	}
	return u.Name
}

func suitsWords(u *match.Unit, s form.Style) string {
	if u.Suits() {
		return "yes"
	}
	var out []string
	for _, r := range u.Reasons {
		out = append(out, s.Say(r))
	}
	return "no: " + strings.Join(out, ", ")
}

func flowUnit(s form.Style) string {
	if s.Units == quantity.InchSystem {
		return "gpm"
	}
	return "m3/h"
}

func flowWords(m3s float64, s form.Style) string {
	return form.Fixed(quantity.In(m3s, quantity.Flow, flowUnit(s)), 1)
}

func flowAt(u *match.Unit, mode string, s form.Style) string {
	for _, f := range u.Flows {
		if f.Mode == mode {
			return flowWords(f.M3s, s)
		}
	}
	return "none"
}

func asksFor(u *match.Unit, s form.Style) string {
	if u.Least <= 0 && u.Most <= 0 {
		return "not known"
	}
	return flowWords(u.Least, s) + " to " + flowWords(u.Most, s)
}

func fuseWords(u *match.Unit) string {
	if u.FuseA <= 0 {
		return ""
	}
	return form.Fixed(u.FuseA, 0)
}

type matchJSON struct {
	Tubs []matchTubJSON `json:"tubs"`
}

type matchTubJSON struct {
	File    string          `json:"file"`
	Job     string          `json:"job,omitempty"`
	Air     float64         `json:"air_C"`
	Water   float64         `json:"water_C"`
	Within  *float64        `json:"heat_up_in_h,omitempty"`
	Units   []matchUnitJSON `json:"units"`
	LeftOut int             `json:"not_looked_at,omitempty"`
}

type matchUnitJSON struct {
	Unit     string          `json:"unit"`
	This     bool            `json:"this"`
	Suits    bool            `json:"suits"`
	Reasons  []string        `json:"reasons"`
	Holds    bool            `json:"holds"`
	HoldsTo  *float64        `json:"holds_down_to_C,omitempty"`
	Gives    float64         `json:"unit_gives_W"`
	Loses    float64         `json:"loses_W"`
	Hours    *float64        `json:"hours"`
	Flows    []matchFlowJSON `json:"flows"`
	Least    float64         `json:"least_m3_h"`
	Rated    float64         `json:"rated_m3_h"`
	Most     float64         `json:"most_m3_h"`
	FullLoad float64         `json:"full_load_A"`
	Starting float64         `json:"starting_A"`
	Fuse     *float64        `json:"fuse_A,omitempty"`
	Over     float64         `json:"over_A"`
	KWh      *float64        `json:"kWh_year,omitempty"`
	Cost     *float64        `json:"cost_year,omitempty"`
	Assumed  bool            `json:"ratings_assumed"`
}

type matchFlowJSON struct {
	Mode string  `json:"mode"`
	Flow float64 `json:"flow_m3_h"`
}

// MatchJSON prints the units of every tub for other programs.
func MatchJSON(tubs []*match.Tub) ([]byte, error) {
	out := matchJSON{Tubs: []matchTubJSON{}}
	for _, t := range tubs {
		j := matchTubJSON{File: t.File, Job: t.Job.Name, Air: form.Round(t.AirC, 2), Water: form.Round(t.WaterC, 2), Units: []matchUnitJSON{}, LeftOut: t.LeftOut}
		if t.WithinH > 0 {
			j.Within = form.Ptr(form.Round(t.WithinH, 2))
		}
		for i := range t.Units {
			j.Units = append(j.Units, matchUnitOf(&t.Units[i]))
		}
		out.Tubs = append(out.Tubs, j)
	}
	return form.WriteJSON(out)
}

func matchUnitOf(u *match.Unit) matchUnitJSON {
	j := matchUnitJSON{Unit: u.Name, This: u.This, Suits: u.Suits(), Reasons: []string{}, Holds: u.Hold, Gives: form.Round(u.HeldW, 1), Loses: form.Round(u.LostW, 1), Flows: []matchFlowJSON{},
		Least: form.M3h(u.Least), Rated: form.M3h(u.Rated), Most: form.M3h(u.Most), FullLoad: form.Round(u.FullLoadA, 2), Starting: form.Round(u.StartingA, 2), Over: form.Round(u.OverA, 2), Assumed: u.RatingsAssumed}
	for _, r := range u.Reasons {
		j.Reasons = append(j.Reasons, r.String())
	}
	if u.HoldsKnown {
		j.HoldsTo = form.Ptr(form.Round(u.HoldsC, 1))
	}
	if !math.IsInf(u.Hours, 1) {
		j.Hours = form.Ptr(form.Round(u.Hours, 2))
	}
	for _, f := range u.Flows {
		j.Flows = append(j.Flows, matchFlowJSON{f.Mode, form.M3h(f.M3s)})
	}
	if u.FuseA > 0 {
		j.Fuse = form.Ptr(form.Round(u.FuseA, 1))
	}
	if u.Year != nil {
		j.KWh = form.Ptr(form.Round(u.Year.KWh, 1))
		if u.Priced {
			j.Cost = form.Ptr(form.Round(u.Year.Cost, 2))
		}
	}
	return j
}

// MatchCSV prints a line for each tub and unit.
func MatchCSV(tubs []*match.Tub) []byte {
	var rows [][]string
	for _, t := range tubs {
		for i := range t.Units {
			u := &t.Units[i]
			suits, holds, hours, kWhYear, cost := "yes", "", "", "", ""
			if !u.Suits() {
				suits = "no"
			}
			if u.HoldsKnown {
				holds = form.Fixed(u.HoldsC, 1)
			}
			if !math.IsInf(u.Hours, 1) {
				hours = form.Fixed(u.Hours, 2)
			}
			if u.Year != nil {
				if kWhYear = form.Fixed(u.Year.KWh, 1); u.Priced {
					cost = form.Fixed(u.Year.Cost, 2)
				}
			}
			var reasons, flows []string
			for _, r := range u.Reasons {
				reasons = append(reasons, r.String())
			}
			for _, f := range u.Flows {
				flows = append(flows, f.Mode+" "+form.Fixed(form.M3h(f.M3s), 3))
			}
			rows = append(rows, []string{form.Cell(t.File), form.Cell(u.Name), suits, form.Cell(strings.Join(reasons, "; ")), holds, hours, form.Cell(strings.Join(flows, "; ")),
				form.Fixed(form.M3h(u.Least), 3), form.Fixed(form.M3h(u.Rated), 3), form.Fixed(form.M3h(u.Most), 3), form.Fixed(u.FullLoadA, 2), form.Fixed(u.StartingA, 2), fuseWords(u), form.Fixed(u.OverA, 2), kWhYear, cost})
		}
	}
	return form.WriteCSV([]string{"file", "unit", "suits", "reasons", "holds_down_to_C", "hours", "flows_m3_h", "least_m3_h", "rated_m3_h", "most_m3_h", "full_load_A", "starting_A", "fuse_A", "over_A", "kWh_year", "cost_year"}, rows)
}
