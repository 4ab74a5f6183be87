package pack

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/book"
	"dryfit/render/isometric"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// benchPicture is a small picture of one thing that is put together on the bench.
type benchPicture struct {
	Before int // index of the step it stands before
	Joints []int
	Scene  *scene.Scene
}

// benchPictures draws what the steps of the bench make, each before the first step that is about
// it. Those steps are the last of the stretch's steps.
func benchPictures(p *plan.Plan, j jobIn, steps int) []benchPicture {
	var made []route.Step
	for _, s := range p.Assembly.Steps {
		if s.Phase == route.Bench {
			made = append(made, s)
		}
	}
	in := isometric.Input{Layout: p.After.Layout, Assembly: p.Assembly, Names: tag.Of(p.Circuit, p.Net()), Units: j.units}
	var out []benchPicture
	for _, g := range isometric.Bench(in) {
		first := slices.IndexFunc(made, func(s route.Step) bool {
			return slices.ContainsFunc(s.Joints, func(n int) bool { return slices.Contains(g.Joints, n) })
		})
		if g.Scene != nil && first >= 0 {
			out = append(out, benchPicture{Before: steps - len(made) + first, Joints: g.Joints, Scene: g.Scene})
		}
	}
	return out
}

// benchJoints are the numbers of the joints that are made on the bench.
func benchJoints(a *route.Assembly) map[int]bool {
	out := map[int]bool{}
	if a == nil {
		return out
	}
	for _, s := range a.Steps {
		for _, n := range s.Joints {
			out[n] = out[n] || s.Phase == route.Bench
		}
	}
	return out
}

// daysBefore counts the joints of the bench that can be made before the day.
func daysBefore(a *route.Assembly) (n int) {
	for _, on := range benchJoints(a) {
		if on {
			n++
		}
	}
	return n
}

// waitingSteps is the rest of the work on the bench, of pieces that are cut on site: measured and cut when
// the unit stands, and made before the string goes into the old line; none where no piece waits so. Common
// practice, no source.
func waitingSteps(p *plan.Plan, j jobIn) []string {
	rest := phase(p, j, route.Waits)
	if len(rest) == 0 {
		return nil
	}
	made := map[int]bool{}
	for _, s := range p.Assembly.Steps {
		for _, n := range s.Joints {
			made[n] = made[n] || s.Phase == route.Waits
		}
	}
	var waits []string
	for _, piece := range p.After.Layout.Pieces {
		if piece.OnSite && (made[piece.From.Joint] || made[piece.To.Joint]) {
			waits = append(waits, fmt.Sprint(piece.Number))
		}
	}
	called, many := j.SetDown()
	outlet := "the outlet of " + ifSo(many, "each of ") + j.say(called) + " is from its inlet"
	pieces, them := "piece "+waits[0], "it"
	if len(waits) > 1 {
		pieces, them = "pieces "+quantity.Listed(waits, "and"), "them"
	}
	measure := "Measure how far " + outlet + ", put on " + pieces + ", marked +, what differs from the drawing, and cut " + them + j.say(j.CutEnds())
	return slices.Concat([]string{measure}, rest)
}

// addSteps adds the steps of a stretch to a chapter, with the small pictures among them.
func addSteps(c *book.Chapter, s stretch) {
	if len(s.Pictures) > 0 {
		c.Say("The pictures show each thing as it will stand, up is up, seen from the front, a little from above and from the left. Circles: pieces, with the length to cut them to. Dots: joints made here. The short arms take pipe later.")
	}
	from := 0
	steps := func(to int) {
		if to > from {
			c.Add(book.Item{Kind: book.Steps, First: s.First + from, Lines: s.Steps[from:to]})
			from = to
		}
	}
	for _, one := range s.Pictures {
		steps(one.Before)
		c.Add(book.Item{Kind: book.Picture, Scene: one.Scene, Text: fmt.Sprintf("To be put together: %s, from step %d on.", jointNumbers(one.Joints), s.First+one.Before)})
	}
	steps(len(s.Steps))
}
