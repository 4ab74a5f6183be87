package retrofit

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/lead"
)

// nearlyMM is how far a unit is moved up or down without anybody minding, mm: its feet and a
// slab under them. Common practice, no source.
const nearlyMM = 60

// nearlyLevel says where a few millimetres of the unit's height trap water or air: with a port
// at the height of its tee the pipes would do with fewer low and high points.
func (l *limb) nearlyLevel(p lead.Problem, found *lead.Pair) {
	if found.Cost.Traps == 0 || found.Cost.Unstraight > 0 {
		return
	}
	best, move := found.Cost.Traps, 0.0
	for _, off := range []float64{p.To.End.Z - p.To.Start.Z, p.From.End.Z - p.From.Start.Z} {
		if math.Abs(off) < 0.5 || math.Abs(off) > nearlyMM {
			continue
		}
		moved := p
		moved.To.End.Z, moved.From.End.Z = p.To.End.Z-off, p.From.End.Z-off
		moved.Boxes = nil
		for _, b := range p.Boxes {
			if b.Near == lead.Unit {
				b.Low.Z, b.High.Z = b.Low.Z-off, b.High.Z-off
			}
			moved.Boxes = append(moved.Boxes, b)
		}
		if pair, _ := lead.Find(moved); pair != nil && pair.Cost.Unstraight == 0 && pair.Cost.Traps < best {
			best, move = pair.Cost.Traps, -off
		}
	}
	if move == 0 {
		return
	}
	way := "higher"
	if move < 0 {
		way = "lower"
	}
	aside := "" // the way is led before the check stands in it: where it shuts water or air off is not in the count
	if l.feeder {
		aside = ", those at the check before the feeder aside"
	}
	l.find(l.w.asked.Stand.Pos, graph.Note, graph.Say("with %q %s %s its pipes trap water or air at %s fewer: %d, not %d%s; a port then stands as high as its tee",
		l.w.unit.ID, quantity.Length.Of(math.Abs(move)), way, points(found.Cost.Traps-best), best, found.Cost.Traps, aside),
		"raise or lower what it stands on by that, and write its height in at")
}

func points(n int) string {
	if n == 1 {
		return "1 point"
	}
	return fmt.Sprintf("%d points", n)
}
