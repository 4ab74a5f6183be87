package laying

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Distances assumed only to draw what no leg ties together. They enter no cut length, no
// closure and no clash. Common practice, no source.
const (
	assumedTubPortsMM  = 300
	assumedManifoldMM  = 60
	assumedEquipmentMM = 200
)

// measureParts says how far apart the legs put the ports of each part that gives no port
// places: the fitter measures that on the part.
func (l *work) measureParts(w *web, body []int, place []graph.Vec) {
	var old []quantity.Text
	var oldPos graph.Pos
	for _, p := range l.c.Parts {
		text := l.legsPutPorts(w, body, place, p)
		switch {
		case text == "":
		case p.New():
			l.find(p.Pos, graph.Note, "measure on the part: "+text, graph.Say("the legs are right only if %s measures so; give port places with port.<name>.at to have it checked", p.ID))
		default:
			if old == nil {
				oldPos = p.Pos
			}
			old = append(old, text)
		}
	}
	if old != nil {
		l.find(oldPos, graph.Note, "measure on the part: "+quantity.Join(old, "; "), "the legs put these ports so far apart; give port places with port.<name>.at to have it checked")
	}
}

// legsPutPorts words the distances between the ports of a part that follow from the legs
// alone; "" where there are none.
func (l *work) legsPutPorts(w *web, body []int, place []graph.Vec, p *graph.Part) quantity.Text {
	if p.Kind == graph.Tee {
		return ""
	}
	var at []int
	for _, name := range portOrder(p) {
		if i, ok := w.index[p.ID+"."+name]; ok {
			at = append(at, i)
		}
	}
	var out []quantity.Text
	for k := 1; k < len(at); k++ {
		a, b := at[k-1], at[k]
		if body[a] != body[b] || l.tiedDirectly(w, p, a, b) || l.judgeSpan(w, p, a, b, place[b].Sub(place[a])) {
			continue
		}
		out = append(out, graph.Say("%s to %s %s", w.ports[a].Port, w.ports[b].Port, graph.DistanceWords(place[b].Sub(place[a]))))
	}
	if out == nil {
		return ""
	}
	return graph.Say("%s %s", p.ID, quantity.Join(out, ", "))
}

// tiedDirectly reports whether the part's own measures, and no legs, tie the two ports.
func (l *work) tiedDirectly(w *web, p *graph.Part, a, b int) bool {
	own := map[int]bool{a: true}
	for again := true; again; {
		again = false
		for _, t := range w.ties {
			if t.part == p && own[t.from] != own[t.to] {
				own[t.from], own[t.to], again = true, true, true
			}
		}
	}
	return own[b]
}

// portOrder is the ports of a part in the order of the description, then the fixed ones.
func portOrder(p *graph.Part) []string {
	var out []string
	for _, q := range p.Ports {
		out = append(out, q.Name)
	}
	for _, name := range p.Kind.PortNames() {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// bridge sets bodies that no leg ties together beside each other at the parts between
// them, for drawing only. It returns the group of each body: bodies of one group have
// positions from one datum.
func (l *work) bridge(w *web, body []int, place []graph.Vec) []int {
	group := slices.Clone(body) // of each port
	join := func(a, b int, by graph.Vec) {
		if group[a] == group[b] {
			return
		}
		shift := place[a].Add(by).Sub(place[b])
		from := group[b]
		for i := range group {
			if group[i] == from {
				group[i] = group[a]
				place[i] = place[i].Add(shift)
			}
		}
	}
	for _, tubs := range []bool{false, true} {
		for _, p := range l.c.Parts {
			if (p.Kind == graph.Tub) != tubs {
				continue
			}
			first := -1
			for k, name := range portOrder(p) {
				i, ok := w.index[p.ID+"."+name]
				if !ok {
					continue
				}
				if first < 0 {
					first = i
					continue
				}
				join(first, i, l.assumedSpan(p, w.ports[first].Port, k))
			}
		}
	}
	return group
}

// assumedSpan is where to draw the k-th port of a part from its first.
func (l *work) assumedSpan(p *graph.Part, first string, k int) graph.Vec {
	switch {
	case p.Kind == graph.Tub:
		return graph.Vec{X: assumedTubPortsMM * float64(k)}
	case p.Kind.UserPorts():
		return graph.Vec{X: assumedManifoldMM * float64(k)}
	}
	length := p.LengthMM
	if !p.OwnLength() {
		length = l.set.Part(p.ID).Row.V.LengthMM
	}
	if length == 0 && !p.OwnLength() {
		length = assumedEquipmentMM
	}
	if way, ok := l.ways[p.ID+"."+first]; ok {
		return way.Scale(-length)
	}
	return graph.Vec{X: length}
}

// settle chooses the datum and writes the positions of the ports and the points of the runs.
func (l *work) settle(w *web, place []graph.Vec, group []int) {
	datum := l.datum(w, group)
	if datum < 0 {
		return
	}
	for i, ref := range w.ports {
		if group[i] == group[datum] {
			l.lay.Positions[ref.String()] = place[i].Sub(place[datum])
		}
	}
	for i := range l.lay.Paths {
		path := &l.lay.Paths[i]
		from, ok := l.lay.Positions[path.Run.From.String()]
		if ok && path.Points != nil {
			path.Located = true
			for k := range path.Points {
				path.Points[k] = path.Points[k].Add(from)
			}
		}
		for k := range path.Fittings {
			if f := &path.Fittings[k]; f.Point >= 0 && f.Point < len(path.Points) {
				f.At = path.Points[f.Point]
			}
		}
	}
}

// askedFor tells the runs that legs tie to what a request for a unit counts its place from, or else to the
// line it is to be cut in: where no legs tie two stretches that were measured together, those are of use.
func (l *work) askedFor(w *web, group []int) func(*graph.Run) bool {
	at := -1
	if ask := l.c.Retrofit; ask != nil {
		var ref graph.PortRef
		if ask.Cut != nil {
			if r := l.c.Run(ask.Cut.Run); r != nil {
				ref = r.From
			}
		}
		if ask.Stand != nil && ask.Stand.From.Part != "" {
			ref = ask.Stand.From
		}
		if i, ok := w.index[ref.String()]; ok {
			at = group[i]
		}
	}
	return func(r *graph.Run) bool { return at >= 0 && group[w.index[r.From.String()]] == at }
}

// datum chooses the port from which everything is measured: a tub's, if the new work (or
// without new work anything) is placed from it; else the first port the new work has; before the work,
// of what the unit's place is counted from, of the line that is to be cut, of the water it is to heat.
func (l *work) datum(w *web, group []int) int {
	holds := -1 // the group with the new work
	net := l.set.Net()
	for _, fits := range []func(r *graph.Run) bool{
		func(r *graph.Run) bool { return r.New() },
		l.askedFor(w, group),
		func(r *graph.Run) bool { p := l.parts[r.From.Part]; return p == nil || !net.Apart(p) },
		func(*graph.Run) bool { return true },
	} {
		for _, r := range l.c.Runs {
			if i, ok := w.index[r.From.String()]; ok && holds < 0 && len(r.Legs) > 0 && fits(r) {
				holds = group[i]
			}
		}
	}
	if holds < 0 {
		return -1
	}
	for _, p := range l.c.Parts {
		if p.Kind != graph.Tub {
			continue
		}
		for _, name := range portOrder(p) {
			if i, ok := w.index[p.ID+"."+name]; ok && group[i] == holds {
				return i
			}
		}
	}
	for _, p := range l.c.Parts {
		for _, name := range portOrder(p) {
			if i, ok := w.index[p.ID+"."+name]; ok && group[i] == holds {
				return i
			}
		}
	}
	return -1
}
