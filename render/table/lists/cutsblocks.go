package lists

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// CutsText prints the cut list and the stock plans for a terminal, the bars drawn to scale.
// Of a place that is ruled out it says why there is none.
func CutsText(p *plan.Plan, s form.Style) ([]byte, error) {
	if why := p.WhyNot(); why != "" {
		return form.Text([]form.Block{{Lines: []string{"NOT TO BE BUILT: no cut list: " + s.Say(why)}}}, s), nil
	}
	if len(p.Cuts.Pieces) == 0 {
		none := []form.Block{{Lines: append([]string{"no pipe to cut: the description has no new run with legs"}, unmeasured(p, s)...)}}
		return form.Text(none, s), nil
	}
	var out []form.Block
	if p.Cuts.Pieces[0].Run != nil { // a plain list of pieces says nothing the plan doesn't
		if why := faulty(p); why != "" {
			out = append(out, form.Block{Lines: []string{"NOT TO BE BUILT: " + s.Say(why)}})
		}
		out = append(out, CutsBlocks(p, nil, s)...)
	}
	for i := range p.Cuts.Plans {
		out = append(out, stockBlock(&p.Cuts.Plans[i], p.Cuts, s), form.Block{Lines: barsOf(&p.Cuts.Plans[i], p.Cuts, barsWidth, s)})
	}
	return form.Text(out, s), nil
}

// barsWidth is how many columns of a terminal a drawn bar has.
const barsWidth = 100

// faulty is why work that is drawn in full is not to be built as it stands; "" where it may be. Its
// pieces are listed so that it can be mended, with no joint to make them at.
func faulty(p *plan.Plan) quantity.Text {
	if d := p.Fault(); d != nil && p.Circuit != nil {
		return d.Message
	}
	return ""
}

// CutsBlocks lists the pieces to cut; runs are called as among names, nil: as in the file.
func CutsBlocks(p *plan.Plan, names *tag.Names, s form.Style) []form.Block {
	if p.Cuts == nil || len(p.Cuts.Pieces) == 0 {
		return nil
	}
	if why := p.WhyNot(); why != "" {
		return []form.Block{{Title: "No cut list", Lines: []string{s.Say(why)}}}
	}
	title := "Cut list (cut = centre to centre less both take-offs; the insertion depths are inside it)"
	spec, one := oneSpec(p.Cuts.Pieces)
	if one && spec != "" {
		title = "Cut list, " + spec + " (cut = centre to centre less both take-offs; the insertion depths are inside it)"
	}
	columns := []form.Column{{Head: "piece", Right: true}, {Head: "cut", Right: true}, {Head: "size"}, {Head: "c to c", Right: true},
		{Head: "from (depth)", Widest: 34}, {Head: "to (depth)", Widest: 34}, {Head: "run", Widest: 24}}
	if !one {
		columns = append(columns, form.Column{Head: "pipe"})
	}
	g := form.NewGrid(columns...)
	var lines, over []string
	for _, c := range p.Cuts.Pieces {
		mark := c.Signs()
		cut := s.Length(c.CutMM) + mark
		if words := c.OverWords(); words != "" && faulty(p) == "" { // it names a joint
			cut = s.Length(c.CutMM) + " + " + s.Length(c.OverMM) + mark + "^"
			text := s.Say(words)
			if names != nil {
				text = tag.Joints(text)
			}
			over = append(over, "^ over length: "+text)
		}
		row := []string{strconv.Itoa(c.Number), cut, c.Size.String(),
			s.Length(c.CentreToCentreMM), endText(c.From, runID(c), s), endText(c.To, runID(c), s), runWords(c, names)}
		if !one {
			row = append(row, string(c.Spec))
		}
		g.Add(row...)
	}
	if words := measureWords(p.Cuts.Pieces); len(words) > 0 {
		lines = append(lines, "* measure the part first: this length hangs on a take-off no standard gives")
		for _, w := range words {
			if names != nil {
				w = tag.Measured(w)
			}
			lines = append(lines, "  "+w)
		}
	}
	lines = append(lines, over...)
	for _, c := range p.Cuts.Pieces {
		if words := c.ShortWords(); words != "" {
			lines = append(lines, fmt.Sprintf("piece %d: %s", c.Number, s.Say(words)))
		}
	}
	if len(p.OnSite) > 0 {
		lines = append(lines, "+ cut on site: "+p.OnSiteText())
	}
	return []form.Block{{Title: title, Grid: g, Lines: append(lines, unmeasured(p, s)...)}}
}

// oneSpec returns the spec that all pieces share, if they do.
func oneSpec(pieces []route.Piece) (string, bool) {
	for _, c := range pieces {
		if c.Spec != pieces[0].Spec {
			return "", false
		}
	}
	return string(pieces[0].Spec), true
}

// measureWords lists each part to measure once, with the pieces that hang on it.
func measureWords(pieces []route.Piece) []string {
	var order []string
	on := map[string][]string{}
	for _, c := range pieces {
		for _, w := range c.MeasureWhat {
			if on[w] == nil {
				order = append(order, w)
			}
			on[w] = append(on[w], strconv.Itoa(c.Number))
		}
	}
	for i, w := range order {
		order[i] = w + " (piece " + strings.Join(on[w], ", ") + ")"
	}
	return order
}

// endText says what an end goes into, and how deep. The run is left out where it is the
// piece's own.
func endText(e route.End, run string, s form.Style) string {
	what := e.Fitting
	if run != "" {
		what = strings.TrimSuffix(what, " of "+run)
	}
	return fmt.Sprintf("%s (%s)", strings.Replace(what, "reducing-bush", "bush", 1), s.Length(e.DepthMM))
}

// StockBlocks says which bars to take and what comes out of each.
func StockBlocks(p *plan.Plan, s form.Style) []form.Block {
	if p.Cuts == nil || p.WhyNot() != "" {
		return nil
	}
	var out []form.Block
	for i := range p.Cuts.Plans {
		out = append(out, stockBlock(&p.Cuts.Plans[i], p.Cuts, s))
	}
	return out
}

func stockBlock(plan *takeoff.StockPlan, list *takeoff.CutList, s form.Style) form.Block {
	b := form.Block{Title: strings.TrimSpace(fmt.Sprintf("Stock plan %s %s", plan.Spec, plan.Size))}
	length, marks := lengths(list), onSite(list)
	b.Grid = form.NewGrid(form.Column{Head: plan.Unit(), Right: true}, form.Column{Head: "length"}, form.Column{Head: "price", Right: true},
		form.Column{Head: "pieces, in the order to cut", Widest: 66}, form.Column{Head: "left over", Right: true})
	for i, bar := range plan.Bars {
		var cuts []string
		for _, n := range bar.Pieces {
			cuts = append(cuts, fmt.Sprintf("#%d%s %s", n, marks[n], s.Length(length[n])))
		}
		from := s.Length(bar.StockMM)
		if bar.Offcut {
			from += " (in the van)"
		}
		b.Grid.Add(strconv.Itoa(i+1), from, bar.Price, strings.Join(cuts, " + "), s.Length(bar.OffcutMM))
	}
	cost := ""
	if plan.Cost != "" {
		cost = fmt.Sprintf("cost %s; ", plan.Cost)
	}
	b.Lines = append(b.Lines, cost+s.Say(plan.Proof))
	for _, t := range plan.Tight {
		b.Lines = append(b.Lines, s.Say(t.Words(plan.Unit())))
	}
	if len(plan.Unplaced) > 0 {
		b.Lines = append(b.Lines, "not placed: pieces "+strings.Trim(fmt.Sprint(plan.Unplaced), "[]"))
	}
	b.Lines = append(b.Lines, s.Says(plan.Problems)...)
	return b
}

func lengths(list *takeoff.CutList) map[int]float64 {
	out := map[int]float64{}
	for _, c := range list.Pieces {
		out[c.Number] = c.SawMM()
	}
	return out
}

// onSite marks the pieces that are cut on site: their pipe stays whole until then.
func onSite(list *takeoff.CutList) map[int]string {
	out := map[int]string{}
	for _, c := range list.Pieces {
		if c.OnSite {
			out[c.Number] = "+"
		}
	}
	return out
}

// barsOf draws the bars of one plan to scale, a line or more each; a width under 40 columns counts as 40.
func barsOf(plan *takeoff.StockPlan, list *takeoff.CutList, width int, s form.Style) []string {
	longest := 0.0
	for _, bar := range plan.Bars {
		longest = math.Max(longest, bar.StockMM)
	}
	length, marks := lengths(list), onSite(list)
	var out []string
	for k, bar := range plan.Bars {
		from := ""
		if bar.Offcut {
			from = ", in the van"
		}
		out = append(out, fmt.Sprintf("%s %d  %s%s", plan.Word(bar), k+1, s.Length(bar.StockMM), from))
		out = append(out, barLines(bar, length, marks, max(width, 40), longest, s)...)
	}
	return out
}
