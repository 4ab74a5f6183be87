package pack

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/book"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// listed are the columns whose cells name parts, runs and places by their ids.
var listed = map[string]bool{"part": true, "run": true, "where": true}

// named puts the names of all papers for the ids in a chapter's tables.
func named(c book.Chapter, names *tag.Names) book.Chapter {
	items := make([]book.Item, len(c.Items))
	for i, it := range c.Items {
		if it.Kind == book.Table || it.Kind == book.Blanks {
			it.Block = namedBlock(it.Block, names)
		}
		items[i] = it
	}
	c.Items = items
	return c
}

func namedBlock(b form.Block, names *tag.Names) form.Block {
	b.Title = names.Text(b.Title)
	lines := make([]string, len(b.Lines))
	for i, l := range b.Lines {
		lines[i] = names.Text(l)
	}
	b.Lines = lines
	if b.Grid == nil {
		return b
	}
	g := *b.Grid
	g.Rows = make([][]string, len(b.Grid.Rows))
	for i, row := range b.Grid.Rows {
		out := make([]string, len(row))
		for k, cell := range row {
			switch {
			case k < len(g.Header) && listed[g.Header[k]]:
				out[k] = names.Cell(cell)
			case k < len(g.Header) && g.Header[k] == "value":
				out[k] = names.Text(ofPart(cell, names))
			default:
				out[k] = names.Text(cell)
			}
		}
		g.Rows[i] = out
	}
	b.Grid = &g
	return b
}

// ofPart names the part a value is of, where its id is a word as any other: "body of filter".
func ofPart(value string, names *tag.Names) string {
	at := strings.LastIndex(value, " of ") + len(" of ")
	if at < len(" of ") || names.Tags()[value[at:]] == "" {
		return value
	}
	return value[:at] + names.Short(value[at:])
}

// stepText is a step of the assembly in the papers' names: joints that follow each other on one
// string stand as it is put together, "T2 tee – piece 4 – V1 ball valve".
func stepText(p *plan.Plan, j jobIn, s route.Step, names *tag.Names) string {
	text := strings.TrimPrefix(s.Text, s.Phase.Lead())
	if len(s.Meetings) == 0 {
		return tag.Joints(ofUnion(names, names.Text(text)))
	}
	chains, cement := stringsOf(p, j, s, names)
	before := s.Before
	if fit := fitted(p, s); fit != "" {
		before = fit + "glue "
	}
	if lead, ok := strings.CutSuffix(before, "glue "); ok && cement {
		before = lead + "glue together "
	}
	if !cement {
		chains = nil
		for _, m := range s.Meetings {
			comes, stays := endOf(sideOf(p, j, names, m.Comes, m.Run)), endOf(sideOf(p, j, names, m.Stays, m.Run))
			chains = append(chains, comes+" "+m.Prep()+" "+stays)
		}
	}
	with, behind, _ := strings.Cut(s.Behind, " (")
	_, behind, _ = strings.Cut(behind, ")") // what stands behind the joints' numbers
	return before + strings.Join(chains, "; ") + with + " (" + jointNumbers(s.Joints) + ")" + behind
}

// sideOf is one side of a joint, a piece with the length it is cut to.
func sideOf(p *plan.Plan, j jobIn, names *tag.Names, words, run string) string {
	return names.Side(words, run) + lengthOf(p, j, words)
}

// endOf turns the side of a joint that is an end of what was there into words of a sentence: "the end of the
// old hose towards the tub" for "old hose, end towards the tub".
func endOf(side string) string {
	if what, towards, ok := strings.Cut(side, ", end "); ok {
		return "the end of the " + what + " " + towards
	}
	return side
}

// fitted says how a piece left long comes to its length, in the step that closes its loop; "" where
// none does. Common practice, no source.
func fitted(p *plan.Plan, s route.Step) string {
	if p.Cuts == nil {
		return ""
	}
	for i := range p.Cuts.Pieces {
		if c := &p.Cuts.Pieces[i]; c.OverMM > 0 && slices.Contains(s.Joints, c.FitJoint) {
			return fmt.Sprintf("hold piece %d in its place, mark it and cut off what is over; then ", c.Number)
		}
	}
	return ""
}

// stringsOf is what the joints of a step put together, string by string; false where they are
// not all of cement.
func stringsOf(p *plan.Plan, in jobIn, s route.Step, names *tag.Names) (chains []string, cement bool) {
	last := ""
	side := func(words, run string) string { return sideOf(p, in, names, words, run) }
	for _, n := range s.Joints {
		j := jointOf(p, n)
		if j == nil || j.Kind != "cement" {
			return nil, false
		}
		a, b := body(j.A), body(j.B)
		switch last {
		case b:
			chains[len(chains)-1] += " – " + side(j.A, j.Run)
			last = a
		case a:
			chains[len(chains)-1] += " – " + side(j.B, j.Run)
			last = b
		default:
			chains = append(chains, side(j.A, j.Run)+" – "+side(j.B, j.Run))
			last = b
		}
	}
	return chains, len(chains) > 0
}

// lengthOf is the length a piece is cut to, in brackets; "" for what is no piece.
func lengthOf(p *plan.Plan, j jobIn, words string) string {
	number, ok := strings.CutPrefix(words, "piece ")
	if !ok || p.Cuts == nil {
		return ""
	}
	for i := range p.Cuts.Pieces {
		c := &p.Cuts.Pieces[i]
		if strconv.Itoa(c.Number) != number {
			continue
		}
		mark := c.Signs()
		if c.OverMM > 0 {
			mark += ", " + quantity.Format(c.OverMM, quantity.Length, j.units) + " over"
		}
		return " (" + quantity.Format(c.SawMM(), quantity.Length, j.units) + mark + ")"
	}
	return ""
}

var unionNuts = regexp.MustCompile(`(union nuts? of )([\w-]+)`)

// ofUnion names the part whose union nuts are done up, whatever its id.
func ofUnion(names *tag.Names, text string) string {
	return unionNuts.ReplaceAllStringFunc(text, func(s string) string {
		m := unionNuts.FindStringSubmatch(s)
		return m[1] + names.Tag(m[2])
	})
}

// body is the side of a joint without its port: what the next joint of a string shares with it.
func body(words string) string {
	if strings.Contains(words, " ") {
		return words
	}
	id, _, _ := strings.Cut(words, ".")
	return id
}

func jointOf(p *plan.Plan, number int) *route.Joint {
	for i := range p.After.Layout.Joints {
		if j := &p.After.Layout.Joints[i]; j.Number == number {
			return j
		}
	}
	return nil
}

// jointNumbers names joints: "joints J1 to J3".
func jointNumbers(list []int) string {
	if len(list) == 1 {
		return "joint " + tag.Joint(list[0])
	}
	for i, n := range list {
		if n != list[0]+i {
			var out []string
			for _, n := range list {
				out = append(out, tag.Joint(n))
			}
			return "joints " + strings.Join(out, ", ")
		}
	}
	join := "to"
	if len(list) == 2 {
		join = "and"
	}
	return fmt.Sprintf("joints %s %s %s", tag.Joint(list[0]), join, tag.Joint(list[len(list)-1]))
}
