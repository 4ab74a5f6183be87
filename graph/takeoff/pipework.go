package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/takeoff/stock"
)

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
			b.addLength(path, "pipe", path.LengthMM/1000, false, false)
		case slices.Contains(b.lay.Unmeasured, i):
			b.addLength(path, "pipe of runs known by their length alone", path.LengthMM/1000*(1+pipeAllowance), true, false)
		}
	}
}

// leastTakenMM is the shortest length of old pipe that is listed as taken out, mm.
const leastTakenMM = 1

// addTaken lists the old pipe and hose that is taken out: runs that go, less what is left of them.
func (b *biller) addTaken(before *route.Layout) {
	if before == nil {
		return
	}
	left := map[string]float64{}
	for i := range b.lay.Paths {
		if path := &b.lay.Paths[i]; path.Run.RemainsOf != "" {
			left[path.Run.RemainsOf] += path.LengthMM - b.beyondStops(path)
		}
	}
	for i := range before.Paths {
		path := &before.Paths[i]
		r := b.c.Run(path.Run.ID)
		if mm := path.LengthMM - left[path.Run.ID]; r != nil && r.Removed && mm >= leastTakenMM {
			b.addLength(path, "pipe", mm/1000, false, true)
		}
	}
}

// beyondStops is by how much a run's legs lead on into new parts beyond the stops its pipe ends
// at, mm.
func (b *biller) beyondStops(path *route.Path) float64 {
	sum := 0.0
	if last := len(path.Stops) - 1; last > 0 {
		for _, end := range []struct {
			at  int
			ref graph.PortRef
		}{{0, path.Run.From}, {last, path.Run.To}} {
			if p := b.part(end.ref.Part); p != nil && p.New() {
				sum += path.Stops[end.at].TakeOffMM
			}
		}
	}
	return sum
}

func (b *biller) addLength(path *route.Path, what string, m float64, isNew, removed bool) {
	r := path.Run
	what = strings.Replace(what, "pipe", r.Spec.Word(), 1)
	name := join(what, r.Size.String(), string(r.Spec))
	if removed {
		name += ", taken out"
	}
	b.add(line{
		Item: Item{Name: name, Kind: "pipe", Spec: r.Spec, Size: r.Size.String(),
			Ends: seriesOf(r.Spec, r.Size), Quantity: m, Unit: "m", Source: b.sourceOf(&path.Pipe, nil), Own: path.Pipe.Own, New: isNew, Removed: removed, Where: places(r.ID)},
		size: r.Size, row: path.Pipe.Name,
	})
}

// addBars lists the bars of one stock plan, its spares, and the net length cut from them: what is sawn over
// length is cut from them too.
func (b *biller) addBars(plan StockPlan) {
	row := b.lay.Stage.PipeRow(plan.Spec, plan.Size)
	what, unit := plan.Spec.Word(), plan.Unit()
	if plan.Spec.Flexible() && !plan.Spec.IsHose() {
		what = "flexible pipe"
	}
	net, runs := 0.0, []string{}
	for _, p := range b.cuts.Pieces {
		if p.Spec == plan.Spec && p.Size == plan.Size {
			net += p.SawMM()
			runs = append(runs, p.Run.ID)
		}
	}
	bought := func(bar stock.Bar, quantity, spare float64) {
		name := join(what, plan.Size.String(), string(plan.Spec), plan.Word(bar)+" of "+b.metres(bar.StockMM))
		if bar.Offcut {
			name += ", offcut in the van"
		}
		b.add(line{
			Item: Item{Name: name, Kind: "pipe", Spec: plan.Spec, Size: plan.Size.String(), Ends: seriesOf(plan.Spec, plan.Size),
				Quantity: quantity, Spare: spare, Unit: unit, Source: b.say(row.Source), Own: row.Own, New: true, Where: places("stock plan: " + plan.StockSource), Price: bar.Price},
			size: plan.Size, row: fmt.Sprintf("%g", bar.StockMM),
		})
	}
	for _, bar := range plan.Bars {
		bought(bar, 1, 0)
	}
	for _, bar := range plan.Spares {
		bought(bar, 0, 1)
	}
	b.add(line{
		Item: Item{Name: join(what, plan.Size.String(), string(plan.Spec), "net length of the pieces"), Kind: "pipe", Spec: plan.Spec, Size: plan.Size.String(),
			Ends: seriesOf(plan.Spec, plan.Size), Quantity: net / 1000, Unit: "m", Source: "cut list", New: true, Where: places(runs...)},
		size: plan.Size,
	})
	if len(plan.Unplaced) > 0 {
		sum := 0.0
		for _, p := range b.cuts.Pieces {
			if slices.Contains(plan.Unplaced, p.Number) && p.Spec == plan.Spec && p.Size == plan.Size {
				sum += p.SawMM()
			}
		}
		b.add(line{
			Item: Item{Name: join(what, plan.Size.String(), string(plan.Spec), "still to find: the stock does not hold it"), Kind: "pipe", Spec: plan.Spec,
				Size: plan.Size.String(), Ends: seriesOf(plan.Spec, plan.Size), Quantity: sum / 1000, Unit: "m", Source: "cut list", New: true,
				Where: places(fmt.Sprintf("pieces %s", numbers(plan.Unplaced)))},
			size: plan.Size,
		})
	}
}

func numbers(list []int) string {
	out := make([]string, len(list))
	for i, n := range list {
		out[i] = fmt.Sprint(n)
	}
	return strings.Join(out, ", ")
}
