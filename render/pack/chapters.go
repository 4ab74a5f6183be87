package pack

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/route"
	"dryfit/render/book"
	"dryfit/render/drawing"
	"dryfit/render/pack/planfile"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/table/lists"
	"dryfit/render/tag"
)

// bookOf gathers everything a job's papers say, in the order in which they are read.
func bookOf(p *plan.Plan, style form.Style, o Options, pictures []picture) *book.Book {
	style.Whole, style.Colour = true, false
	j, names := factsOf(p, style.Units), tag.Of(p.Circuit, p.Net())
	b := &book.Book{Kind: "job pack", Job: p.Circuit.Titled(), File: filepath.Base(p.Circuit.File), Stamp: drawing.Fingerprint(p), Paper: o.Page.Format}
	for _, c := range []book.Chapter{
		answer(p, j, style), planfile.Changed(p, o.Since, style), cautions(j), owner(p, j, style), electrician(p, j),
		bringing(p, j, style), sheets(pictures), photos(o.Photos), cutting(p, style), work(p, j, style), setPoints(j), valves(p, j), performance(p, style), recording(p, j), jointsDry(p), asBuilt(p, style),
		faults(j), winter(j), heatChapter(p, j, style), numbers(p, style), findings(p, names, style.Units),
	} {
		// whoever mends the description wants its ids; the record has its names already, and a
		// mode may be called as a part is
		if c.ID != "findings" && c.ID != "as-built" && c.ID != "record" && c.ID != "joints" {
			c = named(c, names)
		}
		if len(c.Items) > 0 {
			b.Chapters = append(b.Chapters, c)
		}
	}
	return b
}

// The questions that each reader asks first: the bookmarks that lead to what answers them.
const (
	mayItBeBuilt = "May it be built?"
	firstCutMark = "Where is the first cut?"
	currentMark  = "What current, and which protection?"
	neverMark    = "What must never be shut?"
)

// measureFirst adds what to measure before anything is cut, of the work or of what it would be if it
// fitted.
func measureFirst(c *book.Chapter, p *plan.Plan, names *tag.Names, style form.Style) {
	ranges := p.Ranges
	if p.Supposed != nil {
		ranges = p.Supposed.Ranges
	}
	if first := table.MeasureFirst(ranges, names, style); first != "" {
		c.Add(book.Item{Kind: book.Alert, Bookmark: "What is measured first?", Text: "MEASURE FIRST", Lines: []string{table.ForOwner(names.Text(strings.TrimPrefix(first, "MEASURE FIRST: ")))}})
	}
}

// mostLines is how many lines one finding of many modes has on the first page: the rest are among the
// findings. Judgement, no source.
const mostLines = 4

// answer opens the book: may it be built, what does the unit get, what do the jets lose.
func answer(p *plan.Plan, j jobIn, style form.Style) book.Chapter {
	c := book.Chapter{ID: "answer", Title: "The answer", For: book.Everybody, OnePage: true}
	names := tag.Of(p.Circuit, p.Net())
	if errs := graph.Errors(p.Findings); len(errs) > 0 {
		it := book.Item{Kind: book.Alert, Bookmark: mayItBeBuilt, Text: "NOT TO BE BUILT YET: mend first"}
		for _, d := range graph.ByMode(errs, style.Units) {
			lines := d.Lines
			if more := len(lines) - mostLines; more > 1 {
				lines = append(slices.Clone(lines[:mostLines]), fmt.Sprintf("%d more like these: see Findings", more))
			}
			line := names.Text(strings.Join(lines, "; "))
			if len(d.Hints) > 0 {
				line += ": " + names.Text(strings.Join(d.Hints, "; ")) // one that says what to write keeps the file's words
			}
			it.Lines = append(it.Lines, line)
		}
		c.Add(it)
	} else if joints(p) > 0 {
		may := "It may be built"
		if j.Unit == nil { // what it had goes
			may = "The work may be done"
		}
		c.Add(book.Item{Kind: book.Lead, Bookmark: mayItBeBuilt, Text: may + ": no rule forbids it." + warned(p.Findings)})
	}
	measureFirst(&c, p, names, style)
	for _, l := range table.AcceptedLines(p.Ranges, names, style) {
		c.Add(book.Item{Kind: book.Lead, Text: table.ForOwner(names.Text(l))})
	}
	for i, l := range table.PlainLines(p, style, "What to expect") {
		it := book.Item{Kind: book.Lead, Text: l}
		if i == 0 {
			it.Bookmark = "What water do the heat pump and the jets get?"
		}
		c.Add(it)
	}
	for _, l := range table.SupposedLines(p, names, style) {
		c.Add(book.Item{Kind: book.Lead, Text: table.ForOwner(names.Text(l))})
	}
	if j.Unit == nil { // the work is what goes
		for _, l := range j.saidTo(practice.Owner, practice.TakenOut()) {
			c.Add(book.Item{Kind: book.Lead, Text: l})
		}
	}
	for _, text := range p.OnlyIf() {
		c.Add(book.Item{Kind: book.Lead, Text: "The place of the cut will do " + style.Say(text) + ": measure it before anything is cut."})
	}
	if text := p.OnSiteText(); text != "" {
		c.Add(book.Item{Kind: book.Lead, Text: quantity.Capital(text) + "."})
	}
	if text := firstCut(p, j, style); text != "" {
		c.Add(book.Item{Kind: book.Lead, Bookmark: firstCutMark, Text: text})
	}
	if p.Heat != nil && p.Fault() == nil { // what may not be built saves nothing
		for _, l := range heating.Short(p.Heat, p.Circuit.Job, names, style) {
			c.Say(table.ForOwner(names.Text(quantity.Capital(l) + ".")))
		}
	}
	if down := tubDown(p, style.Units); len(down) > 0 {
		c.Add(book.Item{Bookmark: "How long is the tub out of use?", Text: "The tub is out of use " + quantity.Small(down[0])})
	}
	if joints(p) > 0 && p.After.Bodies != nil {
		c.Say(strings.TrimSuffix(quantity.Capital(p.After.Bodies.Account(len(p.After.Clashes), standsIn(j), j.Cuts || j.CutsHose, tag.Of(p.Circuit, p.Net()).Short)), ".") + ".")
	}
	c.Say(counts(p), "How well the parts are known: "+list(knowledge(p.Circuit))+".")
	return c
}

// standsIn is what the work stands in.
func standsIn(j jobIn) string {
	switch {
	case j.PlugIn:
		return "the box"
	case j.NoCabinet:
		return "what the plant stands in"
	}
	return "the cabinet"
}

// firstCut says where the saw goes first, or that none does; "" where no joint is made.
func firstCut(p *plan.Plan, j jobIn, style form.Style) string {
	cuts := drawing.Cuts(p)
	switch sawn := j.Cuts || j.CutsHose; {
	case len(cuts) > 0:
	case joints(p) == 0:
		return ""
	case p.RuledOut() != nil:
		return "Where the first cut goes is told once that is mended."
	case sawn:
		return "Where the first cut lies nobody measured: the order of work says how it is found."
	case len(j.Gone) == 0:
		return "No old pipe is cut."
	case j.GoneRigid:
		return "No old pipe that stays is cut; what goes is told in the order of work."
	case len(j.Gone) == 1:
		return "No old pipe is cut: " + j.Gone[0] + " comes off at its joints."
	default:
		return "No old pipe is cut: " + strings.Join(j.Gone, ", ") + " come off at their joints."
	}
	c, where := cuts[0], ""
	if c.From != "" {
		where = ", " + style.Length(c.FromMM) + " from the " + c.From
	}
	if at, found := strings.CutSuffix(where, " of the "+c.Spec.Word()+" "+c.Run); found {
		where = strings.Replace(at, " at bend ", " at its bend ", 1)
	}
	return fmt.Sprintf("The first cut, %s, is on the %s %s%s: see the order of work, and the bands to cut by.", c.Name, c.Spec.Word(), c.Run, where)
}

func warned(ds []graph.Diagnostic) string {
	n := graph.Counted(ds, graph.Warning)
	switch n {
	case 0:
		return ""
	case 1:
		return " One warning wants a look first: see Findings."
	}
	return fmt.Sprintf(" %d warnings want a look first: see Findings.", n)
}

func list(words []string) string {
	out := ""
	for i, w := range words {
		if i > 0 {
			out += ", "
		}
		out += w
	}
	return out
}

// cautions stand before any work.
func cautions(j jobIn) book.Chapter {
	c := book.Chapter{ID: "cautions", Title: "Before anybody starts", For: book.Everybody, NewPage: true}
	c.Say("Local codes and the makers' instructions come before this pack. Electrical and refrigerant work is for licensed trades. Where the pack reckons, it reckons with what was measured or assumed.")
	g := &form.Grid{Header: []string{"about", "what holds", "source"}, Widest: []int{0, 60, 30}}
	for _, s := range practice.Pick(j.Job, practice.Cautions()) {
		g.Rows = append(g.Rows, []string{s.Name, j.say(s.Text), j.say(s.Source)})
	}
	c.Tables(form.Block{Grid: g})
	return c
}

func setPoints(j jobIn) book.Chapter {
	c := book.Chapter{ID: "element", Title: "Heating and set points", For: book.Fitter | book.Electrician, NewPage: true}
	if j.Cold {
		c.Title = "Cooling and set points"
	}
	c.Say(j.said(practice.SetPoints(), practice.HighLimit(), practice.Controller())...)
	return c
}

func sheets(pictures []picture) book.Chapter {
	c := book.Chapter{ID: "drawings", Title: "Drawings", For: book.Fitter}
	if len(pictures) == 0 {
		return c
	}
	c.Say("Each prints on a sheet of its own at its true size: at 100 %, not fitted to the page. drawings.pdf holds the same sheets.")
	g := &form.Grid{Header: []string{"sheet", "as in its title block", "its file"}}
	for i, one := range pictures {
		what, _, _ := strings.Cut(one.Scene.Name, ", sheet ") // as in its title block
		g.Rows = append(g.Rows, []string{fmt.Sprintf("%d of %d", i+1, len(pictures)), what, one.File})
	}
	c.Tables(form.Block{Grid: g})
	for _, one := range pictures {
		c.Add(book.Item{Kind: book.Sheet, Text: one.Title, Scene: one.Scene, File: one.File})
	}
	return c
}

func work(p *plan.Plan, j jobIn, style form.Style) book.Chapter {
	c := book.Chapter{ID: "work", Title: "Order of work", For: book.Fitter, NewPage: true}
	stages := method(p, j)
	if len(stages) == 0 {
		return c
	}
	c.Tables(table.MarkingBlocks(p, style)...)
	for _, s := range stages {
		c.Add(book.Item{Kind: book.Heading, Text: s.Title})
		addSteps(&c, s)
		if s.Hold != "" {
			c.Add(book.Item{Kind: book.Hold, Text: s.Hold})
		}
	}
	c.Add(book.Item{Kind: book.Heading, Text: "Time"})
	c.Say(tubDown(p, style.Units)...)
	c.Tables(cureBlocks(p, style.Units)...)
	return c
}

func cutting(p *plan.Plan, style form.Style) book.Chapter {
	c := book.Chapter{ID: "cuts", Title: "Cut list", For: book.Fitter, NewPage: true}
	for _, b := range lists.CutsBlocks(p, tag.Of(p.Circuit, p.Net()), style) {
		c.Tables(ticked("cut?", b))
	}
	if stock := lists.StockBlocks(p, style); len(stock) > 0 {
		c.Add(book.Item{Kind: book.Heading, Text: "Stock plan"})
		c.Tables(stock...)
	}
	return c
}

// box is one to tick.
const box = "☐"

// ticked puts a box to tick before every row of a list.
func ticked(head string, b form.Block) form.Block {
	if b.Grid == nil {
		return b
	}
	g := *b.Grid
	g.Header = append([]string{head}, b.Grid.Header...)
	g.Right = append([]bool{false}, b.Grid.Right...)
	g.Widest = append([]int{0}, b.Grid.Widest...)
	g.Rows = make([][]string, len(b.Grid.Rows))
	for i, r := range b.Grid.Rows {
		g.Rows[i] = append([]string{box}, r...)
	}
	b.Grid = &g
	return b
}

// bringing is what goes into the van: parts, tools, consumables, each with a box to tick.
func bringing(p *plan.Plan, j jobIn, style form.Style) book.Chapter {
	c := book.Chapter{ID: "bring", Title: "What to bring", For: book.Fitter, NewPage: true}
	van := lists.LoadVan(p, style)
	c.Tables(ticked("in?", van.Parts))
	for _, used := range []bool{false, true} {
		title := "Tools"
		if used {
			title = "Consumables"
		}
		g := &form.Grid{Header: []string{"in?", "what", "for"}, Widest: []int{0, 50, 50}}
		for _, t := range tools(p, j) {
			if t.UsedUp == used {
				g.Rows = append(g.Rows, []string{box, t.What, t.For})
			}
		}
		c.Tables(form.Block{Title: title, Grid: g})
	}
	c.Tables(ticked("in?", van.UsedUp))
	c.Tables(van.Rest...)
	return c
}

func valves(p *plan.Plan, j jobIn) book.Chapter {
	c := book.Chapter{ID: "valves", Title: "Valve schedule", For: book.Fitter | book.Owner, NewPage: true}
	s := valveSchedule(p, j)
	if len(s.Rows) == 0 {
		return c
	}
	c.Tables(form.Block{Grid: s.grid(j.OfUnits("unit", "units"))})
	c.Say(s.Notes...)
	if len(s.Never) > 0 {
		never := ""
		for i, n := range s.Never {
			if i > 0 {
				never += "; "
			}
			never += n
		}
		c.Add(book.Item{Kind: book.Hold, Text: "Never: " + never + "."})
	}
	if len(s.Setting) > 0 {
		c.Add(book.Item{Kind: book.Heading, Text: "Setting and proving the bypass"}, book.Item{Kind: book.Bullets, Lines: s.Setting})
	}
	return c
}

// grid is the schedule as a table; unit heads the column that says whether it is on.
func (s *schedule) grid(unit string) *form.Grid {
	g := &form.Grid{Header: append(append([]string{"state of the tub"}, s.Valves...), unit, "note")}
	g.Widest = make([]int, len(g.Header))
	g.Widest[len(g.Header)-1] = 50
	for _, r := range s.Rows {
		g.Rows = append(g.Rows, append(append([]string{r.State}, r.Positions...), r.Unit, r.Note))
	}
	return g
}

func performance(p *plan.Plan, style form.Style) book.Chapter {
	c := book.Chapter{ID: "performance", Title: "What to expect", For: book.Fitter, NewPage: true}
	c.Tables(performanceBlocks(p, style.Units)...)
	c.Tables(table.SureBlocks(p.Ranges, tag.Of(p.Circuit, p.Net()), style)...)
	return c
}

func heatChapter(p *plan.Plan, j jobIn, style form.Style) book.Chapter {
	c := book.Chapter{ID: "heat", Title: "Heat, money and the supply", For: book.Everybody, NewPage: true}
	if p.Heat != nil {
		c.Tables(heating.Paper(p.Heat, p.Circuit.Job, tag.Of(p.Circuit, p.Net()), style, len(electrician(p, j).Items) > 0)...)
	}
	return c
}

func winter(j jobIn) book.Chapter {
	c := book.Chapter{ID: "frost", Title: "Frost and lay-up", For: book.Fitter | book.Owner, NewPage: true}
	c.Say(j.said(practice.Frost(), practice.LayUp())...)
	return c
}

// notBuilt reports whether work is asked for that finds no place, or none that will do: there is nothing then
// to commission.
func notBuilt(p *plan.Plan) bool {
	return p.RuledOut() != nil || p.Asked.Retrofit != nil && joints(p) == 0 && p.NoPlace() != nil
}

func recording(p *plan.Plan, j jobIn) book.Chapter {
	c := book.Chapter{ID: "record", Title: "Commissioning record", For: book.Fitter | book.Electrician, NewPage: true, OnePage: true} // what is signed stands over the names
	if notBuilt(p) {
		return c
	}
	g := &form.Grid{Header: []string{"what", "expected", "found"}}
	for _, r := range record(p, j) {
		g.Rows = append(g.Rows, []string{r.What, r.Expected, ""})
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: g}})
	return c
}

// jointsDry is where each joint is ticked off; no chapter where none is made.
func jointsDry(p *plan.Plan) book.Chapter {
	c := book.Chapter{ID: "joints", Title: "Joints dry (tissue), at once and after a day", For: book.Fitter, NewPage: true}
	if joints(p) == 0 || notBuilt(p) {
		return c
	}
	g := &form.Grid{Header: []string{"joint", "between", "how", "0 h", "24 h"}}
	names := tag.Of(p.Circuit, p.Net())
	for _, joint := range p.After.Layout.Joints {
		g.Rows = append(g.Rows, []string{tag.Joint(joint.Number), between(joint, names), howJoined(joint), "", ""})
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: g}})
	return c
}

// between names the two sides of a joint; those of a plain union are halves of one part.
func between(j route.Joint, names *tag.Names) string {
	a, b := names.Side(j.A, j.Run), names.Side(j.B, j.Run)
	if a == b {
		return "the two halves of " + a
	}
	return a + " / " + b
}

// howJoined says how a joint is made, at which side of a part with two nuts, and its size.
func howJoined(j route.Joint) string {
	how := map[string]string{"cement": "cement", "slip": "cement, sliding", "union": "union nut", "barb": "hose clips", "thread": "thread, tape"}[j.Kind]
	if j.Kind == "union" && strings.HasPrefix(j.B, "tail of ") {
		switch {
		case strings.HasSuffix(j.B, "."+graph.In):
			how += ", inlet side"
		case strings.HasSuffix(j.B, "."+graph.Out):
			how += ", outlet side"
		}
	}
	return strings.TrimSpace(how + " " + j.Size.String())
}

func faults(j jobIn) book.Chapter {
	c := book.Chapter{ID: "faults", Title: "When something is wrong", For: book.Fitter | book.Owner, NewPage: true}
	g := &form.Grid{Header: []string{"sign", "look, in this order"}, Widest: []int{40, 60}}
	for _, f := range practice.Faults(j.Job) {
		g.Rows = append(g.Rows, []string{f.Sign, j.say(f.Look)})
	}
	if len(g.Rows) > 0 {
		c.Tables(form.Block{Grid: g})
	}
	return c
}

func numbers(p *plan.Plan, style form.Style) book.Chapter {
	c := book.Chapter{ID: "flow", Title: "The numbers behind it", For: book.Fitter, NewPage: true}
	names := tag.Of(p.Circuit, p.Net())
	c.Tables(table.FlowBlocks(p, names, style)...)
	c.Tables(lists.EquivalentBlocks(p, names, style)...)
	c.Tables(lists.StandsThere(p, style)...)
	return c
}

// findings are what the rules found: whoever mends the description wants its ids, whoever holds the
// sheets the tags that stand there.
func findings(p *plan.Plan, names *tag.Names, units quantity.System) book.Chapter {
	c := book.Chapter{ID: "findings", Title: "Findings", For: book.Fitter, NewPage: true}
	if len(p.Findings) == 0 {
		c.Say("Nothing to mend.")
		return c
	}
	g := &form.Grid{Header: []string{"weight", "finding", "what to do"}, Widest: []int{0, 60, 60}}
	said := func(lines []string) string {
		out := make([]string, len(lines))
		for i, l := range lines {
			out[i] = names.Beside(l)
		}
		return tag.Joints(strings.Join(out, "; "))
	}
	found := graph.ByMode(p.Findings, units) // what weighs most first, then by its place in the description
	slices.SortStableFunc(found, func(a, b graph.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
	for _, d := range found {
		g.Rows = append(g.Rows, []string{d.Severity.String(), said(d.Lines) + " [" + d.Rule + "]", said(d.Hints)})
	}
	c.Tables(form.Block{Grid: g})
	return c
}
