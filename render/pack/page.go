package pack

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/scene"
)

// picture is one sheet of the book and the file it lies in.
type picture struct {
	Title, File string
	Scene       *scene.Scene
}

// knowledge counts how well the parts of the job are known.
func knowledge(c *graph.Circuit) []string {
	count := map[graph.Knowledge]int{}
	for _, p := range c.Parts {
		count[p.Known]++
	}
	known := map[graph.Knowledge]string{graph.Measured: "measured", graph.DataSheet: "by data sheet", graph.Assumed: "assumed"}
	var out []string
	for _, k := range []graph.Knowledge{graph.Measured, graph.DataSheet, graph.Assumed} {
		if count[k] > 0 {
			out = append(out, number(count[k], "part", "parts")+" "+known[k])
		}
	}
	return out
}

// counts says how much work there is and what was found.
func counts(p *plan.Plan) string {
	found := func(s graph.Severity) int { return graph.Counted(p.Findings, s) }
	said := []string{number(found(graph.Error), "error", "errors"), number(found(graph.Warning), "warning", "warnings"), number(found(graph.Note), "note", "notes")}
	work := ""
	if n := joints(p); n > 0 {
		work = fmt.Sprintf("New work: %s, %s. ", number(len(p.After.Layout.Pieces), "piece of pipe", "pieces of pipe"), number(n, "joint", "joints"))
	}
	return work + "Findings: " + strings.Join(said, ", ") + "."
}

// sheetsOf makes the sheets of a view, and says what to call them and where each lies.
func sheetsOf(view string, pages []*scene.Scene) []picture {
	var out []picture
	title := drawing.Title(view)
	for i, s := range pages {
		one := picture{Title: title, File: sheetFile(view, i), Scene: s}
		if len(pages) > 1 {
			one.Title = fmt.Sprintf("%s, sheet %d of %d", title, i+1, len(pages))
		}
		out = append(out, one)
	}
	return out
}

// sheetFile names the file of a view's sheet.
func sheetFile(view string, i int) string {
	if i > 0 {
		return fmt.Sprintf("%s-%d.svg", view, i+1)
	}
	return view + ".svg"
}
