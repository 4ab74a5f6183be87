package whatif

import (
	"fmt"
	"maps"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/plan"
)

// Study is a job that was planned, and what of it may be turned.
type Study struct {
	Job      Job
	Plan     *plan.Plan // with Flows
	Controls []Control

	source source
}

// Values are what controls are turned to, by their ids. Those left out stand as they are.
type Values map[string]string

// Of returns the study of a job and its plan.
func Of(j Job, p *plan.Plan) *Study {
	s := &Study{Job: j, Plan: p}
	s.source, _ = sourceOf(j.File, j.Text, p.Asked) // it was planned: it reads
	s.Controls = controlsOf(s)
	return s
}

// Control returns a control by its id, or nil.
func (s *Study) Control(id string) *Control {
	for i := range s.Controls {
		if s.Controls[i].ID == id {
			return &s.Controls[i]
		}
	}
	return nil
}

// turned returns the edits of what is turned, those of the file and those of what the tool
// built in, in the order of the controls.
func (s *Study) turned(v Values) (file, built []edit, err error) {
	for _, id := range slices.Sorted(maps.Keys(v)) {
		if s.Control(id) == nil {
			return nil, nil, fmt.Errorf("there is nothing called %q to turn", id)
		}
	}
	done := map[string]bool{}
	for i := range s.Controls {
		c := &s.Controls[i]
		value, ok := v[c.ID]
		if !ok {
			continue
		}
		stands, err := s.stands(c, v)
		if err != nil {
			return nil, nil, err
		}
		if stands {
			continue
		}
		if c.together != nil {
			if !done[c.with] {
				done[c.with] = true
				file = append(file, c.together(v)...)
			}
			continue
		}
		edits, err := c.edits(value)
		if err != nil {
			return nil, nil, err
		}
		if c.InFile {
			file = append(file, edits...)
		} else {
			built = append(built, edits...)
		}
	}
	return file, built, nil
}

// Text returns the file as it would be with what is turned in it, and the labels of what no
// key of the file says.
func (s *Study) Text(v Values) (text []byte, only []string, err error) {
	file, _, err := s.turned(v)
	if err != nil {
		return nil, nil, err
	}
	for i := range s.Controls {
		c := &s.Controls[i]
		if _, ok := v[c.ID]; ok && !c.InFile {
			if stands, err := s.stands(c, v); err == nil && !stands {
				only = append(only, c.Label)
			}
		}
	}
	text, err = s.source.with(file, located.Apply)
	return text, only, err
}

// Kept returns the parts whose loss is written with what is turned, so that it stays what it was:
// nobody gave it, and it would be taken to suit the pump as that turns then.
func (s *Study) Kept(v Values) []string {
	file, _, err := s.turned(v)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range file {
		if e.list == "part" && len(e.path) == 1 && e.path[0] == "loss" {
			if _, own := v["drop-"+e.id]; !own && !slices.Contains(out, e.id) {
				out = append(out, e.id)
			}
		}
	}
	return out
}

// Answer is what a job comes to with some values turned.
type Answer struct {
	Job  Job        // with the text that was planned
	Plan *plan.Plan // nil: the text has errors, see Found
	Fit  *plan.Plan // the one that built the work in; another than Plan where what it built in is turned
	Found

	// NoPlace is why the file with what is turned in it has no place for the cut, where the file as
	// it stands has one: the plan is then that of the work at that place all the same. nil elsewhere.
	NoPlace *graph.Diagnostic
}

// WhyNoPlace words NoPlace; "" where there is a place.
func (a *Answer) WhyNoPlace() quantity.Text {
	if a.NoPlace == nil {
		return ""
	}
	return a.NoPlace.Message
}

// Found are the findings.
type Found = []graph.Diagnostic

// Ask plans the job with what is turned: the file's text edited, and where something is turned
// that the tool built in, the description with the work in it, as cutin --write-plan writes
// it, edited.
func (s *Study) Ask(v Values, want plan.Want) (*Answer, error) {
	file, built, err := s.turned(v)
	if err != nil {
		return nil, err
	}
	text, err := s.source.with(file, located.Draft)
	if err != nil {
		return nil, err
	}
	out := &Answer{Job: s.Job}
	out.Job.Text, out.Job.Fit = text, s.fit(file)
	if _, moved := v[CutID]; moved {
		want |= plan.Places // of the one that is asked for
	}
	if len(built) > 0 {
		p, found := out.Job.Plan(plan.Flows | want&plan.Places)
		if p == nil {
			out.Found = found
			return out, nil
		}
		if at, lost := s.lostPlace(v, p); lost {
			return s.askThere(v, want, at, p)
		}
		if len(file) > 0 { // the work that is built in may be another
			if built, err = Of(out.Job, p).built(v); err != nil {
				return nil, err
			}
		}
		out.Fit = p
		planned, err := sourceOf(s.Job.File, description.Write(p.Circuit), p.Circuit)
		if err != nil {
			return nil, err
		}
		if out.Job.Text, err = planned.with(built, located.Draft); err != nil {
			return nil, err
		}
	}
	out.Plan, out.Found = out.Job.Plan(want)
	if out.Fit == nil {
		out.Fit = out.Plan
	}
	if at, lost := s.lostPlace(v, out.Fit); lost {
		return s.askThere(v, want, at, out.Fit)
	}
	return out, nil
}

// fit is what was read makes of the job with something turned: of a part that is another then, or is set
// otherwise, nobody has read anything.
func (s *Study) fit(turned []edit) *graph.Fit {
	out := s.Plan.Asked.Fit
	for _, e := range turned {
		if key, ok := e.key(); ok && (key == "type" || key == "cracking" || key == "position") {
			out = out.Without(e.id)
		}
	}
	return out
}

// key is the key of a part that an edit is of.
func (e edit) key() (key string, ok bool) {
	if e.list != "part" || len(e.path) == 0 {
		return "", false
	}
	key, ok = e.path[0].(string)
	return key, ok
}

// askThere answers with the cut at a place that the tool, which found none, does not take.
func (s *Study) askThere(v Values, want plan.Want, at string, none *plan.Plan) (*Answer, error) {
	v = maps.Clone(v)
	v[CutID] = at
	out, err := s.Ask(v, want)
	if err == nil {
		out.NoPlace = none.NoPlace()
	}
	return out, err
}

// built returns the edits of what is turned of what the tool built in; what it builds in no longer
// is left out.
func (s *Study) built(v Values) ([]edit, error) {
	var out []edit
	for i := range s.Controls {
		c := &s.Controls[i]
		value, ok := v[c.ID]
		if !ok || c.InFile {
			continue
		}
		edits, err := c.edits(value)
		if err != nil {
			return nil, err
		}
		out = append(out, edits...)
	}
	return out, nil
}

// lostPlace is the place of the cut in the job as it stands, as the control of the cut has it,
// where a plan with something turned has none; lost is false elsewhere.
func (s *Study) lostPlace(v Values, p *plan.Plan) (at string, lost bool) {
	if _, moved := v[CutID]; moved || s.Control(CutID) == nil || s.Plan.Proposal == nil || p == nil || p.Proposal != nil {
		return "", false
	}
	place := s.Plan.Proposal.Place
	return CutValue(place.Run, place.Leg, place.FromMM), true
}
