package live

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/graph/whatif"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// Named is a thing of the job that can be looked at: a part, a run or a piece to cut.
type Named struct {
	ID    string   `json:"id"`
	What  string   `json:"what"`  // in words, for a list
	Names []string `json:"names"` // what lists call it
}

// pieceID is the id of a piece to cut; no part can have it, for its colon.
func pieceID(n int) string { return "piece:" + strconv.Itoa(n) }

// NamesOf lists what can be looked at in a job.
func NamesOf(s *whatif.Study) []Named {
	p := s.Plan
	if p == nil || p.After == nil || p.After.Layout == nil {
		return nil
	}
	names := tag.Of(p.Circuit, p.Net())
	var out []Named
	for _, part := range p.Circuit.Parts {
		out = append(out, Named{part.ID, names.Short(part.ID) + " (" + part.ID + ")", unique(part.ID, names.Tag(part.ID), names.Short(part.ID))})
	}
	for _, run := range p.Circuit.Runs {
		out = append(out, Named{run.ID, "pipe " + run.ID, []string{run.ID}})
	}
	for i := range p.After.Layout.Pieces {
		n := p.After.Layout.Pieces[i].Number
		out = append(out, Named{pieceID(n), fmt.Sprintf("piece %d", n), []string{fmt.Sprintf("piece %d", n)}})
	}
	return out
}

func unique(names ...string) []string {
	var out []string
	for _, n := range names {
		if n != "" && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// NamesJSON is NamesOf for the page.
func NamesJSON(s *whatif.Study) ([]byte, error) {
	list := NamesOf(s)
	if list == nil {
		list = []Named{}
	}
	return json.Marshal(list)
}

// AboutHTML says of a part, a run or a piece what passes it, what it is taken for, where the
// file speaks of it, and its joints; false where there is no such thing.
func AboutHTML(s *whatif.Study, id string) (string, bool) {
	p := s.Plan
	if p == nil || p.After == nil || p.After.Layout == nil {
		return "", false
	}
	a := &about{s: s, units: s.Job.System(p.Circuit), names: tag.Of(p.Circuit, p.Net())}
	if n, ok := strings.CutPrefix(id, "piece:"); ok {
		number, _ := strconv.Atoi(n)
		return a.piece(number)
	}
	if part := p.Circuit.Part(id); part != nil {
		a.part(part)
		return a.b.String(), true
	}
	if run := p.Circuit.Run(id); run != nil {
		a.run(run)
		return a.b.String(), true
	}
	return "", false
}

// about writes what is known of one thing.
type about struct {
	s     *whatif.Study
	units quantity.System
	names *tag.Names
	b     bytes.Buffer
}

func (a *about) head(words string) {
	fmt.Fprintf(&a.b, "<h2 id=\"about-head\">%s</h2>\n", text(words))
}

// figures writes a table of what passes, a line a mode.
func (a *about) figures(heads []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	a.b.WriteString("<div class=\"scroll\" role=\"group\" tabindex=\"0\" aria-label=\"figures by mode\"><table><thead><tr>")
	for _, h := range heads {
		fmt.Fprintf(&a.b, "<th scope=\"col\">%s</th>", text(h))
	}
	a.b.WriteString("</tr></thead><tbody>\n")
	for _, r := range rows {
		a.b.WriteString("<tr>")
		for _, c := range r {
			class := ""
			if c != "" && c[0] <= '9' {
				class = " class=\"amount\"" // which stays beside its unit
			}
			fmt.Fprintf(&a.b, "<td%s>%s</td>", class, text(c))
		}
		a.b.WriteString("</tr>\n")
	}
	a.b.WriteString("</tbody></table></div>\n")
}

func (a *about) part(part *graph.Part) {
	p := a.s.Plan
	a.head(a.names.Short(part.ID) + ": " + part.ID)
	var rows [][]string
	for i := range p.After.Solutions {
		sol := &p.After.Solutions[i]
		f := sol.Part(part.ID)
		if f == nil {
			continue
		}
		state := f.State
		if part.Kind == graph.CheckValve {
			for _, c := range table.Checks(p, sol.Mode.Name, form.Style{Units: a.units}) {
				if c.ID == part.ID {
					state = c.Words
				}
			}
		}
		drop := f.Drop
		if part.Kind == graph.Pump {
			drop = -drop
		}
		rows = append(rows, []string{quantity.Capital(a.names.Mode(sol.Mode.Name)), quantity.Format(f.Flow, quantity.Flow, a.units), quantity.Format(drop, quantity.Pressure, a.units), state})
	}
	drop := "drop"
	if part.Kind == graph.Pump {
		drop = "adds"
	}
	heads := []string{"mode", "flow", drop, "stands"}
	if !slices.ContainsFunc(rows, func(r []string) bool { return r[3] != "" }) { // most parts have but one way to stand
		heads = heads[:3]
		for i := range rows {
			rows[i] = rows[i][:3]
		}
	}
	a.figures(heads, rows)
	a.file(part.Pos, part.KeyPos["id"], a.s.Plan.Asked.Part(part.ID) != nil)
	a.settled(part.ID)
	a.joints(func(name string) bool { return strings.HasPrefix(name, part.ID+".") || name == part.ID })
}

func (a *about) run(run *graph.Run) {
	p := a.s.Plan
	a.head("Pipe " + run.ID)
	from, to := a.names.Short(run.From.Part), a.names.Short(run.To.Part)
	fmt.Fprintf(&a.b, "<p>From %s to %s.</p>\n", text(from), text(to))
	var rows [][]string
	for i := range p.After.Solutions {
		sol := &p.After.Solutions[i]
		if f := sol.Run(run.ID); f != nil {
			rows = append(rows, []string{quantity.Capital(a.names.Mode(sol.Mode.Name)), quantity.Format(f.Flow, quantity.Flow, a.units), fmt.Sprintf("%.2f m/s", f.Velocity), quantity.Format(f.Drop, quantity.Pressure, a.units)})
		}
	}
	a.figures([]string{"mode", "flow", "speed", "drop"}, rows)
	var pieces []string
	for i := range p.After.Layout.Pieces {
		if piece := &p.After.Layout.Pieces[i]; piece.Run.ID == run.ID {
			pieces = append(pieces, fmt.Sprintf("<button type=\"button\" data-about=\"%s\">piece %d, %s</button>", pieceID(piece.Number), piece.Number, text(quantity.Format(piece.CutMM, quantity.Length, a.units))))
		}
	}
	if len(pieces) > 0 {
		fmt.Fprintf(&a.b, "<h3>To cut</h3>\n<p class=\"acts\">%s</p>\n", strings.Join(pieces, " "))
	}
	a.file(run.Pos, run.KeyPos["id"], p.Asked.Run(run.ID) != nil)
	a.settled(run.ID)
	for _, j := range p.After.Layout.Joints {
		if j.Run == run.ID {
			a.joints(func(string) bool { return false }, run.ID)
			break
		}
	}
}

func (a *about) piece(n int) (string, bool) {
	lay := a.s.Plan.After.Layout
	i := slices.IndexFunc(lay.Pieces, func(q route.Piece) bool { return q.Number == n })
	if i < 0 {
		return "", false
	}
	q := &lay.Pieces[i]
	length := func(mm float64) string { return quantity.Format(mm, quantity.Length, a.units) }
	a.head(fmt.Sprintf("Piece %d", n))
	fmt.Fprintf(&a.b, "<p>Of <button type=\"button\" data-about=\"%s\">pipe %s</button>, %s %s.</p>\n", text(q.Run.ID), text(q.Run.ID), text(string(q.Spec)), text(q.Size.String()))
	a.figures([]string{"c to c", "less at its start", "less at its end", "cut"},
		[][]string{{length(q.CentreToCentreMM), length(q.From.TakeOffMM), length(q.To.TakeOffMM), length(q.CutMM)}})
	fmt.Fprintf(&a.b, "<p>It goes %s deep into %s, and %s deep into %s.</p>\n", text(length(q.From.DepthMM)), text(q.From.Fitting), text(length(q.To.DepthMM)), text(q.To.Fitting))
	for _, w := range q.MeasureWhat {
		fmt.Fprintf(&a.b, "<p class=\"note\">Measure first: %s.</p>\n", text(w))
	}
	name := fmt.Sprintf("piece %d", n)
	a.joints(func(side string) bool { return side == name })
	return a.b.String(), true
}

// file shows where the description speaks of a thing.
func (a *about) file(pos, id graph.Pos, there bool) {
	if id.IsValid() {
		pos = id
	}
	title := "In the file"
	if !there {
		title = "The tool built it in: what asks for it in the file"
	}
	if !pos.IsValid() {
		return
	}
	fmt.Fprintf(&a.b, "<h3>%s, line %d</h3>\n", title, pos.Line)
	excerpt(&a.b, pos, linesOf(&a.s.Job, pos.File))
}

// settled lists what a thing is taken for, and from where.
func (a *about) settled(id string) {
	values := table.ShownOf([]*settle.Stage{a.s.Plan.After.Layout.Stage}, id)
	if len(values) == 0 {
		return
	}
	a.b.WriteString("<h3>What it is taken for</h3>\n<div class=\"scroll\" role=\"group\" tabindex=\"0\" aria-label=\"what it is taken for\"><table><thead><tr><th scope=\"col\">what</th><th scope=\"col\">value</th><th scope=\"col\">may be</th><th scope=\"col\">from</th></tr></thead><tbody>\n")
	for _, row := range table.ShownRows(values, form.Style{Units: a.units, Whole: true}) {
		fmt.Fprintf(&a.b, "<tr data-means=\"%s\">", text(table.Means(row[0])))
		for _, c := range row {
			fmt.Fprintf(&a.b, "<td>%s</td>", text(a.line(c)))
		}
		a.b.WriteString("</tr>\n")
	}
	a.b.WriteString("</tbody></table></div>\n")
}

// line words a place in the job's own file by its line alone: the page is about that file.
func (a *about) line(from string) string {
	if place, ok := strings.CutPrefix(from, a.s.Job.File+":"); ok {
		if n, _, ok := strings.Cut(place, ":"); ok {
			return "line " + n + " of the file"
		}
	}
	return from
}

// joints lists the joints of a thing: those on its runs, or with a side that is it.
func (a *about) joints(is func(side string) bool, run ...string) {
	var list []string
	for _, j := range a.s.Plan.After.Layout.Joints {
		if is(j.A) || is(j.B) || slices.Contains(run, j.Run) {
			list = append(list, fmt.Sprintf("<li>%s: %s into %s (%s)</li>", tag.Joint(j.Number), text(j.A), text(j.B), text(j.Kind)))
		}
	}
	if len(list) > 0 {
		fmt.Fprintf(&a.b, "<h3>Joints</h3>\n<ul>%s</ul>\n", strings.Join(list, "\n"))
	}
}
