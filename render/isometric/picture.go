package isometric

import (
	"dryfit/graph"
	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

// Pens, mm. Source: ISO 128 (thin 0.35, thick 0.7; from memory); signs of new work in
// between.
const (
	penOld     = sheet.Thin
	penNew     = sheet.Thick
	penNewSign = 0.5
	penOldSign = 0.35
	penDim     = 0.2
)

// picture is one sheet's drawing, in mm about an origin of its own.
type picture struct {
	d        *drawing
	ms       []member
	sp       *space
	scale    float64
	sized    bool        // it goes on its page
	most     int         // comparisons its labels may take; 0: mostSheetWork
	a, b     []graph.Vec // display of the members' ends
	nodes    []graph.Vec // real places of dimensions
	items    []scene.Item
	labels   []scene.Item
	fixed    []scene.Box // what no label may cover
	requests []request
	overview bool          // no lengths and joints, which are on other sheets
	over     int           // labels that found room only on long leaders, or none
	keys     []string      // what is said beside the drawing, as it found no place on it
	ringed   map[int]bool  // pieces whose number stands on the drawing
	legend   []legendEntry // signs used
}

// request asks for a place for a label; the first requests have the first choice.
type request struct {
	tag    string   // what the label belongs to
	words  string   // what it says, in one line
	again  *callout // how it is said where none of its places is free, on a leader across pipe; nil: not at all
	rank   int
	places []candidate
	later  []func() []candidate // places worked out and tried only if none before is free
	split  []func() request     // what takes the label's place if even so none is
}

// candidate is a place a label could have, and what is drawn there.
type candidate struct {
	label.Place
	draw func() []scene.Item
}

// nothing is the place of a label that may be left out: it is taken before any overlap, and
// after every free place.
func nothing() candidate {
	return candidate{label.Place{Cost: 500, Parts: []scene.Box{}}, func() []scene.Item { return nil }}
}

type legendEntry struct {
	sign symbol.Symbol
	text string
}

// layOut sets the members out, without drawing them.
func (d *drawing) layOut(ms []member, scale float64) *picture {
	p := &picture{d: d, ms: ms, scale: scale, overview: d.overview, ringed: map[int]bool{}}
	if len(ms) > mostApart {
		p.sp = d.spaceOf(ms, scale, [3]map[int]float64{})
	} else {
		p.sp = d.apart(ms, scale)
	}
	p.a, p.b = show(ms, p.sp)
	return p
}

func show(ms []member, sp *space) (a, b []graph.Vec) {
	a, b = make([]graph.Vec, len(ms)), make([]graph.Vec, len(ms))
	for i := range ms {
		a[i], b[i] = sp.show(ms[i].a), sp.show(ms[i].b)
	}
	return a, b
}

// draw paints the members and finds places for the labels.
func (p *picture) draw() {
	p.paintUnits()
	p.paintSlants()
	p.paintPipes()
	p.paintSigns()
	p.paintStacks()
	p.paintFlow()
	p.paintEnds()
	p.crossOut()
	switch {
	case p.d.only != nil:
		p.paintLater()
		p.wantCuts()
	case !p.overview && p.d.in.Gone == nil:
		p.wantDimensions()
		p.wantSizes()
	}
	if len(p.ms) <= mostOverview && !(p.overview && p.d.dense) {
		p.wantPieces()
		if p.d.only == nil {
			p.wantOld()
		}
	}
	p.placeLabels()
}

// block adds items that no label may cover.
func (p *picture) block(half float64, items ...scene.Item) {
	for _, it := range items {
		if s, ok := it.(scene.Shape); ok {
			p.fixed = append(p.fixed, outline(s, half)...)
		}
	}
	p.items = append(p.items, items...)
}

// bounds is the box round everything drawn.
func (p *picture) bounds() scene.Box {
	return scene.Bounds(p.items...).Union(scene.Bounds(p.labels...))
}

// frame is the box round the pipes alone.
func (p *picture) frame() scene.Box {
	b := scene.Empty()
	for i := range p.ms {
		b = b.Add(project(p.a[i])).Add(project(p.b[i]))
	}
	return b
}

// used notes a sign for the legend.
func (p *picture) used(s symbol.Symbol, text string) {
	for _, e := range p.legend {
		if e.text == text {
			return
		}
	}
	p.legend = append(p.legend, legendEntry{s, text})
}
