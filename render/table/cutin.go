package table

import (
	"fmt"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
	"dryfit/graph/retrofit"
	"dryfit/render/table/form"
	"dryfit/render/template"
)

type placeJSON struct {
	Rank    int          `json:"rank"`
	Run     string       `json:"run"`
	Leg     int          `json:"leg"`
	Datum   string       `json:"measured_from"`
	From    float64      `json:"from_mm"` // from there
	To      float64      `json:"to_mm"`
	At      float64      `json:"at_mm"` // the first cut along the leg, as the description's at reads it
	Verdict string       `json:"verdict"`
	Reasons []reasonJSON `json:"reasons"`
	Room    float64      `json:"room_mm"`
	Needed  float64      `json:"needed_mm"`
	Play    float64      `json:"play_mm"`
	Terms   []termJSON   `json:"terms"`
	Mend    []string     `json:"mend"`
	Next    string       `json:"next,omitempty"`
	Summary string       `json:"summary"`
}

type reasonJSON struct {
	Rule     string `json:"rule"`
	Text     string `json:"text"`
	Line     int    `json:"line"`
	Severity string `json:"severity"`
}

type termJSON struct {
	What string  `json:"what"`
	MM   float64 `json:"mm"`
}

// CutinJSON prints every place with its verdict.
func CutinJSON(p *plan.Plan, s form.Style) ([]byte, error) {
	out := struct {
		Places []placeJSON `json:"places"`
	}{[]placeJSON{}}
	for _, v := range p.Places {
		out.Places = append(out.Places, place(v, s))
	}
	return form.WriteJSON(out)
}

func place(v search.Verdict, s form.Style) placeJSON {
	first, second := v.Place.Cuts()
	out := placeJSON{
		Rank: v.Rank, Run: v.Place.Run, Leg: v.Place.Leg,
		Datum: v.Place.Datum, From: form.MM(first), To: form.MM(second), At: form.MM(v.Place.FromMM),
		Verdict: v.Verdict, Reasons: []reasonJSON{}, Room: form.MM(v.Place.RoomMM), Needed: form.MM(v.Place.NeededMM),
		Play: form.MM(v.Place.PlayMM), Terms: []termJSON{}, Mend: s.Says(v.Mend), Next: s.Say(v.Next), Summary: s.Say(v.Summary),
	}
	for _, r := range v.Reasons {
		out.Reasons = append(out.Reasons, reasonJSON{r.Rule, s.Say(r.Text), r.Pos.Line, r.Severity.String()})
	}
	for _, t := range v.Place.Terms {
		out.Terms = append(out.Terms, termJSON{s.Say(t.What), form.MM(t.MM)})
	}
	return out
}

// CutinCSV prints every place on a line.
func CutinCSV(p *plan.Plan, s form.Style) ([]byte, error) {
	var rows [][]string
	for _, v := range p.Places {
		first, second := v.Place.Cuts()
		rows = append(rows, []string{
			strconv.Itoa(v.Rank), form.Cell(v.Place.Run), strconv.Itoa(v.Place.Leg), form.Cell(v.Place.Datum), form.Fixed(first, 1), form.Fixed(second, 1), form.Fixed(v.Place.FromMM, 1),
			v.Verdict, form.Fixed(v.Place.RoomMM, 1), form.Fixed(v.Place.NeededMM, 1), form.Cell(strings.Join(reasonTexts(v, s), "; ")), form.Cell(strings.Join(s.Says(v.Mend), "; ")),
		})
	}
	return form.WriteCSV([]string{"rank", "run", "leg", "measured_from", "from_mm", "to_mm", "at_mm", "verdict", "room_mm", "needed_mm", "reasons", "mend"}, rows), nil
}

func reasonTexts(v search.Verdict, s form.Style) []string {
	var out []string
	for _, r := range v.Reasons {
		text := s.Say(r.Text)
		if r.Pos.IsValid() {
			text += fmt.Sprintf(" (line %d)", r.Pos.Line)
		}
		out = append(out, text)
	}
	return out
}

// CutinText prints the ranked places for a terminal, where to mark the pipe and the order
// of assembly.
func CutinText(p *plan.Plan, s form.Style) ([]byte, error) {
	return form.Text(CutinBlocks(p, s), s), nil
}

// CutinBlocks lists the ranked places, then what MarkingBlocks and AssemblyBlocks do.
func CutinBlocks(p *plan.Plan, s form.Style) []form.Block {
	var out []form.Block
	if len(p.Places) == 0 {
		line := "no existing pipe with a place to cut"
		if r := p.Asked.Retrofit; r != nil && r.Remove {
			line = fmt.Sprintf("%s is to come out: there is no place to choose", r.Unit)
		}
		out = append(out, form.Block{Lines: []string{line}})
	}
	for _, v := range p.Places {
		out = append(out, placeBlocks(v, s)...)
	}
	marking := MarkingBlocks(p, s)
	if p.Proposal != nil && p.RuledOut() == nil && p.Proposal.Place.Leg > 0 && len(marking) > 0 {
		at := p.Proposal.Place
		marking[0].Lines = append(marking[0].Lines, fmt.Sprintf("  to keep this place, write in [retrofit]: cut = { run = %q, leg = %d, at = %q }", at.Run, at.Leg, offsetWords(at.FromMM, s)))
	}
	return append(append(out, marking...), AssemblyBlocks(p, s)...)
}

// PlaceLines says of a place what CutinText does: its title, and the reasons for its verdict.
func PlaceLines(v search.Verdict, s form.Style) (title string, lines []string) {
	b := placeBlocks(v, s)[0]
	for _, l := range b.Lines {
		lines = append(lines, strings.TrimPrefix(strings.TrimSpace(l), "- "))
	}
	return b.Title, lines
}

func placeBlocks(v search.Verdict, s form.Style) []form.Block {
	b := form.Block{Title: placeTitle(v, s)}
	if v.Summary != "" {
		b.Lines = append(b.Lines, "   "+s.Say(v.Summary))
	}
	for _, r := range reasonTexts(v, s) {
		b.Lines = append(b.Lines, "   - "+r)
	}
	for _, m := range v.Mend {
		says := "   would make it possible: "
		if v.Verdict == "measure first" { // the tape may find that it is not
			says = "   would tell: "
		}
		b.Lines = append(b.Lines, says+s.Say(m))
	}
	if v.Next != "" {
		b.Lines = append(b.Lines, "   "+s.Say(v.Next))
	}
	if v.Verdict != "best" && (v.Verdict != "possible if" || v.Rank > 1) {
		return []form.Block{b}
	}
	return []form.Block{b, {Grid: terms(v, s)}}
}

func placeTitle(v search.Verdict, s form.Style) string {
	where := v.Place.Run
	if v.Place.Leg > 0 {
		where += fmt.Sprintf(", leg %d", v.Place.Leg)
	}
	if v.Verdict == "measure first" {
		return fmt.Sprintf("%s: %s", v.Verdict, where)
	}
	room := fmt.Sprintf("room %s, needs %s", s.Length(v.Place.RoomMM), s.Length(v.Place.NeededMM))
	if v.Verdict == "best" || v.Verdict == "possible" || v.Verdict == "possible if" {
		first, second := v.Place.Cuts()
		cuts := fmt.Sprintf("cut at %s and %s from the %s", s.Length(first), s.Second(first, second), v.Place.Datum)
		switch v.Place.Kept {
		case [2]bool{true, true}:
			cuts = fmt.Sprintf("no cut, all of it out between the %s and the %s", v.Place.Datum, v.Place.Far)
		case [2]bool{true, false}:
			cuts = fmt.Sprintf("out from the %s, cut at %s", v.Place.Datum, s.Length(second))
		case [2]bool{false, true}:
			cuts = fmt.Sprintf("cut at %s from the %s, out from there to the %s", s.Length(first), v.Place.Datum, v.Place.Far)
		}
		return fmt.Sprintf("%d. %s: %s, %s (%s)", v.Rank, v.Verdict, where, cuts, room)
	}
	return fmt.Sprintf("%s: %s (%s)", v.Verdict, where, room)
}

// terms adds up what the work needs of the pipe.
func terms(v search.Verdict, s form.Style) *form.Grid {
	g := form.NewGrid(form.Column{Head: "  "}, form.Column{Head: "length", Right: true}, form.Column{Head: "what"})
	for _, t := range v.Place.Terms {
		g.Add("  ", s.Length(t.MM), s.Say(t.What))
	}
	g.Add("  ", s.Length(v.Place.NeededMM), "together")
	return g
}

// MarkingBlocks says where to mark the old pipe for each cut of a proposal; where the place
// is ruled out, that and why.
func MarkingBlocks(p *plan.Plan, s form.Style) []form.Block {
	why := p.WhyNot()
	if p.Proposal == nil || why == "" && p.Proposal.Marking.Run == "" {
		return drawnMarking(p, s)
	}
	if why != "" {
		return []form.Block{{Title: "No marking out and no order of assembly", Lines: []string{"  " + s.Say(why)}}}
	}
	var out []form.Block
	cut := 1
	for _, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
		if m == nil || m.Run == "" {
			continue
		}
		b := form.Block{Title: "Marking out on " + m.Run}
		say := func(format string, args ...any) { b.Lines = append(b.Lines, "  "+fmt.Sprintf(format, args...)) }
		say("measure from: %s", m.From)
		saw := quantity.Length.Finely(m.KerfMM).In(s.Units)
		kerf := "; the saw's " + saw + " falls on its side"
		if m.Hose {
			kerf = "; shears or a knife, square"
		}
		switch m.Kept {
		case [2]bool{true, true}:
			say("no cut line: the whole pipe comes out, %s from face to face", s.Length(m.SlugMM))
		case [2]bool{true, false}:
			say("cut line X%d at %s", cut, s.Length(m.SecondMM))
			say("take out %s, from the adaptor that stays to X%d%s", s.Length(m.SlugMM), cut, kerf)
			say("insertion mark on what stays: %s after X%d", s.Length(m.DepthSecondMM), cut)
			cut--
		case [2]bool{false, true}:
			say("cut line X%d at %s", cut, s.Length(m.FirstMM))
			say("take out %s, from X%d to the adaptor that stays%s", s.Length(m.SlugMM), cut, kerf)
			say("insertion mark on what stays: %s before X%d", s.Length(m.DepthFirstMM), cut)
			cut--
		default:
			say("cut line X%d at %s, cut line X%d at %s", cut, s.Length(m.FirstMM), cut+1, s.Second(m.FirstMM, m.SecondMM))
			if m.Hose {
				say("take out %s of hose; shears or a knife, square: they take nothing away", s.Length(m.SlugMM))
			} else {
				say("take out a slug of %s; the saw's %s falls on the waste side of both lines", s.Length(m.SlugMM), saw)
			}
			say("insertion marks on what stays: %s before X%d, %s after X%d", s.Length(m.DepthFirstMM), cut, s.Length(m.DepthSecondMM), cut+1)
		}
		lines := strings.NewReplacer("the first cut", fmt.Sprintf("X%d", cut), "the second cut", fmt.Sprintf("X%d", cut+1))
		for _, k := range m.Keeps {
			say("stays: %s", lines.Replace(s.Say(k)))
		}
		out = append(out, b)
		cut += 2
	}
	return out
}

// drawnMarking says where to mark old pipe that is cut by a description which holds its work
// already, or where a unit comes out; none where nothing is cut or the plan is ruled out.
func drawnMarking(p *plan.Plan, s form.Style) []form.Block {
	if p.Fault() != nil || p.After == nil || p.After.Layout == nil {
		return nil
	}
	var out []form.Block
	cuts := template.OfRemains(p.LayoutBefore(), p.After.Layout)
	for i, c := range cuts {
		if i == 0 || cuts[i-1].Run != c.Run {
			out = append(out, form.Block{Title: "Marking out on " + c.Run})
		}
		b := &out[len(out)-1]
		at := s.Length(c.FromMM)
		if c.FirstMM > 0 {
			at = s.Second(c.FirstMM, c.FirstMM+c.OtherMM)
		}
		b.Lines = append(b.Lines, fmt.Sprintf("  cut line %s at %s from the %s", c.Name, at, c.From))
		if c.DepthMM > 0 {
			side := "before"
			if c.Second {
				side = "after"
			}
			b.Lines = append(b.Lines, fmt.Sprintf("  insertion mark on what stays: %s %s %s", s.Length(c.DepthMM), side, c.Name))
		}
		if c.Other != "" && c.Second {
			how := "the saw goes on the side that comes out"
			if c.Spec.IsHose() {
				how = "shears or a knife, square"
			}
			b.Lines = append(b.Lines, fmt.Sprintf("  %s from %s to %s, line to line; %s", s.Length(c.OtherMM), c.Other, c.Name, how))
		}
	}
	return out
}

// AssemblyBlocks lists the steps in which the joints can be made; none where the place is
// ruled out.
func AssemblyBlocks(p *plan.Plan, _ form.Style) []form.Block {
	if p.Assembly == nil || len(p.Assembly.Steps) == 0 || p.RuledOut() != nil {
		return nil
	}
	b := form.Block{Title: "Order of assembly"}
	for _, step := range p.Assembly.Steps {
		b.Lines = append(b.Lines, fmt.Sprintf("  %2d. %s", step.Number, step.Text))
	}
	return []form.Block{b}
}

// offsetWords is a place on a leg as it is written into the description, in the units of the job:
// near enough to be the same place.
func offsetWords(mm float64, s form.Style) string {
	if s.Units == quantity.InchSystem {
		return quantity.Trim(form.Round(mm/25.4, 3)) + " in"
	}
	return quantity.Trim(form.Round(mm, 1)) + " mm"
}
