package table

import (
	"slices"

	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/settle"
	"dryfit/render/table/form"
)

// Unknown is one number that may be off, with the settled value it is of, where there is one.
type Unknown struct {
	spread.Sampled
	settled *Shown
}

// UnknownsOf returns what is sampled of one part or run, or of all for "".
func UnknownsOf(all []spread.Sampled, stages []*settle.Stage, of string) []Unknown {
	settled := map[settle.Key]*Shown{}
	for _, v := range ShownOf(stages, "") {
		settled[v.Key] = &v
	}
	var out []Unknown
	for _, u := range all {
		if of == "" || u.Part == of || slices.Contains(u.At, of) {
			out = append(out, Unknown{u, settled[u.Key]})
		}
	}
	return out
}

// words says what was used for it, how far that may be off and where it is from.
func (u *Unknown) words(s form.Style) assumedValue {
	return usedOf(&u.Influence, u.settled, s)
}

// unknownsBlock lists them; its Grid is nil where there are none.
func unknownsBlock(unknowns []Unknown, s form.Style) form.Block {
	b := form.Block{Title: "What may be off, and is sampled for the ranges"}
	if len(unknowns) == 0 {
		return b
	}
	b.Grid = form.NewGrid(form.Column{Head: "what", Widest: 40}, form.Column{Head: "used", Widest: 40}, form.Column{Head: "may be", Widest: 24}, form.Column{Head: "from", Widest: 60})
	for i := range unknowns {
		u := unknowns[i].words(s)
		b.Grid.Add(u.what, u.value, u.bounds, u.from)
	}
	return b
}

type unknownJSON struct {
	What  string   `json:"what"`
	Of    string   `json:"of"` // part or run; "" where numbers of several are off together
	At    []string `json:"at"` // the parts and runs it was met at
	Value string   `json:"value"`
	MayBe string   `json:"may_be"`
	Low   float64  `json:"low"` // share of the value, or with adds what is added to it
	High  float64  `json:"high"`
	Adds  bool     `json:"adds"`
	From  string   `json:"from"`
	Given bool     `json:"given"` // the description says the value
	// by what was read: a factor on the value, or with adds what is added to it; left out where it is as described
	Taken *float64 `json:"taken,omitempty"`
}

func unknownsJSON(unknowns []Unknown, s form.Style) []unknownJSON {
	out := make([]unknownJSON, 0, len(unknowns))
	for i := range unknowns {
		u := &unknowns[i]
		used := u.words(s)
		out = append(out, unknownJSON{What: u.What, Of: u.Part, At: append([]string{}, u.At...), Value: used.value, MayBe: used.bounds,
			Low: form.Round(u.Span.Low, 4), High: form.Round(u.Span.High, 4), Adds: u.Adds, From: used.from, Given: u.Given, Taken: roundedTaken(u.Taken)})
	}
	return out
}

// roundedTaken is what a number is taken as, rounded; nil: as described.
func roundedTaken(v *float64) *float64 {
	if v == nil {
		return nil
	}
	return form.Ptr(form.Round(*v, 4))
}
