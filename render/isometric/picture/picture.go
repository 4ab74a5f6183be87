package picture

import (
	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

// Pens, mm. Source: ISO 128 (thin 0.35, thick 0.7; from memory).
const (
	PenOld = sheet.Thin
	PenNew = sheet.Thick
	penDim = 0.2
)

// Picture is one sheet's drawing, in mm about an origin of its own.
type Picture struct {
	D        *members.Drawing
	Ms       []members.Member
	Sp       *space.Space
	Scale    float64
	Labelled bool        // its labels have been placed
	Within   scene.Box   // by then: what they stay in
	Most     int         // comparisons its labels may take; 0: members.MostSheetWork
	A, B     []graph.Vec // display of the members' ends
	nodes    []graph.Vec // real places of dimensions
	Items    []scene.Item
	Labels   []scene.Item
	Fixed    []scene.Box // what no label may cover
	requests []request
	board    *label.Board  // where their labels find places
	overview bool          // no lengths and joints, which are on other sheets
	Over     int           // labels that found no room but on long leaders
	keys     []string      // what is said beside the drawing, as it found no place on it
	Ringed   map[int]bool  // pieces whose number stands on the drawing
	Legend   []LegendEntry // signs used
}

// request asks for a spot for a label; the first requests have the first choice.
type request struct {
	name   string    // what the label belongs to
	words  string    // what it says, in one line
	again  []callout // how it is said where none of its places is free, on a leader across pipe; none: not at all
	rank   int
	first  func() []candidate   // where it may stand
	later  []func() []candidate // places worked out and tried only if none before is free
	split  []func() request     // what takes the label's place if even so none is
	last   func() []candidate   // where else it may stand if nothing before helps; nil: on its leader only
	places []candidate          // it was given, in the order of the board
}

// candidate is a spot a label could have, and what is drawn there.
type candidate struct {
	label.Spot
	draw func() []scene.Item
}

// nothing is the place of a label that may be left out: it is taken before any overlap, and
// after every free place.
func nothing() candidate {
	return candidate{label.Spot{Cost: 500, Parts: []scene.Box{}}, func() []scene.Item { return nil }}
}

// LegendEntry is a sign that was used, and what it stands for.
type LegendEntry struct {
	Sign symbol.Symbol
	Text string
}

// LayOut sets the members out, without drawing them.
func LayOut(d *members.Drawing, ms []members.Member, scale float64) *Picture {
	p := &Picture{D: d, Ms: ms, Scale: scale, overview: d.Overview, Ringed: map[int]bool{}, Within: scene.Empty()}
	if len(ms) > members.MostApart {
		p.Sp = d.SpaceOf(ms, scale, [3]map[int]float64{})
	} else {
		p.Sp = d.Apart(ms, scale)
	}
	p.A, p.B = members.Show(ms, p.Sp)
	return p
}

// Paint draws the members and gathers what labels they want.
func (p *Picture) Paint() {
	p.paintKeepClear()
	p.paintUnits()
	p.paintSlants()
	p.paintPipes()
	p.paintSigns()
	p.paintStacks()
	p.paintFlow()
	p.paintEnds()
	p.crossOut()
	switch {
	case p.D.Only != nil:
		p.paintLater()
		p.wantCuts()
	case !p.overview && p.D.In.Gone == nil:
		p.wantDimensions()
		p.wantSizes()
	}
	if len(p.Ms) <= members.MostOverview && !(p.overview && p.D.Dense) {
		p.wantPieces()
		if p.D.Only == nil {
			p.wantOld()
		}
	}
}

// block adds items that no label may cover.
func (p *Picture) block(half float64, items ...scene.Item) {
	for _, it := range items {
		if s, ok := it.(scene.Shape); ok {
			p.Fixed = append(p.Fixed, space.Outline(s, half)...)
		}
	}
	p.Items = append(p.Items, items...)
}

// Bounds is the box round everything drawn.
func (p *Picture) Bounds() scene.Box {
	return scene.Bounds(p.Items...).Union(scene.Bounds(p.Labels...))
}

// Frame is the box round the pipes alone.
func (p *Picture) Frame() scene.Box {
	b := scene.Empty()
	for i := range p.Ms {
		b = b.Add(space.Project(p.A[i])).Add(space.Project(p.B[i]))
	}
	return b
}

// used notes a sign for the legend.
func (p *Picture) used(s symbol.Symbol, text string) {
	for _, e := range p.Legend {
		if e.Text == text {
			return
		}
	}
	p.Legend = append(p.Legend, LegendEntry{s, text})
}
