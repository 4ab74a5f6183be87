package heat

import (
	"cmp"
	"math"
	"slices"
)

// Consumer is something on a supply.
type Consumer struct {
	ID          string // what it is called: its part, or the part at one of its speeds
	Part, Speed string // Speed: "" of what runs at one
	RunningA    float64
	StartA      float64 // while it starts; at least RunningA
	Alternative string  // of those with the same word only one runs at a time; "": none
	Together    string  // of alternatives, those with the same word run together: one choice; "": each its own
	Balanced    bool    // draws the same of each of three phases, so that nothing returns by the neutral
}

// Current returns what a power [W] draws at the voltage of one phase and a power factor [A]:
// I = P/(U cos φ). Of three phases each has a third of the power.
func Current(powerW, voltage, factor float64) float64 { return powerW / (voltage * factor) }

// Set is what can run at the same time.
type Set struct {
	IDs       []string
	RunningA  float64 // added as numbers: no less than the true sum
	WithStart float64 // with the one start on top that adds most
	OverA     float64 // above the supply's rating; 0: within
	OverLong  float64 // above what may run for hours; 0: within
}

// Sets returns, for each choice among the alternatives, what runs together, the heaviest first. Of
// very many choices the mostSets heaviest are told, and the one with the greatest start is among them.
// rating and continuous are in A; 0: not known.
func Sets(list []Consumer, rating, continuous float64) []Set {
	var names []string
	groups := map[string][]option{}
	for _, c := range list {
		name := c.Alternative
		if name == "" {
			name = "\x00" + c.ID
		}
		if _, ok := groups[name]; !ok {
			names = append(names, name)
		}
		groups[name] = withOption(groups[name], c)
	}
	choices := []choice{{}}
	for _, name := range names {
		var next []choice
		for _, s := range choices {
			for _, o := range groups[name] {
				n := s
				n.IDs = slices.Concat(s.IDs, o.ids)
				n.RunningA += o.runningA
				n.start = math.Max(s.start, o.start)
				next = append(next, n)
			}
		}
		if choices = next; len(choices) > mostSets {
			choices = heaviest(choices)
		}
	}
	slices.SortStableFunc(choices, heavier)
	sets := make([]Set, len(choices))
	for i, c := range choices {
		s := c.Set
		s.WithStart = s.RunningA + c.start
		if rating > 0 {
			s.OverA = math.Max(0, s.RunningA-rating)
		}
		if continuous > 0 {
			s.OverLong = math.Max(0, s.RunningA-continuous)
		}
		sets[i] = s
	}
	return sets
}

// choice is what runs together of the consumers looked at so far, and what the start that adds most
// adds to it [A].
type choice struct {
	Set
	start float64
}

func heavier(a, b choice) int { return cmp.Compare(b.RunningA, a.RunningA) }

// mostSets bounds the choices that are listed.
const mostSets = 64

// heaviest returns mostSets of more choices. What is looked at later adds the same to each, so that the
// heaviest of all and the one with the greatest start come from the heaviest here, and from the one with
// the greatest start here: both are kept.
func heaviest(all []choice) []choice {
	slices.SortStableFunc(all, heavier)
	kept := all[:mostSets:mostSets]
	most := slices.MaxFunc(all, func(a, b choice) int { return cmp.Compare(a.RunningA+a.start, b.RunningA+b.start) })
	if last := &kept[mostSets-1]; !slices.ContainsFunc(kept, func(c choice) bool { return c.RunningA+c.start >= most.RunningA+most.start }) {
		*last = most
	}
	return kept
}

// Cable is a cable to the unit: of two cores, or of three phases of four.
type Cable struct {
	SizeMM2    float64
	LengthM    float64
	Kind       string  // "flexible", "armoured", "fixed"; "": fixed
	DropVperAm float64 // V/(A m), where the user gives it
}

// dropTables are the drops of copper cables, single phase [mV/(A m)] by size [mm²]. Source:
// BS 7671 appendix 4, tables 4F3B (flexible, 60 °C), 4E4B (armoured thermosetting, 90 °C)
// and 4D2B (70 °C), as quoted in public tables; 4D2B's 1.5 and 4 mm² from memory.
var dropTables = map[string]map[float64]float64{
	"flexible": {0.75: 62, 1: 46, 1.5: 32, 2.5: 19, 4: 12},
	"armoured": {1.5: 31, 2.5: 19, 4: 12, 6: 7.9, 10: 4.7},
	"fixed":    {1.5: 29, 2.5: 18, 4: 11},
}

// PerAmpereMetre returns the cable's drop [V/(A m)], single phase, and where it is from.
//
//	b (ρ cos φ/S + x sin φ),   b 2, ρ 0.0225 Ω mm²/m, x 0.08 mΩ/m
//
// for sizes the tables lack. Source: IEC 60364-5-52, annex G (from memory).
func (c Cable) PerAmpereMetre(factor float64) (v float64, source string) {
	if c.DropVperAm > 0 {
		return c.DropVperAm, "given"
	}
	kind := c.Kind
	if kind == "" {
		kind = "fixed"
	}
	if mv, ok := dropTables[kind][c.SizeMM2]; ok {
		return mv / 1e3, "BS 7671 appendix 4"
	}
	if c.SizeMM2 <= 0 {
		return 0, ""
	}
	return 2 * (0.0225*factor/c.SizeMM2 + 0.08e-3*math.Sqrt(math.Max(0, 1-factor*factor))), "IEC 60364-5-52 annex G (from memory)"
}

// Drop returns the voltage lost on the cable [V] at a current that comes by one core and at what of it
// returns by the other: half of what the cable loses is lost in each. Of three phases it is that
// between one of them and the neutral.
func (c Cable) Drop(currentA, returnA, factor float64) float64 {
	v, _ := c.PerAmpereMetre(factor)
	return v / 2 * c.LengthM * (currentA + returnA)
}

// Dip returns by how much the voltage falls [V] while a start draws a current through the
// supply's impedance: the whole of both, which no power factor makes more.
func Dip(startA, impedanceOhm float64) float64 { return startA * impedanceOhm }

// Starting currents over running ones where no sheet says. Source: from memory; single-phase
// motors in general 5 to 7.
const (
	StartsElement    = 1.0
	StartsPump       = 5.0 // capacitor start 4 to 6
	StartsSmallPump  = 1.5 // brushless
	StartsBlower     = 4.0
	StartsCompressor = 5.0 // fixed speed 4 to 7, soft start 2 to 2.5
	StartsInverter   = 1.0
)

// FactorUnit is the power factor of a unit where nobody says. Source: from memory.
const FactorUnit = 0.95

// option is one of the alternatives: what runs together where it is chosen.
type option struct {
	together string
	ids      []string
	runningA float64
	start    float64 // the most that a start of one of them adds
}

// withOption adds a consumer to the alternatives: to those it runs together with, else as its own.
func withOption(list []option, c Consumer) []option {
	i := slices.IndexFunc(list, func(o option) bool { return c.Together != "" && o.together == c.Together })
	if i < 0 {
		return append(list, option{c.Together, []string{c.ID}, c.RunningA, c.StartA - c.RunningA})
	}
	o := &list[i]
	o.ids, o.runningA, o.start = append(o.ids, c.ID), o.runningA+c.RunningA, math.Max(o.start, c.StartA-c.RunningA)
	return list
}
