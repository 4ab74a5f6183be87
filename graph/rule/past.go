package rule

import "dryfit/graph"

// past is what the rules find of the circuit before the work: what they say of an old part or run
// after it was there before only if they said it of that before it too.
type past struct {
	in    *Input
	now   *graph.Circuit
	owner map[graph.Pos]string // whose a place in the file is: a part's, or a run's or what it is left of; nil: not asked yet
}

// newPast returns what is asked of the circuit before the work; nil where nothing is new, or nobody
// laid that out.
func newPast(in *Input) *past {
	v := in.view
	if !v.job || in.Before == nil || in.BeforeLayout == nil || in.Before == v.c {
		return nil
	}
	return &past{in: &Input{Circuit: in.Before, After: in.Before, Layout: in.BeforeLayout}, now: v.c}
}

// owners tells whose each place in the file is, in some circuits.
func owners(circuits ...*graph.Circuit) map[graph.Pos]string {
	out := map[graph.Pos]string{}
	for _, c := range circuits {
		for _, p := range c.Parts {
			whose := "part " + p.ID
			out[p.Pos] = whose
			for _, pos := range p.KeyPos {
				out[pos] = whose
			}
		}
		for _, r := range c.Runs {
			whose := "run " + r.ID
			if r.RemainsOf != "" {
				whose = "run " + r.RemainsOf
			}
			out[r.Pos] = whose
			for _, pos := range r.KeyPos {
				out[pos] = whose
			}
			for _, l := range r.Legs {
				out[l.Pos] = whose
			}
		}
	}
	return out
}

// told is what a rule said of the circuit before the work, asked when it is needed first.
type told struct {
	past *past
	rule *Rule
	of   map[[2]string]bool // owner and unit; nil: not asked yet
}

// before returns what a rule said of the circuit before the work.
func (in *Input) before(r *Rule) *told {
	if r.Compares || r.Needs == NeedsFlow {
		return &told{}
	}
	return &told{past: in.past, rule: r}
}

// so reports whether a finding on old work was made before the new work too, or nobody can tell.
func (t *told) so(d graph.Diagnostic) bool {
	if t.past == nil || !d.Pos.IsValid() {
		return true
	}
	if t.of == nil {
		t.of = map[[2]string]bool{}
		in := t.past.in
		if in.view == nil {
			in.view = newView(in)
		}
		t.rule.Check(in, func(_ bool, d graph.Diagnostic) { t.of[t.past.key(d)] = true })
	}
	return t.of[t.past.key(d)]
}

func (p *past) key(d graph.Diagnostic) [2]string {
	if p.owner == nil {
		p.owner = owners(p.in.Circuit, p.now)
	}
	whose, ok := p.owner[d.Pos]
	if !ok {
		whose = d.Pos.String()
	}
	return [2]string{whose, d.Unit}
}
