package search

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route/solid"
)

// ledHelps leave the pipes to the unit to be found, where they are written and do not do: from
// where the pipe to it leads, counted from a port of the run that is cut.
func (s *search) ledHelps(t *trial) []help {
	r := s.asked.Retrofit
	if len(r.ToUnit) == 0 || slices.ContainsFunc(r.ToUnit, func(l graph.Leg) bool { return l.Open }) || t.stage == nil || t.stage.Layout == nil {
		return nil
	}
	keys := []string{"to-unit"}
	leave := quantity.Text("leave out to-unit")
	if len(r.FromUnit) > 0 {
		keys, leave = append(keys, "from-unit"), "leave out to-unit and from-unit"
	}
	for _, u := range s.unitLegs() {
		keys = append(keys, u.kind())
	}
	h := help{kinds: append(keys, "at"), cost: "nothing: the pipes are found, if that is where the unit stands"}
	if r.Stand != nil {
		h.say = leave + " in [retrofit]"
		h.apply = func(c *graph.Circuit) { c.Retrofit.ToUnit, c.Retrofit.FromUnit = nil, nil }
		return []help{h}
	}
	lay, run := t.stage.Layout, s.asked.Run(t.place.Run)
	branch, _ := lay.Stage.Branch()
	if run == nil || branch == nil || branch.TeeIn == nil {
		return nil
	}
	tee, ok := lay.Positions[branch.TeeIn.ID+"."+graph.Branch]
	origin, known := s.before.Layout.Positions[run.From.String()]
	if !ok || !known {
		return nil
	}
	at := tee.Sub(origin)
	for _, l := range r.ToUnit {
		at = at.Add(l.By)
	}
	last := r.ToUnit[len(r.ToUnit)-1].By
	face, word := last.Unit().Scale(-1), graph.WayWord(last.Scale(-1))
	if word == "" {
		return nil
	}
	at = s.nearest(at)
	h.say = leave + graph.Say(" in [retrofit] and write at = %s, at-from = \"%s\", ports-face = \"%s\" there",
		s.placeWords(at), run.From.String(), word)
	h.apply = func(c *graph.Circuit) {
		c.Retrofit.ToUnit, c.Retrofit.FromUnit = nil, nil
		c.Retrofit.Stand = &graph.Stand{At: at, From: run.From, PortsFace: face, Pos: r.Pos}
	}
	return []help{h}
}

// standHelps stand the unit elsewhere, turn its ports, or keep less clear, where the pipes to it
// can't be had as it stands or it stands in something.
func (s *search) standHelps(t *trial, rules map[string]bool) []help {
	r := s.asked.Retrofit
	if r.Stand == nil || len(r.ToUnit) > 0 && len(r.FromUnit) > 0 {
		return nil
	}
	var out []help
	for i, k := range r.Stand.KeepClear {
		name := quantity.Text(fmt.Sprintf("box %d", i+1))
		if k.What != "" {
			name = graph.Say("the box \"%s\"", k.What)
		}
		out = append(out, help{kinds: []string{fmt.Sprint("keep-clear ", i)}, fact: true,
			say: graph.Say("leave out %s of keep-clear, line %d", name, k.Pos.Line), cost: "nothing, if a pipe may pass there",
			apply: func(c *graph.Circuit) {
				c.Retrofit.Stand.KeepClear = slices.DeleteFunc(slices.Clone(c.Retrofit.Stand.KeepClear), func(o graph.KeepClear) bool { return o.Pos == k.Pos })
			}})
	}
	if len(r.Stand.Along) > 0 {
		out = append(out, leaving("along", "nothing: the pipes take another way", func(r *graph.Retrofit) { r.Stand.Along = nil }))
	}
	if r.Branch.Len() > 0 {
		out = append(out, leaving("branch", "nothing: the tees point another way", func(r *graph.Retrofit) { r.Branch = graph.Vec{} }))
	}
	for _, by := range s.unitMoves(t, rules) {
		at := s.nearest(r.Stand.At.Add(by))
		out = append(out, help{kinds: []string{"at"}, dear: true, say: graph.Say("at = %s in [retrofit]", s.placeWords(at)),
			cost:  graph.Say("the unit moved %s %s", s.length(by.Len()), graph.WayWord(by)),
			apply: func(c *graph.Circuit) { c.Retrofit.Stand.At = at }})
	}
	return append(out, s.turnHelps()...)
}

// turnHelps turn the unit so that its ports look another way: only where nothing else turns
// with it, as its ports stand one above the other and its case is not described.
func (s *search) turnHelps() []help {
	unit, stand := s.asked.Part(s.asked.Retrofit.Unit), s.asked.Retrofit.Stand
	if unit == nil || stand.PortsFace.Len() == 0 || unit.Box != nil {
		return nil
	}
	for _, p := range unit.Ports {
		if p.Faces != nil || p.At != nil && (math.Abs(p.At.X) > 0.5 || math.Abs(p.At.Y) > 0.5) {
			return nil
		}
	}
	var out []help
	for _, way := range []graph.Vec{{Y: -1}, {X: -1}, {X: 1}, {Y: 1}} {
		if way.Dot(stand.PortsFace) > 0.9 {
			continue
		}
		h := writing("ports-face", fmt.Sprintf("%q", graph.WayWord(way)), "the unit turned", func(r *graph.Retrofit) { r.Stand.PortsFace = way })
		h.dear = true
		out = append(out, h)
	}
	return out
}

// mostMoveMM is how far a unit is moved to make its place possible: further is another place.
// Judgement, no source.
const mostMoveMM = 1500

// unitMoves are the ways a unit may be moved, the least first: until its case is clear of what
// it stands in; else away from where its ports look, or aside, to give its pipes room.
func (s *search) unitMoves(t *trial, rules map[string]bool) []graph.Vec {
	ways := []graph.Vec{{X: 1}, {X: -1}, {Y: -1}, {Y: 1}, {Z: 1}, {Z: -1}}
	var out []graph.Vec
	if rules["clash"] && t.stage != nil && t.stage.Bodies != nil {
		for _, way := range ways {
			if mm := s.clearBy(t.stage.Bodies, way); mm > 0 && mm <= mostMoveMM {
				out = append(out, way.Scale(mm))
			}
		}
		slices.SortStableFunc(out, func(a, b graph.Vec) int { return cmp.Compare(a.Len(), b.Len()) })
		out = out[:min(4, len(out))]
		if len(out) > 0 {
			return out
		}
	}
	face := s.asked.Retrofit.Stand.PortsFace
	for _, mm := range s.even(100, 200, 400) {
		if face.Len() > 0 {
			out = append(out, face.Unit().Scale(-mm))
		}
	}
	for _, way := range ways {
		if face.Len() == 0 || way.Dot(face.Unit()) > -0.9 {
			out = append(out, way.Scale(s.even(300)[0]))
		}
	}
	return out
}

// clearMM is how far from other things a unit is moved that stood in them. Common practice, no
// source.
const clearMM = 10

// clearBy is how far the unit has to go a way until its case is clear of everything that is
// there, in lengths a person would write; 0 where it is.
func (s *search) clearBy(bodies *solid.Bodies, way graph.Vec) float64 {
	var low, high graph.Vec
	found := false
	group := 0
	for i := range bodies.All {
		if b := &bodies.All[i]; b.Part == s.asked.Retrofit.Unit && len(b.Likely) > 0 {
			low, high = b.Likely[0].Bounds()
			group, found = b.Group, true
			break
		}
	}
	if !found {
		return 0
	}
	mm := 0.0
	for range 20 {
		more := 0.0
		for i := range bodies.All {
			b := &bodies.All[i]
			if b.New || b.Part == s.asked.Retrofit.Unit || b.Group != group {
				continue
			}
			for _, shape := range b.Likely {
				l, h := shape.Bounds()
				more = max(more, pushed(low.Add(way.Scale(mm)), high.Add(way.Scale(mm)), l, h, way))
			}
		}
		if more == 0 {
			break
		}
		mm += more
	}
	if mm == 0 {
		return 0
	}
	return s.even(math.Ceil((mm+clearMM)/10) * 10)[0]
}

// pushed is how far a box has to go along an axis to be clear of another; 0 where it is.
func pushed(low, high, l, h, way graph.Vec) float64 {
	if low.X >= h.X || high.X <= l.X || low.Y >= h.Y || high.Y <= l.Y || low.Z >= h.Z || high.Z <= l.Z {
		return 0
	}
	return max(way.Dot(h.Sub(low)), way.Dot(l.Sub(high)))
}

// nearest rounds a place to what a person would write: whole mm, or quarters of an inch.
func (s *search) nearest(v graph.Vec) graph.Vec {
	grain := graph.Grain(s.asked.Job.Units)
	round := func(mm float64) float64 { return math.Round(mm/grain) * grain }
	return graph.Vec{X: round(v.X), Y: round(v.Y), Z: round(v.Z)}
}

// placeWords writes a place as a description does: ["front 300 mm", "right 1800 mm"].
func (s *search) placeWords(v graph.Vec) quantity.Text {
	var out []quantity.Text
	for _, by := range []graph.Vec{{Y: v.Y}, {X: v.X}, {Z: v.Z}} {
		if by.Len() > 0 {
			out = append(out, graph.Say("\"%s\"", graph.Leg{By: by}.Words()))
		}
	}
	return "[" + quantity.Join(out, ", ") + "]"
}
