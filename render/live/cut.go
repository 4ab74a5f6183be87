package live

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/search"
	"dryfit/graph/retrofit"
	"dryfit/graph/whatif"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// CutID is the section in which the cut is moved along the old pipe.
const CutID = "cut"

// CutHTML shows the place of the cut on the old pipe, to be moved; "" where nothing is cut.
func CutHTML(s *whatif.Study) string {
	c := s.Control(whatif.CutID)
	if c == nil {
		return ""
	}
	a := &whatif.Answer{Job: s.Job, Plan: s.Plan, Fit: s.Plan}
	now, ok := a.Cut()
	if !ok {
		now.Place = longest(c.Legs)
	}
	units := s.Job.System(s.Plan.Circuit)
	var b bytes.Buffer
	b.WriteString("<section aria-labelledby=\"cut-head\">\n<h2 id=\"cut-head\">The cut in the old pipe</h2>\n")
	b.WriteString("<p class=\"note\">Pull the work along the pipe, or move the slider with a finger or the arrow keys. The file stays as it is<span class=\"writes\"> until you put it there</span>.</p>\n")
	fmt.Fprintf(&b, "<div class=\"cut-pick\"><label for=\"cut-leg\">Pipe</label> <select id=\"cut-leg\">\n")
	at := now.Place.FromMM
	var long, least, most float64
	for _, leg := range c.Legs {
		low, high := ends(leg)
		chosen, best := "", leg.FromMM
		if leg.Run == now.Place.Run && leg.Leg == now.Place.Leg {
			chosen, best = " selected", at
			least, most, long = low, high, farthest(leg)
		}
		fmt.Fprintf(&b, "<option value=\"%s\" data-leg=\"%d\" data-run=\"%s\" data-at=\"%s\" data-low=\"%s\" data-high=\"%s\" data-most=\"%s\"%s>%s</option>\n",
			text(whatif.CutValue(leg.Run, leg.Leg, 0)), leg.Leg, text(leg.Run), tenths(best), tenths(low), tenths(high), tenths(farthest(leg)), chosen,
			text(legWords(leg, units)))
	}
	b.WriteString("</select>\n<label for=\"cut-at\">First cut</label> ")
	fmt.Fprintf(&b, "<input type=\"range\" id=\"cut-at\" min=\"0\" max=\"%s\" step=\"1\" value=\"%s\" data-now=\"%s\" data-low=\"%s\" data-high=\"%s\"></div>\n",
		tenths(long), tenths(at), text(whatif.CutValue(now.Place.Run, now.Place.Leg, at)), tenths(least), tenths(most))
	fmt.Fprintf(&b, "<div id=\"cut-now\">%s</div>\n</section>", CutNowHTML(s, a))
	return b.String()
}

// legWords names a leg with the straight pipe there is on it, short enough for a small screen.
func legWords(leg retrofit.Place, units quantity.System) string {
	words := leg.Where() + ": " + quantity.Format(leg.RoomMM, quantity.Length, units)
	if leg.RoomMM < leg.NeededMM {
		words += ", too short"
	}
	return words
}

// ends are where the first cut line may be at least and at most for the work to lie between
// the sockets, to a tenth of a mm inwards; where it doesn't fit the least is above the most.
func ends(leg retrofit.Place) (low, high float64) {
	from, to := leg.Lies()
	low = leg.FromMM - from + leg.DatumMM
	high = leg.LegMM() - leg.FarMM - (to - leg.FromMM)
	return math.Ceil(low*10-1e-6) / 10, math.Floor(high*10+1e-6) / 10
}

// farthest is how far the slider goes: until the second cut line is at the end of the leg.
func farthest(leg retrofit.Place) float64 {
	return max(math.Floor(leg.LegMM()-(leg.ToMM-leg.FromMM)), math.Ceil(leg.FromMM))
}

func tenths(mm float64) string { return quantity.Trim(quantity.Round(mm, 1)) }

// longest is the leg with the most room.
func longest(legs []retrofit.Place) retrofit.Place {
	return slices.MaxFunc(legs, func(a, b retrofit.Place) int { return int(math.Round(a.RoomMM - b.RoomMM)) })
}

// roomEnd names what the room of a place ends at.
func roomEnd(p retrofit.Place) string {
	if p.FarMM == 0 && p.FarHeldMM > 0 {
		return "end of the leg, where pipe goes straight on"
	}
	return p.Far
}

// CutNowHTML shows the place of the cut in an answer: to scale on its leg, what it needs term by
// term, and what cutin says of it.
func CutNowHTML(s *whatif.Study, a *whatif.Answer) string {
	c := s.Control(whatif.CutID)
	if c == nil {
		return ""
	}
	v, ok := a.Cut()
	units := s.Job.System(s.Plan.Circuit)
	if !ok {
		return "<p class=\"error\">No cut is built in: " + text(whyNot(a, units)) + "</p>\n"
	}
	p := v.Place
	names := tag.Of(s.Plan.Circuit, s.Plan.Net())
	p.Datum = names.Text(p.Datum)
	length := func(mm float64) string { return quantity.Format(mm, quantity.Length, units) }
	var b bytes.Buffer
	if i := slices.IndexFunc(c.Legs, func(l retrofit.Place) bool { return l.Run == p.Run && l.Leg == p.Leg }); i >= 0 {
		p.Far, p.FarMM = c.Legs[i].Far, c.Legs[i].FarMM
		stripSVG(&b, p, units)
	}
	p.Far = names.Text(p.Far)
	first, second := p.Cuts()
	from, _ := p.Lies()
	tape := func(mm float64) float64 { return quantity.Tape(mm, units) }
	before := tape(from - p.DatumMM)
	behind := tape(p.RoomMM) - before - tape(p.NeededMM) // as printed, for the sum to add up as printed
	fmt.Fprintf(&b, "<p><strong id=\"cut-said\">%s.</strong></p>\n", text(marks(first, second, p.Datum, form.Style{Units: units})))
	fmt.Fprintf(&b, "<p>Room %s = %s before the work + %s for it + %s behind it, to the %s.</p>\n", text(length(p.RoomMM)), text(signed(before, length)), text(length(p.NeededMM)), text(signed(behind, length)), text(roomEnd(p)))
	if p.WantedMM > 0 {
		fmt.Fprintf(&b, "<p>Straight pipe before the check: %s; it wants %s.</p>\n", text(length(p.StraightMM)), text(length(p.WantedMM)))
	}
	b.WriteString("<div class=\"scroll\" role=\"group\" tabindex=\"0\" aria-label=\"what goes in, along the pipe\"><table><caption>What goes in, along the pipe</caption><thead><tr><th scope=\"col\">no.</th><th scope=\"col\">what</th><th scope=\"col\">length</th></tr></thead><tbody>\n")
	for i, t := range p.Terms {
		fmt.Fprintf(&b, "<tr><td>%d</td><td>%s</td><td class=\"right\">%s</td></tr>\n", i+1, text(t.What.In(units)), text(length(t.MM)))
	}
	fmt.Fprintf(&b, "<tr><td></td><td><strong>together</strong></td><td class=\"right\"><strong>%s</strong></td></tr>\n</tbody></table></div>\n", text(length(p.NeededMM)))
	said(&b, v, form.Style{Units: units})
	return b.String()
}

// marks says where the two cuts are marked, mm from a datum; of one that would lie before the datum,
// where there is no bare pipe, that it can't be.
func marks(first, second float64, datum string, s form.Style) string {
	if first < 0 {
		return fmt.Sprintf("no marks: X1 would lie %s before the %s, where there is no bare pipe to saw", s.Length(-first), datum)
	}
	return fmt.Sprintf("X1 at %s and X2 at %s from the %s", s.Length(first), s.Second(first, second), datum)
}

// signed says a length that may be missing.
func signed(mm float64, length func(float64) string) string {
	if mm < -0.05 {
		return length(-mm) + " too little"
	}
	return length(max(0, mm))
}

// said is the verdict, in cutin's words.
func said(b *bytes.Buffer, v search.Verdict, style form.Style) {
	if v.Verdict == "" {
		return
	}
	verdict := v.Verdict
	if verdict == "best" { // of the one that is asked for
		verdict = "possible"
	}
	_, lines := table.PlaceLines(v, style)
	fmt.Fprintf(b, "<p class=\"verdict\"><strong>%s</strong></p>\n<ul>\n", text(quantity.Capital(verdict)))
	for _, l := range lines {
		fmt.Fprintf(b, "<li>%s</li>\n", text(quantity.Capital(l)))
	}
	b.WriteString("</ul>\n")
	if verdict == "ruled out" && len(v.Mend) == 0 {
		b.WriteString("<p class=\"note\">What would make it possible is tried once the cut rests; where nothing is said then, nothing that was tried does.</p>\n")
	}
}

// whyNot is the first error of an answer.
func whyNot(a *whatif.Answer, units quantity.System) string {
	found := a.Found
	if a.Fit != nil {
		found = a.Fit.Findings
	}
	if wrong := graph.Errors(found); len(wrong) > 0 {
		return wrong[0].Message.In(units)
	}
	return "nothing in it can take the work."
}

// The strip, in units of its view: the leg lies from left to right, its axis at mid.
const (
	stripWide, stripHigh   = 480.0, 128.0
	stripLeft, stripRight  = 16.0, 464.0
	stripMid               = 58.0
	stripPipe, stripSocket = 7.0, 12.0 // half of what is drawn of pipe and socket
)

// stripSVG draws a leg of the old pipe to scale along its length, with the sockets at its ends, what goes
// straight on from it as far as a tape is held, the work on it term by term, and the two cut lines. Its
// measures are those of the marks.
func stripSVG(b *bytes.Buffer, p retrofit.Place, units quantity.System) {
	long := p.LegMM()
	if long <= 0 {
		return
	}
	from, to := p.Lies()
	tape, end := p.Tape()
	left := min(0, tape)
	s := strip{b, left, (stripRight - stripLeft) / (max(long, to, end) - left)} // work that does not fit is seen whole
	style := form.Style{Units: units}
	first, second := p.Cuts()
	label := fmt.Sprintf("%s, %s long: %s", p.Where(), style.Length(long), marks(first, second, p.Datum, style))
	fmt.Fprintf(b, "<svg class=\"strip\" viewBox=\"0 0 %g %g\" role=\"img\" aria-label=\"%s\" data-scale=\"%.6f\" data-at=\"%s\">\n", stripWide, stripHigh, text(label), s.scale, tenths(p.FromMM))
	fmt.Fprintf(b, "<path d=\"M%.1f %gH%.1fM%.1f %gH%.1f\" stroke=\"#000\" fill=\"none\"/>\n", s.x(left), stripMid-stripPipe, s.x(max(long, end)), s.x(left), stripMid+stripPipe, s.x(max(long, end)))
	s.goesOn(left, 0)
	s.goesOn(long, end)
	s.box(0, p.DatumMM, stripSocket, "#fff")
	s.box(long-p.FarMM, long, stripSocket, "#fff")
	b.WriteString("<g class=\"work\">\n")
	at := from
	for i, t := range p.Terms {
		s.box(at, at+t.MM, stripSocket-2, []string{"#ddd", "#bbb"}[i%2])
		if t.MM*s.scale >= 9 {
			fmt.Fprintf(b, "<text x=\"%.1f\" y=\"%g\" font-size=\"11\" text-anchor=\"middle\">%d</text>\n", s.x(at+t.MM/2), stripMid+4, i+1)
		}
		at += t.MM
	}
	s.cuts(&p)
	b.WriteString("</g>\n")
	s.dimension(tape, tape+first, style.Length(first))
	on := func(mm float64) float64 { return quantity.Tape(mm, units) } // so that what is printed adds up
	s.dimension(tape+first, tape+second, style.Length(on(second)-on(first)))
	s.dimension(tape+second, end, style.Length(on(end-tape)-on(second)))
	b.WriteString("</svg>\n")
}

// strip is the drawing of a leg: from so many mm along it on, so many of its units to the mm.
type strip struct {
	b           *bytes.Buffer
	left, scale float64
}

func (s strip) x(mm float64) float64 { return stripLeft + (mm-s.left)*s.scale }

// goesOn marks pipe from here to there that lies in one line with the leg and is not looked at for this cut.
func (s strip) goesOn(from, to float64) {
	if to-from < 0.5 {
		return
	}
	fmt.Fprintf(s.b, "<rect class=\"goes-on\" x=\"%.1f\" y=\"%g\" width=\"%.1f\" height=\"%g\" fill=\"#000\" fill-opacity=\"0.15\"/>\n", s.x(from), stripMid-stripPipe, (to-from)*s.scale, 2*stripPipe)
}

// box is a part of the leg from here to there, half as high over the axis.
func (s strip) box(from, to, half float64, fill string) {
	fmt.Fprintf(s.b, "<rect x=\"%.1f\" y=\"%g\" width=\"%.1f\" height=\"%g\" fill=\"%s\" stroke=\"#000\"/>\n", s.x(from), stripMid-half, max(0.4, (to-from)*s.scale), 2*half, fill)
}

// cuts are the lines of the saw: none where an old adaptor stays.
func (s strip) cuts(p *retrofit.Place) {
	cut := func(mm float64, name, anchor string) {
		fmt.Fprintf(s.b, "<path d=\"M%.1f 24V92\" stroke=\"#000\" stroke-width=\"1.6\" stroke-dasharray=\"7 3 1.5 3\" fill=\"none\"/>\n", s.x(mm))
		fmt.Fprintf(s.b, "<text x=\"%.1f\" y=\"18\" font-size=\"14\" font-weight=\"bold\" text-anchor=\"%s\">%s</text>\n", s.x(mm), anchor, name)
	}
	far := "X2"
	if p.Kept[0] {
		far = "X1"
	}
	left, right := "middle", "middle"
	if (p.ToMM-p.FromMM)*s.scale < 24 {
		left, right = "end", "start"
	}
	if !p.Kept[0] {
		cut(p.FromMM, "X1", left)
	}
	if !p.Kept[1] {
		cut(p.ToMM, far, right)
	}
}

// dimension is an amount under the leg, its words only where they have room.
func (s strip) dimension(a, c float64, words string) {
	if c-a < 0.5 {
		return
	}
	fmt.Fprintf(s.b, "<path d=\"M%.1f 106H%.1fM%.1f 101V111M%.1f 101V111\" stroke=\"#000\" stroke-width=\"0.7\" fill=\"none\"/>\n", s.x(a), s.x(c), s.x(a), s.x(c))
	if 7*float64(len(words)) <= (c-a)*s.scale {
		fmt.Fprintf(s.b, "<text x=\"%.1f\" y=\"124\" font-size=\"12.5\" text-anchor=\"middle\">%s</text>\n", (s.x(a)+s.x(c))/2, text(strings.TrimSpace(words)))
	}
}
