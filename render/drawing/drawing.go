// Package drawing names the views of a plan and turns each into pages.
package drawing

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// view is one way to draw a plan.
type view struct {
	name  string
	wants plan.Want
	pages func(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error)
}

// views lists them in the order of the job pack.
func views() []view {
	return []view{
		{"schematic", plan.Findings, schematicPages},
		{"detail", plan.Findings, detailPages},
		{"templates", plan.Findings, templatePages},
		{"cutplan", plan.Lists, cutplanPages},
		{"labels", plan.Lists | plan.Flows, labelPages},
		{"curves", plan.Flows | plan.Ranges, curvePages},
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

// Pages draws a view, or with "all" every view in turn.
func Pages(p *plan.Plan, name string, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	var out []*scene.Scene
	for _, v := range views() {
		if name != "all" && name != v.name {
			continue
		}
		pages, err := v.pages(p, page, units)
		if err != nil {
			return nil, fmt.Errorf("drawing the %s: %w", v.name, err)
		}
		out = append(out, pages...)
	}
	return out, nil
}
