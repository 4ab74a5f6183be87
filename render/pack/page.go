package pack

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"strings"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/scene"
	"dryfit/render/table"
)

//go:embed index.html.tmpl
var indexTemplate string

// drawn is one picture of the page.
type picture struct {
	Title string
	SVG   template.HTML // written by package scene, which escapes every text
}

// content is all that the page shows.
type content struct {
	Job      graph.Job
	File     string
	Known    []string
	Summary  []string
	Pictures []picture
	Findings []graph.Diagnostic
	Tables   []textTable
	Schedule schedule
	Cautions []caution
	Faults   []fault
	Steps    []string
	Record   []string
	Currency string
	WithUnit bool
}

// textTable is a table that keeps the columns it has on a terminal.
type textTable struct{ Title, Text string }

// indexPage writes index.html.
func indexPage(p *plan.Plan, style table.Style, drawn map[string][]*scene.Scene) ([]byte, error) {
	t, err := template.New("index").Parse(indexTemplate)
	if err != nil {
		return nil, err
	}
	c := content{
		Job: p.Circuit.Job, File: p.Circuit.File, Known: knowledge(p.Circuit), Summary: table.SummaryLines(p, style),
		Findings: p.Findings, Schedule: valveSchedule(p), Cautions: cautions(), Faults: faults(), Record: record(),
	}
	for _, v := range viewOrder(drawn) {
		for i, s := range drawn[v] {
			title := v
			if len(drawn[v]) > 1 {
				title = fmt.Sprintf("%s, sheet %d of %d", v, i+1, len(drawn[v]))
			}
			c.Pictures = append(c.Pictures, picture{title, template.HTML(inline(scene.SVG(s)))})
		}
	}
	for _, t := range []struct {
		title string
		print func(*plan.Plan, table.Style) ([]byte, error)
	}{{"Parts", table.PartsText}, {"Cut list and stock plan", table.CutsText}, {"Flow", table.FlowText}} {
		text, err := t.print(p, style)
		if err != nil {
			return nil, err
		}
		c.Tables = append(c.Tables, textTable{t.title, string(text)})
	}
	if p.Assembly != nil {
		for _, s := range p.Assembly.Steps {
			c.Steps = append(c.Steps, s.Text)
		}
	}
	var b bytes.Buffer
	if err := t.Execute(&b, c); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// inline drops the XML head of an SVG file, which has no place inside HTML.
func inline(svg []byte) string {
	s := string(svg)
	if i := strings.Index(s, "<svg"); i > 0 {
		s = s[i:]
	}
	return s
}

// knowledge counts how well the parts of the job are known.
func knowledge(c *graph.Circuit) []string {
	count := map[graph.Knowledge]int{}
	for _, p := range c.Parts {
		count[p.Known]++
	}
	var out []string
	for _, k := range []graph.Knowledge{graph.Measured, graph.DataSheet, graph.Assumed} {
		if count[k] > 0 {
			out = append(out, fmt.Sprintf("%d parts %s", count[k], k))
		}
	}
	return out
}

// viewOrder lists the views that were drawn, in the order of package drawing.
func viewOrder(drawn map[string][]*scene.Scene) []string {
	var out []string
	for _, v := range drawing.Views() {
		if len(drawn[v]) > 0 {
			out = append(out, v)
		}
	}
	return out
}
