package isometric

import (
	"strings"

	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// crossOut dashes what is taken out and puts a cross on each part and on the longest leg of
// each run.
func (p *picture) crossOut() {
	g := p.d.in.Gone
	if g == nil {
		return
	}
	where := map[string]scene.Box{}
	var order []string
	for i, it := range p.items {
		s, ok := it.(scene.Shape)
		kind, id, _ := strings.Cut(s.Tag, ":")
		isPart := (kind == "symbol" || kind == "part") && g.Parts[id]
		if !ok || !isPart && !(kind == "run" && g.Runs[id]) {
			continue
		}
		if s.Style.StrokeMM > 0 {
			s.Style.Dash = sheet.GoneDash
			p.items[i] = s
		}
		if isPart {
			if _, known := where[id]; !known {
				order = append(order, id)
				where[id] = scene.Empty()
			}
			where[id] = where[id].Union(scene.Bounds(s))
		}
	}
	for _, id := range order {
		p.cross(where[id].Centre())
	}
	longest := map[string]int{}
	for i := range p.ms {
		if r := p.ms[i].run; r != nil && g.Runs[r.ID] {
			if k, ok := longest[r.ID]; !ok || p.shown(i) > p.shown(k)+0.01 {
				longest[r.ID] = i
			}
		}
	}
	for i := range p.ms {
		if r := p.ms[i].run; r != nil && g.Runs[r.ID] && longest[r.ID] == i {
			arrow := p.freeShare(i, 0.62, append(p.crossings(i), p.leaderShare(i)))
			t := p.freeShare(i, 0.3, append(p.crossings(i), arrow))
			p.cross(along(project(p.a[i]), project(p.b[i]), t))
		}
	}
}

// cross puts a cross on a place.
func (p *picture) cross(at scene.Point) {
	s := sheet.Cross(at)
	p.items = append(p.items, s)
	p.fixed = append(p.fixed, scene.Bounds(s))
}
