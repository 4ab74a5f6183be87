package schematic

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Gone lists what of a circuit is there before the work and taken out by it: parts, and runs
// of which nothing remains.
func Gone(c *graph.Circuit) (parts []*graph.Part, runs []*graph.Run) {
	remains := map[string]bool{}
	for _, r := range c.Runs {
		remains[r.RemainsOf] = true
	}
	for _, p := range c.Parts {
		if p.Removed {
			parts = append(parts, p)
		}
	}
	for _, r := range c.Runs {
		if r.Removed && !remains[r.ID] {
			runs = append(runs, r)
		}
	}
	return parts, runs
}

// crossOut draws what is taken out dashed, with a cross on it.
func (d *drawing) crossOut() {
	if d.in.Stage != graph.Before {
		return
	}
	parts, runs := Gone(d.in.Circuit)
	names := map[string]bool{}
	for _, p := range parts {
		names["symbol:"+p.ID] = true
	}
	for _, r := range runs {
		names["run:"+r.ID] = true
	}
	d.items = slices.DeleteFunc(d.items, func(it scene.Item) bool { // the cross stands where the arrow did
		s, ok := it.(scene.Shape)
		run, is := strings.CutPrefix(s.Name, "flow:")
		return ok && is && names["run:"+run]
	})
	where := map[string]scene.Box{}
	for i, it := range d.items {
		s, ok := it.(scene.Shape)
		if !ok || !names[s.Name] {
			continue
		}
		if s.Style.StrokeMM > 0 {
			s.Style.Dash = sheet.GoneDash
			d.items[i] = s
		}
		b := scene.Bounds(s)
		if strings.HasPrefix(s.Name, "run:") { // on its longest straight
			if leg, ok := longestStraight(s, where[s.Name]); ok {
				where[s.Name] = leg
			}
			continue
		}
		if old, ok := where[s.Name]; ok {
			b = old.Union(b)
		}
		where[s.Name] = b
	}
	cross := func(name string) {
		b, ok := where[name]
		if !ok {
			return
		}
		s := sheet.Cross(b.Centre())
		d.items = append(d.items, s)
		d.fixed = append(d.fixed, scene.Bounds(s))
	}
	for _, p := range parts {
		cross("symbol:" + p.ID)
	}
	for _, r := range runs {
		cross("run:" + r.ID)
	}
}

// longestStraight is the box round the longest straight of a run's line, if it is longer than one
// there already is.
func longestStraight(line scene.Shape, than scene.Box) (longest scene.Box, found bool) {
	longest = than
	for _, p := range line.Paths {
		at := p.Start
		for _, g := range p.Segments {
			leg := scene.Empty().Add(at).Add(g.To)
			if leg.W()+leg.H() > longest.W()+longest.H() {
				longest, found = leg, true
			}
			at = g.To
		}
	}
	return longest, found
}
