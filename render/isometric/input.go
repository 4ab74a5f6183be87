package isometric

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/stream"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Input is what an isometric is drawn from.
type Input struct {
	Layout    *route.Layout
	Assembly  *route.Assembly   // tells which joints are made in place; may be nil
	Tags      map[string]string // short tag of each part by its id; nil: ids alone
	Units     quantity.System   // of the lengths
	Page      sheet.Page        // zero: A4 landscape
	Title     string            // kind of document; "": "Isometric of the new work"
	Notes     []string          // printed on the first sheet after the drawing's own
	Sheet, Of int               // number of the first sheet, and of all; 0, 0: 1 of as many as it takes
}

// Draw returns the sheets of an isometric: one, or several joined by match lines where one
// page cannot hold it.
func Draw(in Input) []*scene.Scene {
	d := newDrawing(in)
	return d.sheets(d.members())
}

// drawing is what all sheets of an isometric share.
type drawing struct {
	in     Input
	lay    *route.Layout
	c      *graph.Circuit
	net    *stream.Net
	parts  map[string]*graph.Part
	bench  map[int]bool // joints made on the bench, by number
	common pipeOf
	oldAll bool // nothing is new: all that is there is drawn, with its lengths

	matches int // match lines made
}

func newDrawing(in Input) *drawing {
	d := &drawing{in: in, lay: in.Layout, c: in.Layout.Circuit, parts: map[string]*graph.Part{}, bench: map[int]bool{}}
	d.net = d.lay.Stage.Net()
	for _, p := range d.c.Parts {
		d.parts[p.ID] = p
	}
	if in.Assembly != nil {
		for _, s := range in.Assembly.Steps {
			for _, j := range s.Joints {
				d.bench[j] = s.Phase == route.Bench
			}
		}
	}
	d.common = d.commonPipe()
	return d
}
