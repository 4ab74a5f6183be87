package cutplan

import (
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/takeoff"
	"dryfit/graph/takeoff/stock"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// row is one strip across the sheet.
type row struct {
	height float64
	keep   bool // must not be the last on its sheet
	draw   func(at scene.Point, width float64) []scene.Item
}

// Sizes of what is written, mm.
const (
	headEm  = 3.4
	proofEm = 2.5
	lineMM  = 3.6
)

// flow puts the rows of all plans on as few sheets as they take.
func (d *drawing) flow(area scene.Box) [][]row {
	var pages [][]row
	var page []row
	used := 0.0
	turn := func() {
		pages = append(pages, page)
		page, used = nil, 0
	}
	for i, plan := range d.in.List.Plans {
		head := d.heading(plan, area.W(), false)
		if i > 0 {
			head.height += 3 // air before the next plan
			inner := head.draw
			head.draw = func(at scene.Point, w float64) []scene.Item {
				at.Y += 3
				return inner(at, w)
			}
		}
		rows := []row{head}
		for k, b := range plan.Bars {
			rows = append(rows, d.bar(&plan, k+1, b))
		}
		if len(plan.Unplaced) > 0 {
			rows = append(rows, d.unplaced(&plan, area.W()))
		}
		for k, r := range rows {
			need := r.height
			if r.keep && k+1 < len(rows) {
				need += rows[k+1].height
			}
			if used+need > area.H() && len(page) > 0 {
				turn()
				if k > 0 {
					again := d.heading(plan, area.W(), true)
					page, used = []row{again}, again.height
				}
			}
			page = append(page, r)
			used += r.height
		}
	}
	if len(page) > 0 {
		turn()
	}
	return pages
}

// heading names the pipe, what is used of it and what it costs, and the proof.
func (d *drawing) heading(plan takeoff.StockPlan, width float64, again bool) row {
	title := strings.TrimSpace(fmt.Sprintf("%s %s", plan.Spec, plan.Size))
	if again {
		title += " (continued)"
	}
	lines := sheet.Wrap(d.sum(plan)+" "+d.proof(plan), proofEm, width, false)
	if again {
		lines = nil
	}
	return row{height: headEm + 2.2 + float64(len(lines))*lineMM, keep: true,
		draw: func(at scene.Point, width float64) []scene.Item {
			text, size := sheet.Shrink(title, headEm, sheet.LeastEm, width, true)
			items := []scene.Item{scene.Text{At: scene.Point{X: at.X, Y: at.Y + headEm}, Text: text, SizeMM: size, Bold: true, Name: "plan"}}
			for i, l := range lines {
				y := at.Y + headEm + float64(i+1)*lineMM
				items = append(items, scene.Text{At: scene.Point{X: at.X, Y: y}, Text: l, SizeMM: proofEm, Name: "proof"})
			}
			return items
		}}
}

// sum says what a plan takes, in words.
func (d *drawing) sum(plan takeoff.StockPlan) string {
	type kind struct {
		length float64
		own    bool
	}
	count := map[kind]int{}
	var order []kind
	left, pieces := 0.0, 0
	for _, b := range plan.Bars {
		k := kind{b.StockMM, b.Offcut}
		if count[k] == 0 {
			order = append(order, k)
		}
		count[k]++
		left += b.OffcutMM
		pieces += len(b.Pieces)
	}
	var parts []string
	for _, k := range order {
		t := fmt.Sprintf("%d x %s", count[k], d.full(k.length))
		if k.own {
			t += " in the van"
		}
		parts = append(parts, t)
	}
	out := fmt.Sprintf("%s from %s; left over in all %s", quantity.Counted(pieces, "piece"), strings.Join(parts, " + "), d.full(left))
	if plan.Cost != "" {
		out += "; cost " + strings.TrimSpace(plan.Cost+" "+d.in.Job.Currency)
	}
	out += "."
	for _, b := range plan.Bars {
		for _, n := range b.Pieces {
			if words := d.over[n]; words != "" {
				out += " ^ " + quantity.Capital(words) + "."
			}
		}
	}
	return out
}

// said is the length a piece is sawn to, marked where that is over length.
func (d *drawing) said(piece int) string {
	if d.over[piece] != "" {
		return d.text(d.length[piece]) + "^"
	}
	return d.text(d.length[piece])
}

// proof is the plan's proof as a sentence.
func (d *drawing) proof(plan takeoff.StockPlan) string {
	p := strings.TrimSpace(plan.Proof.In(d.in.Units))
	if p == "" {
		return ""
	}
	p = quantity.Capital(p)
	if !strings.HasSuffix(p, ".") {
		p += "."
	}
	return p
}

// unplaced names the pieces no length of its stock is long enough for.
func (d *drawing) unplaced(plan *takeoff.StockPlan, width float64) row {
	var names []string
	for _, n := range plan.Unplaced {
		names = append(names, fmt.Sprintf("%d (%s)", n, d.full(d.length[n])))
	}
	const em = 2.8
	text := "Longer than any stock, not cut from a " + plan.Unit() + ": piece " + strings.Join(names, ", ")
	lines := sheet.Wrap(text, em, width, true) // all of them: what is left out is not bought
	return row{height: 2.4 + float64(len(lines))*lineMM, draw: func(at scene.Point, _ float64) []scene.Item {
		var items []scene.Item
		for i, l := range lines {
			items = append(items, scene.Text{At: scene.Point{X: at.X, Y: at.Y + 4 + float64(i)*lineMM}, Text: l, SizeMM: em, Bold: true, Name: "unplaced"})
		}
		return items
	}}
}

// barWords is what stands before a bar or coil: its number, its length and where it is from.
func (d *drawing) barWords(plan *takeoff.StockPlan, n int, b stock.Bar) (first, second string) {
	first = fmt.Sprintf("%s %d", plan.Word(b), n)
	second = d.full(b.StockMM)
	switch {
	case b.Offcut:
		second += ", in the van"
	case b.Price != "":
		second += ", " + b.Price
	}
	return first, second
}
