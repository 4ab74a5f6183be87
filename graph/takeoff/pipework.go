package takeoff

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph/route"
)

// pipeAllowance is how much more pipe than the net length is wanted, as a share.
// Source: common practice, no source.
const pipeAllowance = 0.10

// addPipe lists pipe: new pipe in whole bars from the stock plan and its net length, new
// runs known by their length alone, and existing pipe by its length.
func (b *biller) addPipe() {
	for _, plan := range b.cuts.Plans {
		b.addBars(plan)
	}
	for i := range b.lay.Paths {
		path := &b.lay.Paths[i]
		r := path.Run
		if path.LengthMM <= 0 {
			continue
		}
		switch {
		case !r.New():
			b.addLength(path, "pipe", path.LengthMM/1000, false)
		case len(path.Pieces) == 0 && len(r.Legs) == 0:
			b.addLength(path, "pipe of runs known by their length alone", path.LengthMM/1000*(1+pipeAllowance), true)
		}
	}
}

func (b *biller) addLength(path *route.Path, what string, m float64, isNew bool) {
	r := path.Run
	if r.Spec == catalog.HosePipe {
		what = strings.Replace(what, "pipe", "hose", 1)
	}
	b.add(line{
		Item: Item{Name: join(what, r.Size.String(), string(r.Spec)), Kind: "pipe", Spec: r.Spec, Size: r.Size.String(),
			Ends: seriesOf(r.Spec, r.Size), Quantity: m, Unit: "m", Source: sourceOf(&path.Pipe, nil), Own: path.Pipe.Own, New: isNew, Where: []string{r.ID}},
		size: r.Size, row: path.Pipe.Name,
	})
}

// addBars lists the bars of one stock plan, and the net length cut from them. Where less is
// left over than the allowance, one more of the shortest is the spare.
func (b *biller) addBars(plan StockPlan) {
	row := b.lay.Stage.PipeRow(plan.Spec, plan.Size)
	what, unit := "pipe", "bar"
	if plan.Spec.Flexible() {
		what, unit = "flexible pipe", "coil"
	}
	if plan.Spec == catalog.HosePipe {
		what = "hose"
	}
	net, left, runs := 0.0, 0.0, []string{}
	for _, p := range b.cuts.Pieces {
		if p.Spec == plan.Spec && p.Size == plan.Size {
			net += p.CutMM
			runs = append(runs, p.Run.ID)
		}
	}
	first := len(b.lines)
	for _, bar := range plan.Bars {
		left += bar.OffcutMM
		name := join(what, plan.Size.String(), string(plan.Spec), unit+" of "+b.metres(bar.StockMM))
		if bar.Offcut {
			name += ", offcut in the van"
		}
		b.add(line{
			Item: Item{Name: name, Kind: "pipe", Spec: plan.Spec, Size: plan.Size.String(), Ends: seriesOf(plan.Spec, plan.Size),
				Quantity: 1, Unit: unit, Source: row.Source, Own: row.Own, New: true, Where: []string{"stock plan: " + plan.StockSource}, Price: bar.Price},
			size: plan.Size, row: fmt.Sprintf("%g", bar.StockMM),
		})
	}
	if short := b.shortestBought(first); short != nil && left < pipeAllowance*net {
		short.Spare++
	}
	b.add(line{
		Item: Item{Name: join(what, plan.Size.String(), string(plan.Spec), "net length of the pieces"), Kind: "pipe", Spec: plan.Spec, Size: plan.Size.String(),
			Ends: seriesOf(plan.Spec, plan.Size), Quantity: net / 1000, Unit: "m", Source: "cut list", New: true, Where: runs},
		size: plan.Size,
	})
	if len(plan.Unplaced) > 0 {
		sum := 0.0
		for _, p := range b.cuts.Pieces {
			if slices.Contains(plan.Unplaced, p.Number) && p.Spec == plan.Spec && p.Size == plan.Size {
				sum += p.CutMM
			}
		}
		b.add(line{
			Item: Item{Name: join(what, plan.Size.String(), string(plan.Spec), "still to find: the stock does not hold it"), Kind: "pipe", Spec: plan.Spec,
				Size: plan.Size.String(), Ends: seriesOf(plan.Spec, plan.Size), Quantity: sum / 1000, Unit: "m", Source: "cut list", New: true,
				Where: []string{fmt.Sprintf("pieces %s", numbers(plan.Unplaced))}},
			size: plan.Size,
		})
	}
}

// shortestBought returns the line of the shortest rigid bar that is bought, of those from an
// index on.
func (b *biller) shortestBought(first int) *line {
	var best *line
	least := math.Inf(1)
	for i := first; i < len(b.lines); i++ {
		l := &b.lines[i]
		var mm float64
		if _, err := fmt.Sscanf(l.row, "%g", &mm); err != nil || l.Unit != "bar" || strings.HasSuffix(l.Name, "in the van") {
			continue
		}
		if mm < least {
			best, least = l, mm
		}
	}
	return best
}

func numbers(list []int) string {
	out := make([]string, len(list))
	for i, n := range list {
		out[i] = fmt.Sprint(n)
	}
	return strings.Join(out, ", ")
}
