package detail

import (
	"slices"
	"strings"

	"dryfit/graph/route"
)

// starred names everything on the sheet whose length or take-off no standard gives: the parts
// of the string, what stands between them and pipe, and what the branches lead to.
func (d *drawing) starred() []string {
	var out []string
	add := func(name string) {
		if name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, m := range d.c.members {
		if m.fit.Row.V.Measure {
			add(d.names.Tag(m.part.ID))
		}
	}
	for i := range d.c.lay.Paths {
		for _, f := range d.c.lay.Paths[i].Fittings {
			if f.New && f.Row.Measure && d.atMember(f.Where) {
				add(d.names.End(f.Kind + " " + f.Where))
			}
		}
	}
	for _, l := range d.c.limbs {
		if l.part != nil && l.fit.Row.V.Measure {
			add(d.names.Tag(l.part.ID))
		}
		for _, a := range l.fitted.adaptors {
			if a.measure {
				add(d.names.End(a.words))
			}
		}
		for _, e := range []route.End{l.bend, l.stop} {
			if e.Measure && e.Fitting != "" && strings.Contains(e.Fitting, " ") {
				add(d.names.End(e.Fitting))
			}
		}
	}
	return out
}

// atMember reports whether a fitting stands at a part of the string: "at tee-a.branch".
func (d *drawing) atMember(where string) bool {
	port, ok := strings.CutPrefix(where, "at ")
	if !ok {
		return false
	}
	return slices.ContainsFunc(d.c.members, func(m member) bool { return strings.HasPrefix(port, m.part.ID+".") })
}
