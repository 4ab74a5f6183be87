package table

import (
	"fmt"
	"strconv"
	"strings"

	"dryfit/graph/plan"
)

type placeJSON struct {
	Rank    int          `json:"rank"`
	Run     string       `json:"run"`
	Leg     int          `json:"leg"`
	From    float64      `json:"from_mm"`
	To      float64      `json:"to_mm"`
	Verdict string       `json:"verdict"`
	Reasons []reasonJSON `json:"reasons"`
	Room    float64      `json:"room_mm"`
	Needed  float64      `json:"needed_mm"`
	Play    float64      `json:"play_mm"`
	Terms   []termJSON   `json:"terms"`
	Mend    []string     `json:"mend"`
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
func CutinJSON(p *plan.Plan, _ Style) ([]byte, error) {
	out := struct {
		Places []placeJSON `json:"places"`
	}{[]placeJSON{}}
	for _, v := range p.Places {
		out.Places = append(out.Places, place(v))
	}
	return writeJSON(out)
}

func place(v plan.Verdict) placeJSON {
	out := placeJSON{
		Rank: v.Rank, Run: v.Place.Run, Leg: v.Place.Leg, From: mm(v.Place.FromMM), To: mm(v.Place.ToMM),
		Verdict: v.Verdict, Reasons: []reasonJSON{}, Room: mm(v.Place.RoomMM), Needed: mm(v.Place.NeededMM),
		Play: mm(v.Place.PlayMM), Terms: []termJSON{}, Mend: append([]string{}, v.Mend...), Summary: v.Summary,
	}
	for _, r := range v.Reasons {
		out.Reasons = append(out.Reasons, reasonJSON{r.Rule, r.Text, r.Pos.Line, r.Severity.String()})
	}
	for _, t := range v.Place.Terms {
		out.Terms = append(out.Terms, termJSON{t.What, mm(t.MM)})
	}
	return out
}

// CutinCSV prints every place on a line.
func CutinCSV(p *plan.Plan, _ Style) ([]byte, error) {
	var rows [][]string
	for _, v := range p.Places {
		rows = append(rows, []string{
			strconv.Itoa(v.Rank), cell(v.Place.Run), strconv.Itoa(v.Place.Leg), fixed(v.Place.FromMM, 1), fixed(v.Place.ToMM, 1),
			v.Verdict, fixed(v.Place.RoomMM, 1), fixed(v.Place.NeededMM, 1), cell(strings.Join(reasonTexts(v), "; ")), cell(strings.Join(v.Mend, "; ")),
		})
	}
	return writeCSV([]string{"rank", "run", "leg", "from_mm", "to_mm", "verdict", "room_mm", "needed_mm", "reasons", "mend"}, rows), nil
}

func reasonTexts(v plan.Verdict) []string {
	var out []string
	for _, r := range v.Reasons {
		text := r.Text
		if r.Pos.IsValid() {
			text += fmt.Sprintf(" (line %d)", r.Pos.Line)
		}
		out = append(out, text)
	}
	return out
}

// CutinText prints the ranked places for a terminal, then where to mark the pipe.
func CutinText(p *plan.Plan, s Style) ([]byte, error) {
	var b strings.Builder
	if len(p.Places) == 0 {
		b.WriteString("no existing pipe with a place to cut\n")
	}
	for _, v := range p.Places {
		b.WriteString(s.title(plain(placeTitle(v, s))))
		if v.Summary != "" {
			b.WriteString("   " + plain(v.Summary) + "\n")
		}
		for _, r := range reasonTexts(v) {
			b.WriteString("   - " + plain(r) + "\n")
		}
		for _, m := range v.Mend {
			b.WriteString("   would make it possible: " + plain(m) + "\n")
		}
		if v.Verdict == "best" {
			b.WriteString(termsText(v, s))
		}
	}
	if p.Proposal != nil {
		b.WriteString("\n" + markingText(p, s))
	}
	b.WriteString(assemblyText(p, s))
	return []byte(b.String()), nil
}

func placeTitle(v plan.Verdict, s Style) string {
	where := v.Place.Run
	if v.Place.Leg > 0 {
		where += fmt.Sprintf(", leg %d", v.Place.Leg)
	}
	if v.Verdict == "measure first" {
		return fmt.Sprintf("%s: %s", v.Verdict, where)
	}
	room := fmt.Sprintf("room %s, needs %s", s.length(v.Place.RoomMM), s.length(v.Place.NeededMM))
	if v.Verdict == "best" || v.Verdict == "possible" {
		return fmt.Sprintf("%d. %s: %s, cut from %s to %s (%s)", v.Rank, v.Verdict, where, s.length(v.Place.FromMM), s.length(v.Place.ToMM), room)
	}
	return fmt.Sprintf("%s: %s (%s)", v.Verdict, where, room)
}

func termsText(v plan.Verdict, s Style) string {
	var rows [][]string
	for _, t := range v.Place.Terms {
		rows = append(rows, []string{"  ", s.length(t.MM), t.What})
	}
	rows = append(rows, []string{"  ", s.length(v.Place.NeededMM), "together"})
	return grid(s, []string{"  ", "length", "what"}, []string{"length"}, rows)
}

func markingText(p *plan.Plan, s Style) string {
	m := p.Proposal.Marking
	if m.Run == "" {
		return ""
	}
	var b strings.Builder
	b.WriteString(s.title("Marking out on " + plain(m.Run)))
	fmt.Fprintf(&b, "  measure from: %s\n", plain(m.From))
	fmt.Fprintf(&b, "  cut line X1 at %s, cut line X2 at %s\n", s.length(m.FirstMM), s.length(m.SecondMM))
	fmt.Fprintf(&b, "  take out a slug of %s; the saw's %s mm falls on the waste side of both lines\n", s.length(m.SlugMM), fixed(m.KerfMM, 1))
	fmt.Fprintf(&b, "  insertion marks on what stays: %s before X1, %s after X2\n", s.length(m.DepthFirstMM), s.length(m.DepthSecondMM))
	for _, k := range m.Keeps {
		fmt.Fprintf(&b, "  stays: %s\n", plain(k))
	}
	return b.String()
}

func assemblyText(p *plan.Plan, s Style) string {
	if p.Assembly == nil || len(p.Assembly.Steps) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("\n" + s.title("Order of assembly"))
	for _, step := range p.Assembly.Steps {
		fmt.Fprintf(&b, "  %2d. %s\n", step.Number, plain(step.Text))
	}
	return b.String()
}
