package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// sameMM and sameFlow are within what a length and a flow of two packs are the same: they print
// alike. mm; m³/h.
const (
	sameMM   = 0.5
	sameFlow = 0.05
)

// Changed says what differs from an earlier pack: pieces, marks, ways of pipes, parts, order and flows.
func Changed(p *plan.Plan, e *Earlier, style form.Style) book.Chapter {
	c := book.Chapter{ID: "changed", Title: "What has changed", For: book.Everybody}
	if e == nil {
		return c
	}
	data, err := JSON(p, style)
	if err != nil {
		return c
	}
	now, err := Read(data)
	if err != nil {
		return c
	}
	names := tag.Of(p.Circuit, p.Net())
	c.Say(fmt.Sprintf("Held against the pack with the fingerprint %s%s; this one has %s%s.", e.file.Fingerprint, revision(e.file.Job), now.file.Fingerprint, revision(now.file.Job)))
	if e.file.Fingerprint == now.file.Fingerprint {
		c.Say("Both were made from the same description.")
	} else if e.file.Job.Revision == now.file.Job.Revision {
		c.Say("The descriptions differ and say the same revision: write a new one in [job] revision before both are on site.")
	}
	lines := changedPieces(e, now, style.Units)
	lines = append(lines, changedMarks(e, now, style.Units, names)...)
	lines = append(lines, changedWays(e, now, names)...)
	lines = append(lines, changedParts(e, now)...)
	lines = append(lines, changedOrder(e, now)...)
	lines = append(lines, changedFlows(e, now, style.Units, names, theUnit(p, names))...)
	if e.file.Fault != now.file.Fault {
		switch {
		case now.file.Fault == "":
			lines = append(lines, "What stood in the way is mended: it may be built.")
		case e.file.Fault == "":
			lines = append(lines, "It may not be built any more: see The answer.")
		}
	}
	if len(lines) == 0 {
		lines = []string{"Nothing of the pieces, the marks, the ways of the pipes, the parts, the order of work and the flows has changed."}
	}
	c.Add(book.Item{Kind: book.Bullets, Lines: lines})
	return c
}

func revision(j jobFile) string {
	if j.Revision == "" {
		return ""
	}
	return ", revision " + j.Revision
}

// changedPieces goes through the pieces by their numbers.
func changedPieces(e, now *Earlier, units quantity.System) []string {
	length := func(mm float64) string { return quantity.Format(mm, quantity.Length, units) }
	if len(now.pieces) == 0 && len(e.pieces) > 1 {
		return []string{fmt.Sprintf("None of the %d pieces is cut any more.", len(e.pieces))}
	}
	old := map[int]earlierPiece{}
	for _, q := range e.pieces {
		old[q.Piece] = q
	}
	var out []string
	for _, q := range now.pieces {
		was, ok := old[q.Piece]
		delete(old, q.Piece)
		what := fmt.Sprintf("Piece %d", q.Piece)
		switch {
		case !ok:
			out = append(out, fmt.Sprintf("%s is new: %s of %s %s.", what, length(q.Cut), q.Spec, q.Size))
		case was.Spec != q.Spec || was.Size != q.Size:
			out = append(out, fmt.Sprintf("%s is %s %s, was %s %s; its length is %s, was %s.", what, q.Spec, q.Size, was.Spec, was.Size, length(q.Cut), length(was.Cut)))
		case math.Abs(was.Cut-q.Cut) > sameMM:
			out = append(out, fmt.Sprintf("%s is %s long, was %s.", what, length(q.Cut), length(was.Cut)))
		case math.Abs(was.Over-q.Over) > sameMM:
			out = append(out, fmt.Sprintf("%s is sawn %s long, was %s.", what, length(q.Cut+q.Over), length(was.Cut+was.Over)))
		}
	}
	for _, q := range e.pieces {
		if _, left := old[q.Piece]; left {
			out = append(out, fmt.Sprintf("Piece %d is no more: %s of %s %s.", q.Piece, length(q.Cut), q.Spec, q.Size))
		}
	}
	return out
}

func changedMarks(e, now *Earlier, units quantity.System, names *tag.Names) []string {
	style := form.Style{Units: units}
	var out []string
	old, is := called(e.file.Marking), called(now.file.Marking)
	for i := range max(len(old), len(is)) {
		mark := ""
		if i < len(is) {
			mark = is[i]
		}
		switch {
		case i >= len(is):
			out = append(out, old[i]+": sawn no more.")
		case i >= len(e.file.Marking):
			m := now.file.Marking[i]
			out = append(out, fmt.Sprintf("%s: new, at %s from the %s.", mark, m.places(style), names.Text(m.From)))
		default:
			m, was := now.file.Marking[i], e.file.Marking[i]
			if m.Run != was.Run || m.From != was.From {
				out = append(out, fmt.Sprintf("%s: elsewhere, at %s from the %s.", mark, m.places(style), names.Text(m.From)))
			} else if math.Abs(m.FirstMM-was.FirstMM) > sameMM || math.Abs(m.SecondMM-was.SecondMM) > sameMM {
				out = append(out, fmt.Sprintf("%s: at %s, before at %s.", mark, m.places(style), was.places(style)))
			}
		}
	}
	return out
}

// called names the cuts of each mark: "Cuts X1 and X2", or "Cut X3" where one stands by itself.
func called(marks []markFile) []string {
	var out []string
	n := 1
	for _, m := range marks {
		if m.alone() {
			out = append(out, fmt.Sprintf("Cut X%d", n))
			n++
			continue
		}
		out = append(out, fmt.Sprintf("Cuts X%d and X%d", n, n+1))
		n += 2
	}
	return out
}

// alone reports whether a mark is of one cut.
func (m *markFile) alone() bool { return m.FirstMM == m.SecondMM }

// places are how far the cuts are from the face they are measured from.
func (m *markFile) places(s form.Style) string {
	if m.alone() {
		return s.Length(m.FirstMM)
	}
	return s.Length(m.FirstMM) + " and " + s.Second(m.FirstMM, m.SecondMM)
}

// changedWays says of pipe that it goes another way: pieces as long as before are laid otherwise, as where
// somebody had noted left for right. A pack from before ways were written says nothing of them.
func changedWays(e, now *Earlier, names *tag.Names) []string {
	old := map[string][]string{}
	for _, w := range e.file.Ways {
		old[w.Run] = w.Legs
	}
	count, first := 0, ""
	for _, w := range now.file.Ways {
		was, ok := old[w.Run]
		if !ok || slices.Equal(was, w.Legs) {
			continue
		}
		if count++; count == 1 {
			first = fmt.Sprintf("%s goes %s, and not %s", names.Text(fmt.Sprintf("%q", w.Run)), strings.Join(w.Legs, ", "), strings.Join(was, ", "))
		}
	}
	switch count {
	case 0:
		return nil
	case 1:
		return []string{"Pipe goes another way: " + first + "."}
	}
	return []string{fmt.Sprintf("Pipe goes another way on %d runs, the first of them: %s. Lay and drill by the drawings of this pack alone.", count, first)}
}

// mostParts is how many lines of the parts list are told one by one.
const mostParts = 8

// bought is what of the parts list is new work: its items in their order, and how much of each.
func (e *Earlier) bought() (items []string, amounts map[string]string) {
	var list struct {
		Items []struct {
			Item     string  `json:"item"`
			Quantity float64 `json:"quantity"`
			Unit     string  `json:"unit"`
			New      bool    `json:"new"`
		} `json:"items"`
	}
	amounts = map[string]string{}
	if len(e.file.Parts) == 0 || json.Unmarshal(e.file.Parts, &list) != nil {
		return nil, amounts
	}
	for _, i := range list.Items {
		if i.New && amounts[i.Item] == "" {
			items = append(items, i.Item)
			amounts[i.Item] = quantity.Trim(i.Quantity) + " " + i.Unit
		}
	}
	return items, amounts
}

// changedParts says what else is bought, so that nobody fits the spring of the earlier pack.
func changedParts(e, now *Earlier) []string {
	before, was := e.bought()
	after, is := now.bought()
	if len(before) == 0 || len(after) == 0 {
		return nil
	}
	var out []string
	for _, item := range after {
		switch {
		case was[item] == "":
			out = append(out, fmt.Sprintf("To be bought now: %s (%s).", item, is[item]))
		case was[item] != is[item]:
			out = append(out, fmt.Sprintf("To be bought: %s, %s, were %s.", item, is[item], was[item]))
		}
	}
	for _, item := range before {
		if is[item] == "" {
			out = append(out, fmt.Sprintf("No longer bought: %s.", item))
		}
	}
	if len(out) > mostParts {
		return []string{fmt.Sprintf("%d lines of the parts list are others: order by this pack alone.", len(out))}
	}
	return out
}

// changedOrder says whether the joints are made in another order.
func changedOrder(e, now *Earlier) []string {
	a, _ := json.Marshal(e.file.Joints)
	b, _ := json.Marshal(now.file.Joints)
	if !bytes.Equal(a, b) {
		return []string{fmt.Sprintf("The joints are others: %d, were %d. Take the numbers on pipe and sheets from this pack alone.", len(now.file.Joints), len(e.file.Joints))}
	}
	a, _ = json.Marshal(e.file.Order)
	b, _ = json.Marshal(now.file.Order)
	if !bytes.Equal(a, b) {
		return []string{"The order of work is another."}
	}
	return nil
}

// changedFlows says which flows are others; of several units it tells of the one the job is about.
func changedFlows(e, now *Earlier, units quantity.System, names *tag.Names, unit string) []string {
	old := map[string]getsFile{}
	for _, g := range e.file.Gets {
		old[g.Mode] = g
	}
	flow := func(v float64) string { return quantity.Format(v/3600, quantity.Flow, units) }
	var out []string
	for _, g := range now.file.Gets {
		was, ok := old[g.Mode]
		if !ok {
			out = append(out, running(names, g.Mode)+" is new.")
			continue
		}
		for _, v := range []struct {
			what   string
			is, of *float64
		}{{unit + " gets", g.Unit, was.Unit}, {"the jets get", g.Jets, was.Jets}} {
			if v.is != nil && v.of != nil && math.Abs(*v.is-*v.of) > sameFlow {
				out = append(out, fmt.Sprintf("%s %s %s, it was %s.", quantity.Capital(names.Mode(g.Mode)), v.what, flow(*v.is), flow(*v.of)))
			}
		}
		delete(old, g.Mode)
	}
	for _, g := range e.file.Gets {
		if _, left := old[g.Mode]; left {
			out = append(out, running(names, g.Mode)+" is no more.")
		}
	}
	return out
}

// running is a mode as the first word of a line; one that this circuit does not have by its name.
func running(names *tag.Names, mode string) string {
	if words := names.Mode(mode); words != mode {
		return "Running " + words
	}
	return "Mode " + mode
}

// theUnit is what the unit the job is about is called: by its name where there are several.
func theUnit(p *plan.Plan, names *tag.Names) string {
	if p.After != nil && len(p.After.Circuit.Units()) > 1 {
		return names.Tag(p.After.Circuit.TheUnit().ID)
	}
	return "the unit"
}
