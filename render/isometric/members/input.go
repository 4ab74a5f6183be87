package members

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
	Asked     *graph.Retrofit // says what is kept clear; may be nil
	Units     quantity.System // of the lengths
	Page      sheet.Page      // zero: A4 landscape
	Title     string          // kind of document; "": "Isometric of the new work"
	Notes     []string        // printed on the first sheet after the drawing's own
	Sheet, Of int             // number of the first sheet, and of all; 0, 0: 1 of as many as it takes
	Gone      *Gone           // not nil: what is taken out is drawn and what it joins, the layout being that before the work
}

// Gone is what the work takes out, by ids.
type Gone struct{ Parts, Runs map[string]bool }

// mostWork bounds the search for the labels' spots on all sheets together, in comparisons of
// places: a million take some 10 ms. One try for a sheet has a share of it: more while all may
// yet go on one sheet, which is worth much, less once it is shared out.
const (
	mostWork      = 12_000_000
	MostWholeWork = 3_000_000
	MostSheetWork = 500_000
)

// Drawing is what all sheets of an isometric share.
type Drawing struct {
	In     Input
	Lay    *route.Layout
	C      *graph.Circuit
	Net    *stream.Net
	Parts  map[string]*graph.Part
	Bench  map[int]bool // joints made on the bench, be it only when the unit stands, by number
	Common PipeOf
	signs  map[*graph.Part]signed
	joints map[string][]*route.Joint // located ones of each run
	// sleeved names the coupling along pipe that a joint is of.
	sleeved map[*route.Joint]string
	OldAll  bool // nothing new is drawn: what is there is, with its lengths

	Names    *tag.Names
	Overview bool         // drawn now: all new work on one sheet
	Dense    bool         // it is of more than can be labelled
	Only     map[int]bool // joints of the group drawn alone; nil: everything
	Zoom     float64      // of its labels, as it is made smaller for its page; 0: none

	Hope    bool       // tried now: all of it on one sheet
	Matches int        // match lines made
	Recut   int        // how often it was cut otherwise, for a label found no room
	Work    label.Work // left for the spots of labels
}

// NewDrawing gathers what all sheets share.
func NewDrawing(in Input) *Drawing {
	d := &Drawing{In: in, Lay: in.Layout, C: in.Layout.Circuit, Parts: map[string]*graph.Part{}, Bench: map[int]bool{},
		signs: map[*graph.Part]signed{}, joints: map[string][]*route.Joint{}}
	for i := range d.Lay.Joints {
		if j := &d.Lay.Joints[i]; j.Located {
			d.joints[j.Run] = append(d.joints[j.Run], j)
		}
	}
	d.sleeved = sleevedOf(d.Lay)
	d.Net = d.Lay.Stage.Net()
	for _, p := range d.C.Parts {
		d.Parts[p.ID] = p
	}
	if in.Assembly != nil {
		for _, s := range in.Assembly.Steps {
			for _, j := range s.Joints {
				d.Bench[j] = s.Phase.OnBench()
			}
		}
	}
	d.Common = d.commonPipe()
	d.Work.Left = mostWork
	if d.Names = in.Names; d.Names == nil {
		d.Names = tag.Of(d.C, d.Net)
	}
	return d
}
