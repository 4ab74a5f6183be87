package pipework

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/hydraulic/formula"
)

// How far the watts on a label move the water power of a pump nobody has a sheet of from that of
// its type, as a power of their ratio to its type's.
//
// Of small pumps half: the other half is which sort of motor it is, shaded poles or a magnet rotor.
// Motors from the 48 frame up are of one sort, and the larger ones are the better ones: from
// 1.1 kW for 15 m3/h at 7 m to 2.5 kW for 30 at 12 m the water power goes faster than the watts do
// (from memory), while among pumps of one label the worst makes half of the best. Between the two:
// three quarters. Of jets' and pools' pumps, which are sold from half a kilowatt to two and a half, the whole
// below the watts of the type: half a kilowatt is no better a motor than one and a half. Common practice, no
// source.
const (
	smallLabelWeight = 0.5
	largeLabelWeight = 0.75
	frameW           = 200 // watts of a type from which its motor is a 48 frame
	jetsW            = 500 // from which it is a pump for jets or a pool
)

// labelSize returns how many times the water power of its type a pump has by the watts on its label.
func labelSize(watts, ofType float64) float64 {
	switch {
	case ofType <= 0:
		return 1
	case ofType < frameW:
		return math.Pow(watts/ofType, smallLabelWeight)
	case ofType >= jetsW && watts < ofType:
		return watts / ofType
	}
	return math.Pow(watts/ofType, largeLabelWeight)
}

// bare reports whether speeds say no more than a label and a drive's display do: none has a curve.
func bare(speeds []graph.Speed) bool { return graph.BaseSpeed(speeds) < 0 }

// mostWatts returns the greatest power of the speeds, W.
func mostWatts(speeds []graph.Speed) float64 {
	most := 0.0
	for _, s := range speeds {
		most = max(most, s.PowerW)
	}
	return most
}

// checkLabel completes a pump of which the description says watts, hours or an efficiency but no
// curve: by the row of its type, else the catalogue's pump with as many speeds whose watts are nearest.
func checkLabel(r *field.Reader, p *graph.Part) {
	said := p.Pump.Speeds
	if len(said) == 0 || p.Pump.TypeSaid || !bare(said) {
		return
	}
	watts := mostWatts(said)
	row, ok := r.Catalog.Row(p.Type)
	if !ok && watts > 0 {
		row, ok = pumpOf(r, len(said), watts)
	}
	of := graph.SpeedsOf(row)
	for _, key := range []string{"power", "amps", "volts", "curve"} {
		if _, refused := p.KeyPos[key]; refused && watts == 0 {
			return // that is found at the key
		}
	}
	if !ok && slices.ContainsFunc(said, func(s graph.Speed) bool { return s.Ratio != 0 }) {
		r.Add(said[0].Pos, `write a curve on one speed: curve = [["0 m3/h", "15 m"], ["16 m3/h", "11 m"]]`, "no speed of %s has a curve", located.Said(p.ID))
		return
	}
	if !ok && watts == 0 && p.Type == "" {
		r.Add(said[0].Pos, `write the watts of its label beside it, power = "250 W", or its amps and volts, or its type; a pump of which nothing at all is said is assumed`,
			"of the pump %s it is said how it runs, and nothing of which pump it is", located.Said(p.ID))
		return
	}
	if ok && len(of) > 2 && !slices.ContainsFunc(said, func(s graph.Speed) bool { return s.Ratio == 0 || s.Ratio == 1 }) {
		r.Add(said[0].Pos, `write that one too, whether it is used or not: { name = "full", ratio = 1 }`,
			"of the pump %s no speed is the fastest its drive has, of which the ratios are", located.Said(p.ID))
		return
	}
	at, matches := matched(of, said)
	if !ok || !matches {
		r.Add(said[0].Pos, labelHint(of, said, watts),
			"the pump %s has no curve%s", located.Said(p.ID), speedsDiffer(ok, row, len(of), len(said)))
		return
	}
	flow, head, most := 1.0, 1.0, atFull(of, said, watts)
	if watts > 0 && !row.OwnsCurve() { // else it is the sheet of this pump, and stands
		flow, head = formula.PumpOfSize(labelSize(most, mostWatts(of)))
	}
	for i, k := range at {
		if said[i].RatioSaid = said[i].Ratio != 0; !said[i].RatioSaid {
			said[i].Ratio = ratioOf(of, said, k, i)
		}
		said[i].Curve = nil
		for _, c := range of[k].Curve {
			if said[i].Ratio != of[k].Ratio {
				break // it has another speed than that curve
			}
			said[i].Curve = append(said[i].Curve, graph.CurvePoint{
				Flow: c.Flow * flow,
				Head: graph.Drop{Value: c.Head.Value * head, IsHead: true},
			})
		}
		if said[i].PowerW == 0 && said[i].Efficiency == 0 && !said[i].RatioSaid {
			said[i].PowerW, said[i].PowerTaken = of[k].PowerW, true
			if ofType := mostWatts(of); watts > 0 && ofType > 0 && !row.OwnsCurve() {
				said[i].PowerW *= most / ofType
			}
		}
	}
	p.Pump.TypeSaid, p.Pump.LabelW, p.Pump.LabelRow, p.Pump.RowW = true, watts, row.Name, mostWatts(of)
}

// matched returns which speed of a row each speed that is said is: that of its name, else the one as far down
// among them, by their ratios and then by their watts. The fastest is the row's fastest, of which the ratios of
// the others are; of a drive, which has more speeds than two, any number is said, each by a ratio or its watts.
// False where they don't match.
func matched(of, said []graph.Speed) (at []int, ok bool) {
	ratio := func(s graph.Speed) float64 { return cmp.Or(s.Ratio, 1) }
	order := make([]int, len(said)) // from slow to fast, as the row's go
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(ratio(said[a]), ratio(said[b])), cmp.Compare(said[a].PowerW, said[b].PowerW))
	})
	if len(of) == 0 {
		return nil, false
	}
	fastest, full := order[len(order)-1], len(of)-1
	if ratio(said[fastest]) != 1 {
		return nil, false
	}
	at = make([]int, len(said))
	for place, i := range order {
		switch k := slices.IndexFunc(of, func(s graph.Speed) bool { return s.Name == said[i].Name }); {
		case k >= 0 && len(of) == len(said):
			at[i] = k
		case len(of) == len(said):
			at[i] = place
		case len(of) > 2 && len(said) > 1 && len(of[full].Curve) > 0 && (i == fastest || said[i].Ratio != 0 || said[i].PowerW > 0 && said[fastest].PowerW > 0):
			at[i] = full
		default:
			return nil, false
		}
	}
	said[fastest].Ratio = 0 // where it says of itself that it is the fastest
	return at, true
}

// ratioOf is the ratio of a speed of which none is said: of a drive, whose display shows what it takes at each, the
// speed at which its type takes as much of its most; else its type's. 0 for the fastest.
func ratioOf(of, said []graph.Speed, k, i int) float64 {
	slow, most := of[0], mostWatts(said)
	if len(of) < 3 || of[k].Ratio == 0 && k < len(of)-1 || said[i].PowerW <= 0 || said[i].PowerW >= most || slow.PowerW <= 0 || slow.Ratio <= 0 {
		return of[k].Ratio
	}
	return math.Pow(said[i].PowerW/most, 1/falls(of))
}

// falls is the power of its speed by which the watts of a drive go, by its type: from the slowest of its speeds.
func falls(of []graph.Speed) float64 {
	return math.Log(of[0].PowerW/mostWatts(of)) / math.Log(of[0].Ratio)
}

// atFull is what a pump takes at its fastest speed, W: the most that is said, but of a drive whose fastest speed
// nobody gives watts for, what those of the next slower make it by the ratio of the two.
func atFull(of, said []graph.Speed, watts float64) float64 {
	if len(of) < 3 || of[0].PowerW <= 0 || of[0].Ratio <= 0 {
		return watts
	}
	for _, s := range said {
		if watts > 0 && s.PowerW == watts && s.Ratio > 0 {
			return watts / math.Pow(s.Ratio, falls(of))
		}
	}
	return watts
}

// labelHint says how the watts of a label, and the hours of the filter, are written: of a pump with more
// speeds than were told at the speed they are of.
func labelHint(of, said []graph.Speed, watts float64) string {
	const curve = `curve = [["0 m3/h", "7 m"], ["8 m3/h", "2 m"]]`
	hours := len(said) == 1 && said[0].HoursADay.Set
	if len(of) < 2 || len(said) != 1 || watts == 0 && !hours {
		return "write " + curve + ", or the watts of each speed and the type of a catalogue row with as many speeds"
	}
	what := "the watts at the speed the label gives them for"
	switch {
	case hours && watts > 0:
		what += ", the hours at the speed it filters at"
	case hours:
		what = "the hours at the speed it filters at"
	}
	speeds := make([]string, len(of))
	for i, s := range of {
		one := graph.Speed{Name: s.Name}
		if i == 0 { // the row's go from slow to fast, and it filters at the slow one
			one.HoursADay = said[0].HoursADay
		}
		if i == len(of)-1 {
			one.PowerW = watts
		}
		speeds[i] = field.Inline(SpeedFields, &one)
	}
	return "write " + what + ": speeds = " + field.List(speeds) + "; where it has one speed, take type out, or write " + curve
}

func speedsDiffer(found bool, row catalog.Row, has, wants int) string {
	if !found || has == wants {
		return ""
	}
	return fmt.Sprintf(", and %s has %s for its %d", row.Name, quantity.Counted(has, "speed"), wants)
}

// pumpOf returns the catalogue's pump with a number of speeds whose power at the fastest is
// nearest to watts in ratio, the first of several.
func pumpOf(r *field.Reader, speeds int, watts float64) (best catalog.Row, found bool) {
	off := math.Inf(1)
	for row := range r.Catalog.All() {
		if row.Kind != string(graph.Pump) || len(row.Speeds) != speeds {
			continue
		}
		if w := mostWatts(graph.SpeedsOf(*row)); w > 0 {
			if d := math.Abs(math.Log(watts / w)); d < off {
				best, off, found = *row, d, true
			}
		}
	}
	return best, found
}

// besideRow writes what is said of the speeds of a pump whose curves are a row's; "" where nothing is.
func besideRow(p *graph.PumpData) string {
	var out []string
	said := p.LabelW > 0
	for _, s := range p.Speeds {
		one := graph.Speed{Name: s.Name, Efficiency: s.Efficiency, HoursADay: s.HoursADay}
		if p.LabelW > 0 && !s.PowerTaken {
			one.PowerW, one.ShaftW, one.ByPlate = s.PowerW, s.ShaftW, s.ByPlate
		}
		one.PlateA, one.PlateV = s.PlateA, s.PlateV
		if s.RatioSaid {
			one.Ratio = s.Ratio
		}
		said = said || s.RatioSaid || s.Efficiency > 0 || s.HoursADay.Set
		out = append(out, field.Inline(SpeedFields, &one))
	}
	if !said {
		return ""
	}
	return field.List(out)
}
