package takeoff

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
)

// tin is the smallest tin of cement and primer on sale everywhere, ml, and what it is called:
// 250 ml, in inch countries half a US pint (8 fl oz). Source: common practice, no source; a US
// fluid ounce is 29.5735 ml (NIST SP 811 appendix B). What is wanted is not said where no size of
// socket is known to want any.
func tin(units quantity.System, wanted float64) (ml float64, words string) {
	const ounce = 29.5735
	ml, words, said := 250.0, "tin of 250 ml", fmt.Sprintf(" (%g ml wanted)", wanted)
	if units == quantity.InchSystem {
		ml, words, said = 8*ounce, "tin of 1/2 pint", fmt.Sprintf(" (%g fl oz wanted)", math.Ceil(wanted/ounce))
	}
	if wanted > 0 {
		words += said
	}
	return ml, words
}

// addJoining lists what the joints use up: solvent cement and primer by the number of
// sockets of each size, half as much again for a small job; clips for hose on barbs; tape
// for threads.
func (b *biller) addJoining() {
	sockets := map[catalog.Size]int{}
	threads := 0
	tails, clips := map[catalog.Size]int{}, map[catalog.Size]int{}
	for _, j := range b.lay.Joints {
		switch j.Kind {
		case "cement", "slip":
			sockets[j.Size]++
		case "barb":
			tails[j.Size]++
			clips[j.Size] += j.Clips
		case "thread":
			threads++
		}
	}
	b.addCement(sockets)
	for _, size := range bySize(clips) {
		b.add(line{Item: Item{Name: join("hose clip", size.String()), Kind: "hose-clip", Size: size.String(), Quantity: float64(clips[size]), Unit: "pc",
			Source: "two on each barb joint, or as its row says; common practice, no source", New: true, Where: places(quantity.Counted(tails[size], "barb joint"))}, size: size})
	}
	if threads > 0 {
		b.add(line{Item: Item{Name: "PTFE tape", Kind: "tape", Quantity: 1, Unit: "pc", Source: "common practice, no source", New: true,
			Where: places(quantity.Counted(threads, "thread"))}})
	}
}

// addCement lists the tins.
func (b *biller) addCement(sockets map[catalog.Size]int) {
	var cement, primer float64
	var where []string
	source, wipe := "", "cleaner" // what metric PVC-U is wiped with; inch pipe takes primer
	for _, size := range bySize(sockets) {
		n := sockets[size]
		if !size.Metric {
			wipe = "primer"
		}
		one, ok := tables.Cement(size)
		if !ok {
			where = append(where, fmt.Sprintf("%s %s: consumption not known", quantity.Counted(n, "socket"), size))
			continue
		}
		cement += float64(n) * one.CementML
		primer += float64(n) * one.PrimerML
		source = one.Source
		where = append(where, fmt.Sprintf("%s %s", quantity.Counted(n, "socket"), size))
	}
	if len(where) == 0 {
		return
	}
	source += "; half as much again for a small job (judgement); one tin more (common practice, no source)"
	for _, t := range []struct {
		name, kind string
		ml         float64
	}{{"solvent cement", "cement", cement}, {wipe, "primer", primer}} {
		ml := max(0, math.Ceil(t.ml*tables.SmallJobFactor-1e-9))
		spare := 0.0
		if t.kind == "cement" {
			spare = 1
		}
		size, words := tin(b.units(), ml)
		b.add(line{Item: Item{Name: t.name + ", " + words, Kind: t.kind,
			Quantity: max(1, math.Ceil(ml/size)), Spare: spare, Unit: "tin", Source: source, New: true, Where: places(where...)}})
	}
}

// bySize returns the sizes of a count, the largest first.
func bySize(m map[catalog.Size]int) []catalog.Size {
	return slices.SortedFunc(maps.Keys(m), func(a, b catalog.Size) int {
		return cmp.Or(cmp.Compare(b.NominalMM(), a.NominalMM()), quantity.CompareBool(b.Metric, a.Metric))
	})
}
