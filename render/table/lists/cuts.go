package lists

import (
	"fmt"
	"strconv"
	"strings"

	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

type pieceJSON struct {
	Piece          int      `json:"piece"`
	Run            string   `json:"run"`
	Leg            int      `json:"leg"`
	Spec           string   `json:"spec"`
	Size           string   `json:"size"`
	Cut            float64  `json:"cut_mm"`
	CentreToCentre float64  `json:"centre_to_centre_mm"`
	From           endJSON  `json:"from"`
	To             endJSON  `json:"to"`
	Measure        []string `json:"measure_first,omitempty"`
	OnSite         bool     `json:"cut_on_site,omitempty"`
	Over           float64  `json:"over_mm,omitempty"`
	FitJoint       int      `json:"fit_at_joint,omitempty"`
}

type endJSON struct {
	Fitting string  `json:"fitting"`
	Joint   int     `json:"joint,omitempty"`
	TakeOff float64 `json:"takeoff_mm"`
	Depth   float64 `json:"depth_mm"`
}

type stockPlanJSON struct {
	Spec       string      `json:"spec"`
	Size       string      `json:"size"`
	Bars       []barJSON   `json:"bars"`
	Cost       form.Amount `json:"cost"`
	Bought     float64     `json:"bought_mm"`
	Kerf       float64     `json:"kerf_mm"` // of each cut
	Proved     bool        `json:"proved_optimal"`
	LowerBound form.Amount `json:"lower_bound"`
	Proof      string      `json:"proof"`
	Unplaced   []int       `json:"unplaced,omitempty"`
}

type barJSON struct {
	Stock  float64     `json:"stock_mm"`
	Price  form.Amount `json:"price"`
	Own    bool        `json:"offcut_in_van,omitempty"`
	Pieces []int       `json:"pieces"`
	Offcut float64     `json:"offcut_mm"`
}

// CutsJSON prints the cut list and the stock plans.
func CutsJSON(p *plan.Plan, style form.Style) ([]byte, error) {
	out := struct {
		Not    string          `json:"not_to_be_built,omitempty"`
		Pieces []pieceJSON     `json:"pieces"`
		Plans  []stockPlanJSON `json:"plans"`
		Kerf   float64         `json:"kerf_mm"`
	}{Pieces: []pieceJSON{}, Plans: []stockPlanJSON{}, Kerf: form.MM(p.Cuts.KerfMM)}
	if why := p.WhyNot(); why != "" {
		out.Not = style.Say(why)
		return form.WriteJSON(out)
	}
	out.Not = style.Say(faulty(p))
	for _, c := range p.Cuts.Pieces {
		from, to := end(c.From), end(c.To)
		if out.Not != "" {
			from.Joint, to.Joint, c.OverMM, c.FitJoint = 0, 0, 0, 0
		}
		out.Pieces = append(out.Pieces, pieceJSON{
			Piece: c.Number, Run: runID(c), Leg: c.Leg, Spec: string(c.Spec), Size: c.Size.String(),
			Cut: form.MM(c.CutMM), CentreToCentre: form.MM(c.CentreToCentreMM),
			From: from, To: to, Measure: c.MeasureWhat, OnSite: c.OnSite, Over: form.MM(c.OverMM), FitJoint: c.FitJoint,
		})
	}
	for _, s := range p.Cuts.Plans {
		out.Plans = append(out.Plans, stockPlan(s, style))
	}
	return form.WriteJSON(out)
}

func runID(c route.Piece) string {
	if c.Run == nil {
		return ""
	}
	return c.Run.ID
}

// runWords is runID in a column: a run that nobody named by the parts it joins, as is any on
// paper.
func runWords(c route.Piece, names *tag.Names) string {
	if names != nil && c.Run != nil {
		return names.Run(c.Run.ID)
	}
	if c.Run == nil || c.Run.Named {
		return runID(c)
	}
	return c.Run.From.Part + " to " + c.Run.To.Part
}

func end(e route.End) endJSON {
	return endJSON{Fitting: e.Fitting, Joint: e.Joint, TakeOff: form.MM(e.TakeOffMM), Depth: form.MM(e.DepthMM)}
}

func stockPlan(s takeoff.StockPlan, style form.Style) stockPlanJSON {
	out := stockPlanJSON{
		Spec: string(s.Spec), Size: s.Size.String(), Bars: []barJSON{}, Bought: form.MM(s.CostLengthMM), Kerf: form.MM(s.KerfMM),
		Proved: s.ProvedOptimal, LowerBound: form.Amount(s.LowerBound), Proof: style.Say(s.Proof), Unplaced: s.Unplaced,
	}
	out.Cost = form.Amount(s.Cost)
	for _, b := range s.Bars {
		out.Bars = append(out.Bars, barJSON{form.MM(b.StockMM), form.Amount(b.Price), b.Offcut, b.Pieces, form.MM(b.OffcutMM)})
	}
	return out
}

// CutsCSV prints the pieces, a line each; of a place that is ruled out none. What is not to be built
// says why in a column of its own, first.
func CutsCSV(p *plan.Plan, style form.Style) ([]byte, error) {
	heads := []string{"piece", "run", "leg", "spec", "size", "cut_mm", "centre_to_centre_mm",
		"from", "from_takeoff_mm", "from_depth_mm", "to", "to_takeoff_mm", "to_depth_mm", "bar", "measure_first", "over_mm", "fit_at_joint", "cut_on_site"}
	if why := p.WhyNot(); why != "" {
		row := make([]string, len(heads)+1)
		row[0] = form.Cell(style.Say(why))
		return form.WriteCSV(append([]string{"not_to_be_built"}, heads...), [][]string{row}), nil
	}
	bars, why := barOf(p.Cuts), style.Say(faulty(p))
	var rows [][]string
	for _, c := range p.Cuts.Pieces {
		if why != "" {
			c.OverMM, c.FitJoint = 0, 0
		}
		row := []string{
			strconv.Itoa(c.Number), form.Cell(runID(c)), strconv.Itoa(c.Leg), string(c.Spec), c.Size.String(),
			form.Fixed(c.CutMM, 1), form.Fixed(c.CentreToCentreMM, 1),
			form.Cell(c.From.Fitting), form.Fixed(c.From.TakeOffMM, 1), form.Fixed(c.From.DepthMM, 1),
			form.Cell(c.To.Fitting), form.Fixed(c.To.TakeOffMM, 1), form.Fixed(c.To.DepthMM, 1),
			bars[c.Number], form.Cell(strings.Join(c.MeasureWhat, "; ")), overCell(c.OverMM), numberCell(c.FitJoint), strconv.FormatBool(c.OnSite),
		}
		if why != "" {
			row = append([]string{form.Cell(why)}, row...)
		}
		rows = append(rows, row)
	}
	if why != "" {
		heads = append([]string{"not_to_be_built"}, heads...)
	}
	return form.WriteCSV(heads, rows), nil
}

// barOf names the bar each piece comes from: "1.2" is the second bar of the first plan.
func barOf(list *takeoff.CutList) map[int]string {
	out := map[int]string{}
	for i, s := range list.Plans {
		for k, b := range s.Bars {
			for _, n := range b.Pieces {
				out[n] = fmt.Sprintf("%d.%d", i+1, k+1)
			}
		}
	}
	return out
}

// overCell is by how much a piece is left long; empty for none.
func overCell(mm float64) string {
	if mm == 0 {
		return ""
	}
	return form.Fixed(mm, 1)
}

func numberCell(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}
