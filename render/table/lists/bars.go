package lists

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"dryfit/graph/takeoff/stock"
	"dryfit/render/table/form"
)

// stretchText is one piece, or what is left, on a line.
type stretchText struct {
	text  string
	share float64 // of the longest bar
	left  bool
	cols  int // given to it, without the bar at its end
}

// barLines draws a bar for a terminal of the width in columns, to scale as far as whole columns and the
// figures allow; longest is the longest bar of the plan, mm:
//
//	|#1 536        |#4 300 |~~~~~~~~~ left 2161 ~~~~~~~~|
//
// A bar with too many pieces for one line goes on in the next.
func barLines(bar stock.Bar, length map[int]float64, marks map[int]string, width int, longest float64, s form.Style) []string {
	bare := func(mm float64) string { return strings.TrimSuffix(s.Length(mm), " mm") }
	var all []stretchText
	for _, n := range bar.Pieces {
		all = append(all, stretchText{text: fmt.Sprintf("#%d%s %s", n, marks[n], bare(length[n])), share: length[n] / longest})
	}
	if bar.OffcutMM > 0.05 {
		all = append(all, stretchText{text: "left " + bare(bar.OffcutMM), share: bar.OffcutMM / longest, left: true})
	}
	var lines []string
	for len(all) > 0 {
		n, need := 0, 1
		for n < len(all) && (n == 0 || need+utf8.RuneCountInString(all[n].text)+1 <= width) {
			need += utf8.RuneCountInString(all[n].text) + 1
			n++
		}
		line, rest := all[:n], all[n:]
		columns(line, width-1-n)
		var b strings.Builder
		if len(lines) > 0 {
			b.WriteByte(' ') // the bar goes on
		} else {
			b.WriteByte('|')
		}
		for _, t := range line {
			b.WriteString(t.drawn() + "|")
		}
		lines = append(lines, b.String())
		all = rest
	}
	return lines
}

// columns shares at most most columns among the stretches: as many as its share of the
// longest bar's length asks for, but never fewer than its text.
func columns(line []stretchText, most int) {
	used := 0
	for i := range line {
		t := &line[i]
		t.cols = max(utf8.RuneCountInString(t.text), int(math.Round(t.share*float64(most))))
		used += t.cols
	}
	for used > most { // take from the one that has most to spare
		widest, spare := -1, 0
		for i, t := range line {
			if have := t.cols - utf8.RuneCountInString(t.text); have > spare {
				widest, spare = i, have
			}
		}
		if widest < 0 {
			return
		}
		line[widest].cols--
		used--
	}
}

// drawn writes a stretch in its columns: a piece with blanks behind it, what is left
// between tildes.
func (t stretchText) drawn() string {
	free := t.cols - utf8.RuneCountInString(t.text)
	switch {
	case !t.left:
		return t.text + strings.Repeat(" ", max(free, 0))
	case free < 2:
		return t.text + strings.Repeat("~", max(free, 0))
	}
	before := (free - 2) / 2
	return strings.Repeat("~", before) + " " + t.text + " " + strings.Repeat("~", free-2-before)
}
