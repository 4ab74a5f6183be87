// Package drawing names the views of a plan and turns each into pages.
package drawing

import (
	"fmt"
	"io"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// view is one way to draw a plan.
type view struct {
	name  string
	title string
	wants plan.Want
	pages func(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error)
	reads func(w io.Writer, p *plan.Plan, units quantity.System) error // what it shows besides the circuit and its marking out, for Key; nil: nothing
	none  string                                                       // why it may have no pages
}

// views lists them in the order of the job pack.
func views() []view {
	return []view{
		{"schematic", "Schematic", plan.Findings | plan.Flows, schematicPages, schematicReads, ""},
		{"isometric", "Isometric of the new work", plan.Findings, isometricPages, isometricReads, "no run has legs: their places are not known"},
		{"detail", "The assembly in the old line, true to scale", plan.Findings, detailPages, nil, "no string of new parts stands in old pipe, on straight legs"},
		{"templates", "Bands to saw by, 1:1", plan.Findings, templatePages, nil, "no old pipe is cut, or its cut or its size is not known"},
		{"cutplan", "Cut plan", plan.Lists, cutplanPages, cutplanReads, "no new pipe has to be cut"},
		{"labels", "Labels to cut out", plan.Lists | plan.Flows, stickerPages, stickersRead, "there is neither a piece to cut nor a valve"},
		{"curves", "Pump and circuit", plan.Flows | plan.Ranges, curvePages, curvesRead, "no pump has a duty point: see the findings of check"},
		{"year", "The year, month by month", plan.Flows | plan.Lists | plan.Heat, yearPages, yearReads, "the description has no [climate] to make a year of"},
		{"cold", "Does the unit hold the tub?", plan.Flows | plan.Lists | plan.Heat, coldPages, coldReads, "no heat pump is described that could hold the tub"},
	}
}

// Views lists the names a caller may ask for, besides "all".
func Views() []string {
	var names []string
	for _, v := range views() {
		names = append(names, v.name)
	}
	return names
}

// Title is what a view is called on the page of the pack.
func Title(name string) string {
	for _, v := range views() {
		if v.name == name {
			return v.title
		}
	}
	return ""
}

// Wants returns what a plan must hold for a view (or for "all").
func Wants(name string) plan.Want {
	var want plan.Want
	for _, v := range views() {
		if name == "all" || name == v.name {
			want |= v.wants
		}
	}
	return want
}

// Why says in words why a view of a plan has no page.
func Why(p *plan.Plan, name string, units quantity.System) string {
	if why := p.WhyNot(); why != "" && (name == "templates" || name == "cutplan") {
		return "nothing to draw, for nothing is sawn: " + why.In(units)
	}
	return Nothing(name)
}

// Nothing says in words why a view may have come out without a page.
func Nothing(name string) string {
	for _, v := range views() {
		if v.name == name && v.none != "" {
			return "nothing to draw: " + v.none
		}
	}
	return "nothing to draw"
}

// Pages draws a view, or with "all" every view in turn. A view may have no pages: Why says
// why. Across a plan with an error it says that it is not to be built.
func Pages(p *plan.Plan, name string, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	out, err := figures(p, name, page, units)
	if err != nil {
		return nil, err
	}
	finish(out, p, units)
	return out, nil
}

// finish numbers pages through, and writes across them what forbids to build by them.
func finish(pages []*scene.Scene, p *plan.Plan, units quantity.System) {
	Number(pages, Fingerprint(p))
	warnAcross(pages, faultOf(p, units))
}

// figures are the pages as their views draw them.
func figures(p *plan.Plan, name string, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	var out []*scene.Scene
	for _, v := range views() {
		if name != "all" && name != v.name {
			continue
		}
		at := page
		at.First = max(1, page.First) + len(out)
		pages, err := v.pages(p, at, units)
		if err != nil {
			return nil, fmt.Errorf("drawing the %s: %w", v.name, err)
		}
		out = append(out, pages...)
	}
	return out, nil
}
