package rule

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// noAdaptor reports where the layout needs an adaptor of the kind that the catalogue does
// not have: so as it is drawn the joint can't be made.
func noAdaptor(in *Input, report Report, kind string, hint quantity.Text) {
	v := in.ask()
	for i := range in.Layout.Paths {
		path := &in.Layout.Paths[i]
		r := path.Run
		if v.net.IsAir(r) || v.net.Run(r.ID) == nil {
			continue
		}
		for k := range path.Fittings {
			f := &path.Fittings[k]
			if f.Kind != kind || f.Row.Kind != "" || f.From.IsZero() || f.To.IsZero() {
				continue
			}
			other := otherSize(f, r)
			d := graph.Diagnostic{
				Pos: runKey(r, "size"), Severity: graph.Error,
				Message: graph.Say("run %q is %s %s and what it meets %s is %s: 0 %ss in the catalogue join the two, needs 1", r.Said(), r.Spec, r.Size, f.Where, other, kind),
				Hint:    hint,
			}
			if pipes := barbedFrom(v, other); kind == "transition" && len(pipes) > 0 {
				d.Hint = graph.Say("%s is a size of hose, in which no pipe is made: write the pipe it is led to as (%s, for which there is a barb onto such hose; on a unit ports-size); then, in the plan that cutin --write-plan writes, give the last run to it spec = \"hose\", that size, and the length that check asks for its leg; and where what it is led to has tails of its own for hose, write its own size again, with ends = \"barb\"", other, strings.Join(pipes, " or "))
			} else if have := partners(v, kind, other); len(have) > 0 {
				d.Hint += graph.Say("; for %s the catalogue has %s", other, strings.Join(have, ", "))
				if kind == "transition" && f.New {
					d.Hint += graph.Say(", to be written as the size in [retrofit] or of the run")
				}
				d.Hint += graph.Say("; or give a row of your own: [[catalog.%s]] from %s to %s", kind, other, r.Size)
			} else {
				d.Hint += graph.Say("; for %s the catalogue has none: give a row of your own, [[catalog.%s]] from it to %s", other, kind, r.Size)
			}
			for _, end := range []graph.PortRef{r.From, r.To} {
				if p := v.net.Part(end.Part); p != nil && f.Where == "at "+end.String() {
					d.Related = append(d.Related, here(p))
				}
			}
			report(!f.New, d)
		}
	}
}

// barbedFrom lists the sizes of pipe from which a barb leads to hose of a size that no pipe is
// made in; none where it is a size of pipe.
func barbedFrom(v *view, size catalog.Size) []string {
	hose := false
	for _, spec := range catalog.Specs() {
		if !slices.Contains(v.set.Catalog().PipeSizes(spec), size) {
			continue
		}
		if !spec.IsHose() {
			return nil
		}
		hose = true
	}
	if !hose {
		return nil
	}
	return partners(v, "barb", size)
}

// otherSize returns the end of an adaptor that is not its run's.
func otherSize(f *route.Fitting, r *graph.Run) catalog.Size {
	if f.From == r.Size {
		return f.To
	}
	return f.From
}

// partners lists the sizes that adaptors of the kind join to a size, in the order of the
// catalogue.
func partners(v *view, kind string, size catalog.Size) []string {
	var out []string
	add := func(s catalog.Size) {
		if !slices.Contains(out, s.String()) {
			out = append(out, s.String())
		}
	}
	for r := range v.set.Catalog().All() {
		switch {
		case r.Kind != kind:
		case r.Size == size:
			add(r.Size2)
		case r.Size2 == size:
			add(r.Size)
		}
	}
	return out
}
