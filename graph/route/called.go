package route

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Called puts words in the place of ids nobody wrote: those of new runs that go by what they join,
// and of what is left of old pipe. Elbows of new pipe go by the pieces they stand between, as on the
// papers.
type Called struct {
	runs []calledRun
}

// calledRun is one run with such an id.
type calledRun struct {
	id    string
	words string            // `the new pipe from "v1" to "union-1"`, or the id of the old pipe
	bends map[string]string // "2" -> "between pieces 4 and 5"
	isNew bool
}

// CalledIn returns the words for a circuit; lay is its layout, nil where it is not laid out.
func CalledIn(of *graph.Circuit, lay *Layout) *Called {
	c := &Called{}
	bends := map[string]map[string]string{}
	if lay != nil {
		for i := range lay.Paths {
			bends[lay.Paths[i].Run.ID] = lay.bends(&lay.Paths[i])
		}
	}
	for _, r := range of.Runs {
		switch {
		case r.Named || r.Existing && r.RemainsOf == "":
			continue
		case r.RemainsOf != "":
			c.runs = append(c.runs, calledRun{id: r.ID, words: r.RemainsOf})
		default:
			c.runs = append(c.runs, calledRun{id: r.ID, words: newPipe(r.From.Part, r.To.Part), bends: bends[r.ID], isNew: true})
		}
	}
	// an id that is the end of another stands behind it
	slices.SortStableFunc(c.runs, func(a, b calledRun) int { return cmp.Compare(len(b.id), len(a.id)) })
	return c
}

// newPipe names a new run by the parts it joins.
func newPipe(from, to string) string { return fmt.Sprintf("the new pipe from %q to %q", from, to) }

// joins is an id of a run that goes by what it joins, with the words that may stand before it.
var joins = regexp.MustCompile(`(?:run )?"?\b([\w-]+)\.[\w-]+>([\w-]+)\.[\w-]+"?`)

// Unwritten puts words in the place of the ids of runs that go by what they join and that the
// description does not have: of a proposal whose circuit is no longer there.
func Unwritten(asked *graph.Circuit, t quantity.Text) quantity.Text {
	if !strings.Contains(string(t), ">") {
		return t
	}
	return quantity.Text(joins.ReplaceAllStringFunc(string(t), func(s string) string {
		if asked.Run(strings.Trim(strings.TrimPrefix(s, "run "), `"`)) != nil {
			return s
		}
		m := joins.FindStringSubmatch(s)
		return newPipe(m[1], m[2])
	}))
}

// bends says between which pieces each bend of a path stands.
func (lay *Layout) bends(path *Path) map[string]string {
	out := map[string]string{}
	for n := 1; n < len(path.Points)-1; n++ {
		var before, after int
		for _, k := range path.Pieces {
			switch p := &lay.Pieces[k]; {
			case p.Leg <= n:
				before = max(before, p.Number)
			case after == 0:
				after = p.Number
			}
		}
		if before > 0 && after > 0 {
			out[fmt.Sprint(n)] = fmt.Sprintf("between pieces %d and %d", before, after)
		}
	}
	return out
}

// Text is a text without such ids.
func (c *Called) Text(t quantity.Text) quantity.Text {
	if c == nil || !strings.Contains(string(t), ">") {
		return t
	}
	text := string(t)
	for i := range c.runs {
		r := &c.runs[i]
		if !strings.Contains(text, r.id) {
			continue
		}
		if !r.isNew {
			text = strings.ReplaceAll(text, r.id, r.words)
			continue
		}
		bend := regexp.MustCompile(`(?:at )?bend (\d+) of ` + regexp.QuoteMeta(r.id))
		text = bend.ReplaceAllStringFunc(text, func(s string) string {
			if words := r.bends[bend.FindStringSubmatch(s)[1]]; words != "" {
				return words
			}
			return s
		})
		for _, form := range []string{`run "` + r.id + `"`, "run " + r.id, `"` + r.id + `"`, "pipe of " + r.id, r.id} {
			text = strings.ReplaceAll(text, form, r.words)
		}
	}
	return quantity.Text(text)
}

// Findings are findings without such ids.
func (c *Called) Findings(ds []graph.Diagnostic) []graph.Diagnostic {
	if c == nil {
		return ds
	}
	out := slices.Clone(ds)
	for i := range out {
		d := &out[i]
		d.Message, d.Hint = c.Text(d.Message), c.Text(d.Hint)
		d.Related = slices.Clone(d.Related)
		for k := range d.Related {
			d.Related[k].Message = c.Text(d.Related[k].Message)
		}
	}
	return out
}
