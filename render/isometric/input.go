package isometric

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/stream"
	"dryfit/render/label"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// Input is what an isometric is drawn from.
type Input struct {
	Layout    *route.Layout
	Assembly  *route.Assembly // tells which joints are made in place; may be nil
	Names     *tag.Names      // what the parts are called; nil: worked out
	Cuts      map[int]string  // names of the cuts through old pipe, by the joint at its end
	Units     quantity.System // of the lengths
	Page      sheet.Page      // zero: A4 landscape
	Title     string          // kind of document; "": "Isometric of the new work"
	Notes     []string        // printed on the first sheet after the drawing's own
	Sheet, Of int             // number of the first sheet, and of all; 0, 0: 1 of as many as it takes
	Gone      *Gone           // not nil: what is taken out is drawn and what it joins, the layout being that before the work
}

// Gone is what the work takes out, by ids.
type Gone struct{ Parts, Runs map[string]bool }

// mostWork bounds the search for the labels' places on all sheets together, in comparisons of
// places: a million take some 15 ms. One try for a sheet has a share of it: more while all may
// yet go on one sheet, which is worth much, less once it is shared out.
const (
	mostWork      = 12_000_000
	mostWholeWork = 3_000_000
	mostSheetWork = 500_000
)

// drawing is what all sheets of an isometric share.
type drawing struct {
	in     Input
	lay    *route.Layout
	c      *graph.Circuit
	net    *stream.Net
	parts  map[string]*graph.Part
	bench  map[int]bool // joints made on the bench, by number
	common pipeOf
	oldAll bool // nothing new is drawn: what is there is, with its lengths

	names    *tag.Names
	overview bool         // drawn now: all new work on one sheet
	dense    bool         // it is of more than can be labelled
	only     map[int]bool // joints of the group drawn alone; nil: everything
	zoom     float64      // of its labels, as it is made smaller for its page; 0: none

	hope    bool       // tried now: all of it on one sheet
	matches int        // match lines made
	work    label.Work // left for the places of labels
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
	d.work.Left = mostWork
	if d.names = in.Names; d.names == nil {
		d.names = tag.Of(d.c, d.net)
	}
	return d
}
