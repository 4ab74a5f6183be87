package picture

import (
	"strings"

	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// crossOut dashes what is taken out and puts a cross on each part and on the longest leg of
// each run.
func (p *Picture) crossOut() {
	g := p.D.In.Gone
	if g == nil {
		return
	}
	where := map[string]scene.Box{}
	var order []string
	for i, it := range p.Items {
		s, ok := it.(scene.Shape)
		kind, id, _ := strings.Cut(s.Name, ":")
		isPart := (kind == "symbol" || kind == "part") && g.Parts[id]
		if !ok || !isPart && !(kind == "run" && g.Runs[id]) {
			continue
		}
		if s.Style.StrokeMM > 0 {
			s.Style.Dash = sheet.GoneDash
			p.Items[i] = s
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
	for i := range p.Ms {
		if r := p.Ms[i].Run; r != nil && g.Runs[r.ID] {
			if k, ok := longest[r.ID]; !ok || p.shown(i) > p.shown(k)+0.01 {
				longest[r.ID] = i
			}
		}
	}
	for i := range p.Ms {
		if r := p.Ms[i].Run; r != nil && g.Runs[r.ID] && longest[r.ID] == i {
			arrow := p.freeShare(i, 0.62, append(p.crossings(i), p.leaderShare(i)))
			t := p.freeShare(i, 0.3, append(p.crossings(i), arrow))
			p.cross(space.Along(space.Project(p.A[i]), space.Project(p.B[i]), t))
		}
	}
}

// cross puts a cross on a place.
func (p *Picture) cross(at scene.Point) {
	s := sheet.Cross(at)
	p.Items = append(p.Items, s)
	p.Fixed = append(p.Fixed, scene.Bounds(s))
}
