// Package whatif asks what a job comes to when some values of its description are others: it
// edits the text, reads it and plans it as every verb does, so that its answers are those of
// the edited file. Nothing here touches a file.
package whatif

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// Job is a description as text, with what lies beside it.
type Job struct {
	File     string // what messages call it
	Text     []byte
	Catalogs []File // files of catalogue rows, laid over the built-in ones in turn
	Weather  []byte // what the file named by [climate] holds; nil where none is named
	Photos   []File // that [job] names, as the papers show them: reduced JPEG
	Units    string // "metric" or "inch"; "": what the description says
	// Fit is what was read on the tub as it stands makes of the job before anything is turned: what is
	// turned is turned from there, for nobody has read that. nil: what was read holds of the text itself.
	Fit *graph.Fit
}

// File is a file beside the description.
type File struct {
	Name string
	Data []byte
}

// Read reads the description. The circuit is nil where it has errors; the findings are those
// of reading alone.
func (j *Job) Read() (*graph.Circuit, []graph.Diagnostic) {
	var rows []catalog.Row
	var found []graph.Diagnostic
	for _, f := range j.Catalogs {
		r, ds := description.ReadCatalog(f.Name, f.Data)
		rows, found = append(rows, r...), append(found, ds...)
	}
	c, ds := description.ReadWith(j.File, j.Text, rows)
	found = append(ds, found...)
	if c == nil || graph.HasErrors(found) {
		return nil, found
	}
	if c.Climate != nil && c.Climate.File != "" {
		c.Climate.Data = j.Weather
	}
	if j.Units != "" {
		c.Job.Units = j.Units
	}
	c.Fit = j.Fit
	return c, found
}

// Plan reads the description and works it out. The plan is nil where the description has
// errors, which are returned; else its findings hold those of reading too.
func (j *Job) Plan(want plan.Want) (*plan.Plan, []graph.Diagnostic) {
	c, found := j.Read()
	if c == nil {
		return nil, found
	}
	p, err := plan.Make(c, want)
	if err != nil { // no circuit: Read has returned one
		return nil, found
	}
	p.Findings = graph.SortDiagnostics(append(slices.Clone(found), p.Findings...))
	return p, p.Findings
}

// System is the units a plan of the job is printed in.
func (j *Job) System(c *graph.Circuit) quantity.System {
	if j.Units == "" && c != nil {
		return quantity.SystemOf(c.Job.Units)
	}
	return quantity.SystemOf(j.Units)
}
