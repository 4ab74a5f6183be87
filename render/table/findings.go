package table

import (
	"strconv"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// Finding is a finding as it stands in JSON.
type Finding struct {
	File     string    `json:"file"`
	Line     int       `json:"line"`
	Column   int       `json:"column"`
	Severity string    `json:"severity"`
	Rule     string    `json:"rule"`
	Message  string    `json:"message"`
	Hint     string    `json:"hint"`
	Related  []Related `json:"related"`
}

// Related is another place that a finding names.
type Related struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
}

// FindingsJSON prints findings as one object, with what was not judged: see NotJudged.
func FindingsJSON(ds []graph.Diagnostic, s form.Style, notJudged ...string) ([]byte, error) {
	return form.WriteJSON(struct {
		Findings  []Finding `json:"findings"`
		NotJudged []string  `json:"not_judged,omitempty"`
	}{FindingsOf(ds, s), notJudged})
}

// NotJudged says which promises nobody judged, for no ranges were made; "" where they were, or
// there is no unit to promise anything to.
func NotJudged(p *plan.Plan) string {
	if p.Ranges != nil || p.After == nil || len(p.After.Circuit.Units()) == 0 {
		return ""
	}
	return "how sure the unit's flow and the pressures are: not judged: ranges are made by flow and pack"
}

// FindingsOf are findings as they stand in JSON, in their order.
func FindingsOf(ds []graph.Diagnostic, s form.Style) []Finding {
	out := make([]Finding, 0, len(ds))
	for _, d := range ds {
		f := Finding{
			File: d.Pos.File, Line: d.Pos.Line, Column: d.Pos.Column,
			Severity: d.Severity.String(), Rule: d.Rule, Message: s.Say(d.Message), Hint: s.Say(d.Hint),
			Related: make([]Related, 0, len(d.Related)),
		}
		for _, r := range d.Related {
			f.Related = append(f.Related, Related{r.Pos.File, r.Pos.Line, r.Pos.Column, s.Say(r.Message)})
		}
		out = append(out, f)
	}
	return out
}

// FindingsCSV prints findings a line each.
func FindingsCSV(ds []graph.Diagnostic, s form.Style) []byte {
	rows := make([][]string, 0, len(ds))
	for _, d := range ds {
		rows = append(rows, []string{
			form.Cell(d.Pos.File), strconv.Itoa(d.Pos.Line), strconv.Itoa(d.Pos.Column),
			d.Severity.String(), d.Rule, form.Cell(s.Say(d.Message)), form.Cell(s.Say(d.Hint)),
		})
	}
	return form.WriteCSV([]string{"file", "line", "column", "severity", "rule", "message", "hint"}, rows)
}
