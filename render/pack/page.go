package pack

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/render/scene"
	"dryfit/render/table"
)

//go:embed index.html.tmpl
var indexTemplate string

//go:embed page.css
var pageStyle string

// picture is one sheet on the page.
type picture struct {
	Title, Shape string        // Shape: "landscape" or "portrait"
	SVG          template.HTML // written by package scene, which escapes every text
}

// entry is a line of the contents.
type entry struct{ ID, Title string }

// content is all that the page shows.
type content struct {
	CSS      template.CSS
	Job      graph.Job
	File     string
	Known    []string
	Summary  []string
	Counts   string
	Errors   []graph.Diagnostic
	Contents []entry
	Cautions []practice.Said
	Element  []string // set points, high limit, controller
	Electric []string
	Frost    []string
	Pictures []picture

	Marking []table.Block
	Method  []stage
	Down    []string
	Cure    []table.Block

	Cuts, Stock, Parts, Performance, Sure, Flow, Equivalent []table.Block

	Tools    []tool
	Schedule schedule
	Record   []reading
	Joints   []jointLine
	Faults   []practice.Fault
	Findings []graph.Diagnostic
}

// contentOf gathers the page.
func contentOf(p *plan.Plan, style table.Style, pictures []picture) content {
	style.Whole, style.Colour = true, false
	j := Facts(p, style.Units)
	say := func(lists ...[]practice.Sentence) []string {
		return practice.Texts(practice.Pick(j, slices.Concat(lists...)))
	}
	c := content{
		CSS: template.CSS(pageStyle), Job: p.Circuit.Job, File: filepath.Base(p.Circuit.File),
		Known: knowledge(p.Circuit), Summary: table.SummaryLines(p, style), Counts: counts(p), Errors: errorsOf(p.Findings),
		Cautions: practice.Pick(j, practice.Cautions()), Pictures: pictures,
		Element:  say(practice.SetPoints(), practice.HighLimit(), practice.Controller()),
		Electric: say(practice.Electricity()), Frost: say(practice.Frost(), practice.LayUp()),
		Marking: table.MarkingBlocks(p, style), Method: method(p, j), Down: tubDown(p), Cure: cureBlocks(p),
		Cuts: table.CutsBlocks(p, style), Stock: table.StockBlocks(p, style), Parts: table.PartsBlocks(p, style),
		Performance: performanceBlocks(p, style.Units), Sure: table.SureBlocks(p.Ranges),
		Flow: table.FlowBlocks(p, style), Equivalent: table.EquivalentBlocks(p, style),
		Tools: tools(p, j), Schedule: valveSchedule(p, j), Record: record(p, j, style.Units), Joints: jointLines(p),
		Faults: practice.Faults(j), Findings: p.Findings,
	}
	for _, e := range []struct {
		there     bool
		id, title string
	}{
		{true, "cautions", "Cautions"}, {len(c.Element) > 0, "element", "Heating and set points"}, {len(c.Electric) > 0, "electric", "For the electrician"}, {len(c.Pictures) > 0, "drawings", "Drawings"},
		{len(c.Method) > 0, "work", "Order of work"}, {len(c.Cuts) > 0, "cuts", "Cut list"}, {len(c.Stock) > 0, "stock", "Stock plan"},
		{len(c.Parts) > 0, "parts", "Parts"}, {true, "tools", "Tools"}, {len(c.Schedule.Rows) > 0, "valves", "Valves"},
		{len(c.Performance) > 0, "performance", "What to expect"}, {len(c.Frost) > 0, "frost", "Frost and lay-up"}, {true, "record", "Record"}, {true, "faults", "Faults"},
		{true, "findings", "Findings"}, {len(c.Flow) > 0, "flow", "Numbers"},
	} {
		if e.there {
			c.Contents = append(c.Contents, entry{e.id, e.title})
		}
	}
	return c
}

// indexPage writes index.html.
func indexPage(p *plan.Plan, style table.Style, pictures []picture) ([]byte, error) {
	t, err := template.New("index").Funcs(template.FuncMap{"place": place, "class": cellClass, "headClass": headClass}).Parse(indexTemplate)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, contentOf(p, style, pictures)); err != nil {
		return nil, err
	}
	return inert(b.Bytes()), nil
}

// inert shows control characters and marks of direction that came in with a user's text;
// ends of lines and tabs stay.
func inert(page []byte) []byte {
	lines := strings.Split(string(page), "\n")
	for i, l := range lines {
		cells := strings.Split(l, "\t")
		for k, c := range cells {
			cells[k] = table.Plain(c)
		}
		lines[i] = strings.Join(cells, "\t")
	}
	return []byte(strings.Join(lines, "\n"))
}

// headClass sets the head of a column to the right, and gives room to one of long texts.
func headClass(g *table.Grid, i int) string {
	switch {
	case g.IsRight(i):
		return "r"
	case i < len(g.Widest) && g.Widest[i] > 0:
		return "w"
	}
	return ""
}

// cellClass sets a cell to the right, and keeps a short one on a line.
func cellClass(g *table.Grid, i int, text string) string {
	switch {
	case g.IsRight(i):
		return "r"
	case utf8.RuneCountInString(text) <= shortCell:
		return "s"
	}
	return ""
}

// shortCell is how many characters a cell has that is kept on one line.
const shortCell = 14

// place says where in the description something stands.
func place(pos graph.Pos) string {
	if !pos.IsValid() {
		return ""
	}
	return fmt.Sprintf("%s:%d:%d", filepath.Base(pos.File), pos.Line, pos.Column)
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
			out = append(out, fmt.Sprintf("%s %s", number(count[k], "part", "parts"), k))
		}
	}
	return out
}

// counts says how much work there is and what was found.
func counts(p *plan.Plan) string {
	found := map[graph.Severity]int{}
	for _, d := range p.Findings {
		found[d.Severity]++
	}
	said := []string{number(found[graph.Error], "error", "errors"), number(found[graph.Warning], "warning", "warnings"), number(found[graph.Note], "note", "notes")}
	work := ""
	if n := joints(p); n > 0 {
		work = fmt.Sprintf("New work: %s, %s. ", number(len(p.After.Layout.Pieces), "piece of pipe", "pieces of pipe"), number(n, "joint", "joints"))
	}
	return work + "Findings: " + strings.Join(said, ", ") + "."
}

func errorsOf(ds []graph.Diagnostic) []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, d := range ds {
		if d.Severity == graph.Error {
			out = append(out, d)
		}
	}
	return out
}

// sheetsOf makes the pictures of the page, and says what to call them.
func sheetsOf(view string, pages []*scene.Scene) []picture {
	titles := map[string]string{
		"schematic": "Schematic", "isometric": "Isometric of the new work", "detail": "The assembly in the old line, true to scale",
		"templates": "Bands to saw by, 1:1", "cutplan": "Stock plan", "labels": "Labels to cut out", "curve": "Pump and circuit",
	}
	title := titles[view]
	if title == "" {
		title = capital(view)
	}
	var out []picture
	for i, s := range pages {
		one := picture{title, "landscape", template.HTML(inline(scene.SVG(s)))}
		if s.HeightMM > s.WidthMM {
			one.Shape = "portrait"
		}
		if len(pages) > 1 {
			one.Title = fmt.Sprintf("%s, sheet %d of %d", title, i+1, len(pages))
		}
		out = append(out, one)
	}
	return out
}

// inline drops the XML head of an SVG file, which has no place inside HTML.
func inline(svg []byte) string {
	s := string(svg)
	if i := strings.Index(s, "<svg"); i > 0 {
		s = s[i:]
	}
	return s
}
