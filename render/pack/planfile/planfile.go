package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/graph/route"
	"dryfit/render/drawing"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/table/lists"
	"dryfit/render/tag"
)

// planFormat names the form of plan.json. It goes up when a reader of an earlier form would
// misread a later one; keys may be added without that. DEVELOPERS.md has the form.
const planFormat = "dryfit-plan-1"

// planFile is plan.json: all of a pack for other programs, lengths in mm, flows in m³/h, ids
// and not names.
type planFile struct {
	Format      string            `json:"format"`
	Fingerprint string            `json:"fingerprint"`
	File        string            `json:"description"`
	Job         jobFile           `json:"job"`
	Fault       string            `json:"not_to_be_built,omitempty"` // the first error
	Tags        map[string]string `json:"tags"`                      // of the parts, by id
	Marking     []markFile        `json:"marking"`
	Joints      []jointFile       `json:"joints"`
	Ways        []wayFile         `json:"ways"` // of the new runs, and of what is left of those that are cut
	Order       []stepFile        `json:"order"`
	Gets        []getsFile        `json:"flows_in_short"`
	Findings    json.RawMessage   `json:"findings"`
	Parts       json.RawMessage   `json:"parts,omitempty"` // as dryfit parts --format json
	Cuts        json.RawMessage   `json:"cuts,omitempty"`  // as dryfit cuts
	Flow        json.RawMessage   `json:"flow,omitempty"`  // as dryfit flow
	Heat        json.RawMessage   `json:"heat,omitempty"`  // as dryfit heat
}

type jobFile struct {
	Name      string `json:"name"`
	Reference string `json:"reference,omitempty"`
	Revision  string `json:"revision,omitempty"`
	Date      string `json:"date,omitempty"`
}

type markFile struct {
	Run      string  `json:"run"`
	From     string  `json:"from"`
	FirstMM  float64 `json:"first_mm"`
	SecondMM float64 `json:"second_mm"`
}

type jointFile struct {
	Joint int    `json:"joint"`
	Kind  string `json:"kind"`
	A     string `json:"a"`
	B     string `json:"b"`
	Run   string `json:"run,omitempty"`
}

// wayFile is which way a run goes, leg by leg, in the words of a description: "front", "down", and of a slant
// "right and up".
type wayFile struct {
	Run  string   `json:"run"`
	Legs []string `json:"legs"`
}

type stepFile struct {
	Step   int    `json:"step"`
	Phase  string `json:"phase"`
	Joints []int  `json:"joints"`
	Text   string `json:"text"`
}

type getsFile struct {
	Mode      string     `json:"mode"`
	Unit      *float64   `json:"unit_m3_h,omitempty"`
	Described *float64   `json:"unit_as_described_m3_h,omitempty"` // where what was read contradicts it, and the others fit that
	Past      *float64   `json:"past_the_unit_m3_h,omitempty"`
	Jets      *float64   `json:"jets_m3_h,omitempty"`
	Today     *float64   `json:"jets_today_m3_h,omitempty"`
	Units     []unitGets `json:"units,omitempty"` // every one that has water, where there are several
}

// unitGets is what one of several units gets in a mode: as flow prints it, its flow and what passes it by
// the names they have in flows_in_short besides.
type unitGets struct {
	table.UnitFlow
	Unit float64  `json:"unit_m3_h"`
	Past *float64 `json:"past_the_unit_m3_h,omitempty"` // where something throttles or checks its bypass
}

var phaseNames = map[route.Phase]string{route.Bench: "bench", route.Waits: "bench, when the unit stands", route.InLine: "in the old line", route.Pipes: "pipes to the unit", route.Unit: "at the unit"}

// JSON writes plan.json.
func JSON(p *plan.Plan, style form.Style) ([]byte, error) {
	job := p.Circuit.Job
	f := planFile{Format: planFormat, Fingerprint: drawing.Fingerprint(p), File: filepath.Base(p.Circuit.File),
		Job:  jobFile{job.Name, job.Reference, job.Revision, job.Date},
		Tags: map[string]string{}, Marking: []markFile{}, Joints: []jointFile{}, Ways: []wayFile{}, Order: []stepFile{}, Gets: []getsFile{}}
	if d := p.Fault(); d != nil {
		f.Fault = d.Message.In(style.Units)
	}
	names := tag.Of(p.Circuit, p.Net())
	for _, part := range p.Circuit.Parts {
		f.Tags[part.ID] = names.Tag(part.ID)
	}
	f.Marking = append(f.Marking, marks(p)...)
	if p.After != nil && p.After.Layout != nil {
		for _, j := range p.After.Layout.Joints {
			f.Joints = append(f.Joints, jointFile{j.Number, j.Kind, j.A, j.B, j.Run})
		}
		f.Ways = append(f.Ways, ways(p.After.Layout.Circuit.Runs)...)
	}
	if p.Assembly != nil && p.RuledOut() == nil {
		for _, s := range p.Assembly.Steps {
			f.Order = append(f.Order, stepFile{s.Number, phaseNames[s.Phase], s.Joints, s.Text})
		}
	}
	for _, m := range plan.Summarise(p) {
		f.Gets = append(f.Gets, getsOf(&m))
	}
	if err := f.verbs(p, style); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(f); err != nil {
		return nil, fmt.Errorf("writing plan.json: %w", err)
	}
	return out.Bytes(), nil
}

// getsOf is what a mode comes to: of the job's own unit, and where there are several of each.
func getsOf(m *plan.ModeSummary) getsFile {
	hourly := func(v float64, there bool) *float64 {
		if !there {
			return nil
		}
		v = tidy(v*3600, 4)
		return &v
	}
	g := getsFile{Mode: m.Mode,
		Unit: hourly(m.Unit, m.HasUnit), Described: hourly(m.Own().AsDescribed, m.Own().AsDescribed > 0), Past: hourly(m.Bypass, m.HasUnit && m.Past != ""),
		Jets: hourly(m.Jets, m.HasJets), Today: hourly(m.JetsToday, m.HasToday)}
	for _, u := range table.UnitFlows(m) {
		g.Units = append(g.Units, unitGets{UnitFlow: u, Unit: u.Flow, Past: u.Bypass})
	}
	return g
}

// marks are the pairs of cuts: of the proposal, else those of the work that the description draws;
// none where the place is ruled out, for there nothing is sawn.
func marks(p *plan.Plan) []markFile {
	if p.RuledOut() != nil {
		return nil
	}
	var out []markFile
	if p.Proposal != nil && p.Proposal.Marking.Run != "" {
		for _, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
			if m != nil && m.Run != "" {
				out = append(out, markFile{m.Run, m.From, tidy(m.FirstMM, 2), tidy(m.SecondMM, 2)})
			}
		}
		return out
	}
	for _, c := range drawing.Sawn(p) {
		if !c.Second || c.Other == "" { // a pair stands once, a cut without another by itself
			out = append(out, markFile{c.Run, c.From, tidy(c.FromMM, 2), tidy(c.FromMM+c.OtherMM, 2)})
		}
	}
	return out
}

// ways are those of the runs the work lays or leaves of what it cuts; of one known only by its length none.
func ways(runs []*graph.Run) []wayFile {
	var out []wayFile
	for _, r := range runs {
		if r.Existing && r.RemainsOf == "" || len(r.Legs) == 0 {
			continue
		}
		w := wayFile{Run: r.ID}
		for _, l := range r.Legs {
			w.Legs = append(w.Legs, graph.WayWords(l.By))
		}
		out = append(out, w)
	}
	return out
}

// verbs fills in what the verbs print as JSON.
func (f *planFile) verbs(p *plan.Plan, style form.Style) error {
	findings, err := table.FindingsJSON(Bare(p.Findings), style)
	if err != nil {
		return err
	}
	var only struct {
		Findings json.RawMessage `json:"findings"`
	}
	if err := json.Unmarshal(findings, &only); err != nil {
		return fmt.Errorf("findings: %w", err)
	}
	f.Findings = only.Findings
	for _, v := range []struct {
		into  *json.RawMessage
		there bool
		print func() ([]byte, error)
	}{
		{&f.Parts, p.Bill != nil, func() ([]byte, error) { return lists.PartsJSON(p, style) }},
		{&f.Cuts, p.Cuts != nil, func() ([]byte, error) { return lists.CutsJSON(p, style) }},
		{&f.Flow, p.After != nil && len(p.After.Solutions) > 0, func() ([]byte, error) { return table.FlowJSON(p, style) }},
		{&f.Heat, p.Heat != nil, func() ([]byte, error) { return heating.JSON(p.Heat, style) }},
	} {
		if !v.there {
			continue
		}
		data, err := v.print()
		if err != nil {
			return err
		}
		*v.into = data
	}
	return nil
}

func tidy(v float64, decimals int) float64 { return quantity.Round(v, decimals) }

// Earlier is what of an earlier pack a new one is held against.
type Earlier struct {
	file   planFile
	pieces []earlierPiece
}

type earlierPiece struct {
	Piece int     `json:"piece"`
	Run   string  `json:"run"`
	Spec  string  `json:"spec"`
	Size  string  `json:"size"`
	Cut   float64 `json:"cut_mm"`
	Over  float64 `json:"over_mm"` // it is sawn so much longer, and cut when it is fitted
}

// Read reads the plan.json of an earlier pack.
func Read(data []byte) (*Earlier, error) {
	var e Earlier
	if err := json.Unmarshal(data, &e.file); err != nil {
		return nil, fmt.Errorf("is no plan.json: %w", err)
	}
	if e.file.Format != planFormat {
		return nil, fmt.Errorf("has the form %q; this dryfit reads %q", graph.Inert(e.file.Format), planFormat)
	}
	var cuts struct {
		Pieces []earlierPiece `json:"pieces"`
	}
	if len(e.file.Cuts) > 0 {
		if err := json.Unmarshal(e.file.Cuts, &cuts); err != nil {
			return nil, fmt.Errorf("has cuts that can't be read: %w", err)
		}
	}
	e.pieces = cuts.Pieces
	return &e, nil
}

// Bare returns the findings with their files named without the folder: where a job lay
// when it was packed is no part of it.
func Bare(ds []graph.Diagnostic) []graph.Diagnostic {
	out := slices.Clone(ds)
	for i := range out {
		if out[i].Pos.File != "" {
			out[i].Pos.File = filepath.Base(out[i].Pos.File)
		}
		out[i].Related = slices.Clone(out[i].Related)
		for k := range out[i].Related {
			out[i].Related[k].Pos.File = filepath.Base(out[i].Related[k].Pos.File)
		}
	}
	return out
}
