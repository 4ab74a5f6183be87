package live

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/book"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/tag"
)

// AnswerID is the section that says what the job comes to, with values turned or as saved.
const AnswerID = "side-answer"

// AnswerHTML says what an answer comes to beside the job as it is saved: what the unit gets at
// every speed against what it asks for, what the jets lose, how the checks stand, and where
// pump and circuit meet.
func AnswerHTML(a *whatif.Answer, saved *plan.Plan) string {
	var b bytes.Buffer
	b.WriteString("<section aria-labelledby=\"now\">\n<h2 id=\"now\">What the unit gets</h2>\n")
	p := a.Plan
	if p == nil {
		b.WriteString("<p class=\"error\">Nothing comes of that:</p><ul>\n")
		wrong := graph.Errors(a.Found)
		for _, d := range wrong[:min(len(wrong), 4)] {
			fmt.Fprintf(&b, "<li>%s</li>\n", text(d.Message.In(quantity.MetricSystem)))
		}
		b.WriteString("</ul></section>")
		return b.String()
	}
	style := form.Style{Units: a.Job.System(p.Circuit), Whole: true}
	if why := a.WhyNoPlace(); why != "" {
		fmt.Fprintf(&b, "<p class=\"error\">With that nothing can be built in: %s.</p>\n<p class=\"note\">The numbers here are those of the work where the file has it now, %s.</p>\n", text(why.In(style.Units)), text(placeNow(a)))
	} else if d := p.Fault(); d != nil {
		fmt.Fprintf(&b, "<p class=\"error\">Not to be built so: %s</p>\n", text(d.Message.In(style.Units)))
	}
	was := map[string]plan.ModeSummary{}
	if saved != nil {
		for _, m := range plan.Summarise(saved) {
			was[m.Mode] = m
		}
	}
	names := tag.Of(p.Circuit, p.Net())
	sums, lines := plan.Summarise(p), table.SummaryLines(p, style)
	most := 0.0
	for _, m := range sums {
		most = math.Max(most, math.Max(m.Most*1.15, math.Max(m.Unit, was[m.Mode].Unit)*1.05))
	}
	for _, alike := range modesAlike(p, sums, lines, was, style) {
		modeHTML(&b, p, names, sums, alike, lines[alike[0]], was[sums[alike[0]].Mode], most, style)
	}
	if len(sums) == 0 {
		b.WriteString("<p>No water moves: see Findings.</p>\n")
	}
	for _, l := range table.WithoutAnswer(p, style) {
		fmt.Fprintf(&b, "<p class=\"error\">%s</p>\n", text(quantity.Capital(names.Text(l))))
	}
	for _, l := range table.FartherLines(p, style, "") {
		fmt.Fprintf(&b, "<p class=\"note\">%s.</p>\n", text(quantity.Capital(names.Text(l))))
	}
	for _, l := range table.SupposedLines(p, names, style) {
		fmt.Fprintf(&b, "<p class=\"note\">%s</p>\n", text(quantity.Capital(names.Text(l))))
	}
	if p.Proposal != nil && p.Proposal.Choice.Spring != "" {
		fmt.Fprintf(&b, "<p class=\"note\">In the bypass: %s.</p>\n", text(p.Proposal.Choice.Spring))
	}
	curvesSVG(&b, p, names, style.Units)
	b.WriteString("</section>")
	return string(book.AmountsKept(b.Bytes()))
}

// modeHTML says what the modes alike, places in sums, come to: line in words, and on a scale up to
// most, in m³/h, beside what the unit got before.
func modeHTML(b *bytes.Buffer, p *plan.Plan, names *tag.Names, sums []plan.ModeSummary, alike []int, line string, before plan.ModeSummary, most float64, style form.Style) {
	m := sums[alike[0]]
	var heads []string
	for _, i := range alike {
		heads = append(heads, names.Mode(sums[i].Mode))
	}
	fmt.Fprintf(b, "<div class=\"mode\" data-mode=\"%s\"><h3>%s</h3>\n", text(m.Mode), text(quantity.Capital(strings.Join(heads, "; "))))
	if m.HasUnit {
		who := "" // where one of several is the job's own its number says whose it is
		if len(m.Beside) > 0 {
			who = names.Tag(m.UnitID)
		}
		scaleSVG(b, m, who, before.Unit, before.HasUnit, most, style.Units)
	}
	fmt.Fprintf(b, "<p data-why=\"what a mode comes to\">%s</p>\n", text(quantity.Capital(byTag(names, m, strings.TrimPrefix(line, m.Mode+": ")))+"."))
	for _, c := range table.Checks(p, m.Mode, style) {
		fmt.Fprintf(b, "<p class=\"note\" data-why=\"how a check stands\">%s: %s.</p>\n", text(names.Short(c.ID)), text(c.Words))
	}
	b.WriteString("</div>\n")
}

// placeNow says where an answer has the cut.
func placeNow(a *whatif.Answer) string {
	v, _ := a.Cut()
	return v.Place.Where()
}

// modesAlike gathers the modes that come to the same: in the same words, at the same flow on the
// scale, with the same before.
func modesAlike(p *plan.Plan, sums []plan.ModeSummary, lines []string, was map[string]plan.ModeSummary, style form.Style) [][]int {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, style.Units) }
	at := map[string]int{}
	var out [][]int
	for i, m := range sums {
		before, known := was[m.Mode]
		key := fmt.Sprintln(strings.TrimPrefix(lines[i], m.Mode+": "), table.Checks(p, m.Mode, style), flow(m.Unit), known, flow(before.Unit))
		k, ok := at[key]
		if !ok {
			k = len(out)
			at[key] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}

// byTag puts the tags of the units and of what stands in their bypasses in a summary for their ids, which
// it quotes where there are several.
func byTag(names *tag.Names, m plan.ModeSummary, line string) string {
	for _, u := range m.Units() {
		line = strings.ReplaceAll(line, strconv.Quote(u.ID), names.Tag(u.ID))
		if u.Past != "" {
			line = strings.ReplaceAll(line, strconv.Quote(u.Past), names.Tag(u.Past))
		}
	}
	return line
}

// scaleSVG draws the unit's flow on a scale with the least, the rated and the most it asks
// for, and where it stands as saved; who is the unit where there are others, else "".
func scaleSVG(b *bytes.Buffer, m plan.ModeSummary, who string, was float64, hasWas bool, most float64, units quantity.System) {
	const left, right, mid = 6.0, 314.0, 26.0
	if most <= 0 {
		most = 1
	}
	x := func(flow float64) float64 { return left + math.Max(0, math.Min(1, flow/most))*(right-left) }
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, units) }
	limit := func(v float64) string { return quantity.Flow.Limit(v).In(units) }
	label := fmt.Sprintf("%s gets %s; least %s, rated %s, most %s", cmp.Or(who, "the unit"), flow(m.Unit), limit(m.Least), limit(m.Rated), limit(m.Most))
	fmt.Fprintf(b, "<svg class=\"scale\" data-why=\"what a mode comes to\" viewBox=\"0 0 320 48\" role=\"img\" aria-label=\"%s\">\n", text(label))
	high := m.Most
	if high <= 0 {
		high = most
	}
	if m.Least > 0 || m.Most > 0 {
		fmt.Fprintf(b, "<rect x=\"%.1f\" y=\"%g\" width=\"%.1f\" height=\"12\" fill=\"#ddd\"/>\n", x(m.Least), mid-6, x(high)-x(m.Least))
	}
	fmt.Fprintf(b, "<path d=\"M%g %gH%g\" stroke=\"#000\" fill=\"none\"/>\n", left, mid, right)
	var ticks []tick
	for _, t := range []struct {
		word string
		v    float64
	}{{"least", m.Least}, {"rated", m.Rated}, {"most", m.Most}} {
		if t.v <= 0 {
			continue
		}
		fmt.Fprintf(b, "<path d=\"M%.1f %gV%g\" stroke=\"#000\" fill=\"none\"/>\n", x(t.v), mid-8, mid+8)
		ticks = append(ticks, tick{at: x(t.v), text: t.word + " " + strings.Fields(limit(t.v))[0]})
	}
	for _, t := range placed(ticks, left, right) {
		fmt.Fprintf(b, "<text x=\"%.1f\" y=\"45\" font-size=\"9\">%s</text>\n", t.from, t.text)
	}
	if hasWas && math.Abs(x(was)-x(m.Unit)) > 0.5 {
		fmt.Fprintf(b, "<path class=\"was\" d=\"M%.1f %gl-5 -9h10z\" fill=\"#fff\" stroke=\"#000\"/>\n", x(was), mid)
	}
	fmt.Fprintf(b, "<path class=\"is\" d=\"M%.1f %gl-5 -9h10z\" fill=\"#000\"/>\n", x(m.Unit), mid)
	words := strings.TrimSpace(who + " " + flow(m.Unit))
	half := 4 * float64(utf8.RuneCountInString(words)) // about, at this size
	anchor, tx := "middle", x(m.Unit)
	if tx < half {
		anchor, tx = "start", left
	} else if tx > right-half {
		anchor, tx = "end", right
	}
	fmt.Fprintf(b, "<text class=\"is\" x=\"%.1f\" y=\"12\" font-size=\"12\" font-weight=\"bold\" text-anchor=\"%s\">%s</text>\n</svg>\n", tx, anchor, text(words))
}

// smallCurve is how many points a curve of the small picture has: a square law between points
// spread evenly over its flow is then off by half a pixel at most.
const smallCurve = 9

// curvesSVG draws the pump of the unit against the circuit, small: the pump's curve at each
// speed thick, the circuit today dashed, after the work thin, and where they meet.
func curvesSVG(b *bytes.Buffer, p *plan.Plan, names *tag.Names, units quantity.System) {
	sets := plan.CurvesOf(p, smallCurve)
	if len(sets) == 0 {
		return
	}
	set := sets[0]
	const left, top, right, bottom = 48.0, 6.0, 314.0, 150.0
	flowMost, headMost := 0.0, 0.0
	for _, c := range set.Speeds {
		for _, q := range c.Points {
			flowMost, headMost = math.Max(flowMost, q.Flow), math.Max(headMost, q.Head)
		}
	}
	if flowMost <= 0 || headMost <= 0 {
		return
	}
	headMost *= 1.05
	at := func(flow, head float64) string {
		return fmt.Sprintf("%.1f %.1f", left+flow/flowMost*(right-left), bottom-head/headMost*(bottom-top))
	}
	words := dutyWords(&set, names, units)
	fmt.Fprintf(b, "<h3>%s and its circuit</h3>\n<svg class=\"duty\" data-why=\"where pump and circuit meet\" viewBox=\"0 0 320 172\" role=\"img\" aria-label=\"%s\">\n", text(names.Short(set.Pump.ID)), text(strings.Join(words, "; ")))
	fmt.Fprintf(b, "<path d=\"M%g %gV%gH%g\" stroke=\"#000\" fill=\"none\"/>\n", left, top, bottom, right)
	fmt.Fprintf(b, "<text x=\"%g\" y=\"166\" font-size=\"10\" text-anchor=\"end\">flow to %s</text><text x=\"%g\" y=\"166\" font-size=\"10\">0</text>\n", right, quantity.Format(flowMost, quantity.Flow, units), left)
	fmt.Fprintf(b, "<text x=\"2\" y=\"14\" font-size=\"10\">%s</text>\n", quantity.Format(headMost, quantity.Head, units))
	for _, s := range set.Systems {
		var d strings.Builder
		d.WriteString("M" + at(0, 0))
		for _, q := range s.Points {
			if q.Head > headMost || q.Flow > flowMost {
				break
			}
			d.WriteString("L" + at(q.Flow, q.Head))
		}
		dash := ""
		if s.Stage == graph.Before {
			dash = " stroke-dasharray=\"4 3\""
		}
		fmt.Fprintf(b, "<path d=\"%s\" stroke=\"#000\" fill=\"none\"%s/>\n", d.String(), dash)
	}
	for _, c := range set.Speeds {
		var d strings.Builder
		for i, q := range c.Points {
			if q.Head < 0 {
				break
			}
			d.WriteString([]string{"L", "M"}[btoi(i == 0)] + at(q.Flow, q.Head))
		}
		fmt.Fprintf(b, "<path d=\"%s\" stroke=\"#000\" stroke-width=\"2.2\" fill=\"none\"/>\n", d.String())
	}
	for _, d := range set.Duties {
		fill := "#000"
		if d.Stage == graph.Before {
			fill = "#fff"
		}
		xy := strings.Fields(at(d.Flow, d.Head))
		fmt.Fprintf(b, "<circle cx=\"%s\" cy=\"%s\" r=\"4\" fill=\"%s\" stroke=\"#000\"/>\n", xy[0], xy[1], fill)
	}
	fmt.Fprintf(b, "</svg>\n<p class=\"note\" data-why=\"where pump and circuit meet\">Thick: the pump. Thin: the circuit%s. It works where they meet%s.</p>\n", thinWords(&set), text(": "+strings.Join(words, "; ")))
}

// dutyWords says where the pump works after the work, modes that come to the same together.
func dutyWords(set *plan.CurveSet, names *tag.Names, units quantity.System) []string {
	at := map[string]int{}
	var modes, where []string
	for _, d := range set.Duties {
		if d.Stage != graph.After {
			continue
		}
		words := fmt.Sprintf("%s at %s", quantity.Format(d.Flow, quantity.Flow, units), quantity.Format(d.Head, quantity.Head, units))
		i, ok := at[words]
		if !ok {
			at[words] = len(where)
			modes, where = append(modes, names.Mode(d.Mode)), append(where, words)
			continue
		}
		modes[i] += ", " + names.Mode(d.Mode)
	}
	for i := range where {
		where[i] = modes[i] + ": " + where[i]
	}
	return where
}

// thinWords tells the circuits' lines apart where there are two: none was, or none changes, where there is one.
func thinWords(set *plan.CurveSet) string {
	if slices.ContainsFunc(set.Systems, func(s plan.SystemCurve) bool { return s.Stage == graph.Before }) {
		return " after the work; dashed: today"
	}
	return ""
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// CostHTML says what a year costs.
func CostHTML(a *whatif.Answer) string {
	if a.Plan == nil || a.Plan.Heat == nil {
		return ""
	}
	var b bytes.Buffer
	b.WriteString("<h3>Heat and money</h3>\n<ul data-why=\"section chapter-heat\">\n")
	for _, l := range heating.Short(a.Plan.Heat, a.Plan.Circuit.Job, nil, form.Style{Units: a.Job.System(a.Plan.Circuit)}) {
		fmt.Fprintf(&b, "<li>%s</li>\n", text(quantity.Capital(l)+"."))
	}
	b.WriteString("</ul>\n")
	return string(book.AmountsKept(b.Bytes()))
}
