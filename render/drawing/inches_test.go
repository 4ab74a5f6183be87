package drawing

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
	"dryfit/render/scene"
)

// A sheet in inches is the one in mm in other words: each label of the one stands on the other, with the
// same length, level, flow or pressure in it, to what is rounded away. Which sheet of an isometric it
// stands on may differ, for texts are longer in inches.
func TestInchesSayTheSame(t *testing.T) {
	looked := map[string]int{}
	for name, p := range everyPlan(t) {
		if !lots.Named(name, "two-speed", "plunge-pool", "job second-unit.toml", "job barb-kept.toml") {
			continue
		}
		for _, view := range Views() {
			metric, inch := saidOn(drawn(t, p, view, quantity.MetricSystem), quantity.MetricSystem), saidOn(drawn(t, p, view, quantity.InchSystem), quantity.InchSystem)
			looked[view] += len(metric)
			repeats := func(s said) bool { return view == "isometric" && overall(p, s) }
			for _, s := range metric {
				if !slices.ContainsFunc(inch, s.same) && !repeats(s) {
					t.Errorf("%s, %s: nothing in inches says %v", name, view, s)
				}
			}
			for _, s := range inch {
				if !slices.ContainsFunc(metric, s.same) && !repeats(s) {
					t.Errorf("%s, %s: nothing in mm says %v", name, view, s)
				}
			}
		}
	}
	for _, view := range Views() {
		if looked[view] == 0 && view != "year" && view != "cold" { // charts, whose axes are rounded in their own units
			t.Errorf("nothing was looked at in %s", view)
		}
	}
}

// overall reports whether a length is no leg's own but one over several, which stands where there is room.
func overall(p *plan.Plan, s said) bool {
	if s.words != "#" {
		return false
	}
	for _, st := range []*stage.Stage{p.Before, p.After} {
		if st == nil {
			continue
		}
		for _, path := range st.Layout.Paths {
			for k := 1; k < len(path.Points); k++ {
				if math.Abs(path.Points[k].Sub(path.Points[k-1]).Len()-s.amounts[0].value) <= s.amounts[0].within {
					return false
				}
			}
		}
	}
	return true
}

// said is one text: its words, with the amounts in it apart, in mm, m³/h, kPa and l.
type said struct {
	text    string
	words   string
	amounts []amount
}

// amount is a number and how far it may have been rounded.
type amount struct{ value, within float64 }

func (s said) String() string { return fmt.Sprintf("%q (%q %v)", s.text, s.words, s.amounts) }

func (s said) same(o said) bool {
	return s.words == o.words && slices.EqualFunc(s.amounts, o.amounts, func(a, b amount) bool {
		return math.Abs(a.value-b.value) <= a.within+b.within
	})
}

// worded are the names of texts that say something of the work, or how they begin: not what stands for a
// sheet as a whole (notes, legend, title block), nor the numbers of axes and scale bars.
var worded = []string{"label", "dim", "big", "head", "sub", "where", "position", "mode", "word", "waste", "tab", "edge", "on", "old", "joint", "piece", "cut", "left", "length", "call"}

// tagAlone is a tag by itself, as an overview has it, which not every isometric has.
var tagAlone = regexp.MustCompile(`^[A-Z]+[0-9]+$`)

// saidOn gathers such texts. Match lines and overviews differ where an isometric is shared out otherwise,
// the names of old pipe are left out where there is no room, and of temperatures several have one unit.
func saidOn(pages []*scene.Scene, units quantity.System) []said {
	var out []said
	for _, s := range pages {
		var lines []string // of bands, where a sentence goes on in the next
		for _, it := range s.Items {
			t, ok := it.(scene.Text)
			switch {
			case !ok || !slices.ContainsFunc(worded, func(w string) bool { return strings.HasPrefix(t.Name, w) }):
			case strings.HasPrefix(t.Name, "label:match") || strings.HasPrefix(t.Name, "label:old") || strings.HasPrefix(t.Name, "label:part") && tagAlone.MatchString(t.Text):
			case t.Name == "word":
				lines = append(lines, t.Text)
			case strings.ContainsAny(t.Text, "°K") && t.Name != "where" || strings.HasPrefix(t.Text, "warms at air"):
			case t.Name == "call" || t.Name == "piece": // a piece's number with its length, where the bar is too short for both
				for _, text := range strings.Split(t.Text, ": ") {
					out = append(out, sayingOf(text, ""))
				}
			case t.Name == "dim" && units == quantity.InchSystem:
				out = append(out, sayingOf(t.Text, " in"))
			default:
				out = append(out, sayingOf(t.Text, ""))
			}
		}
		out = append(out, sayingOf(strings.Join(lines, " "), ""))
	}
	return out
}

// sayingOf takes a text apart; bare is the unit of an amount that has none.
func sayingOf(text, bare string) said {
	one := said{text: text}
	text = amounts.ReplaceAllStringFunc(strings.TrimPrefix(text, "whole "), func(m string) string {
		if a, ok := read(m, bare); ok {
			one.amounts = append(one.amounts, a)
			return " # "
		}
		return m
	})
	text = strings.TrimSuffix(text, " pipe") // behind a size in inches among lengths in inches
	one.words = strings.Join(strings.Fields(text), " ")
	return one
}

// amounts matches what may be one: "1 ft 2-7/16 in", "11-15/16", "230 mm", "37.4 gpm", "8.5 m3/h".
var amounts = regexp.MustCompile(`\d+ ft (?:\d+-\d+/\d+|\d+/\d+|\d+) in|\d+(?:-\d+)?/\d+(?: in)?|\d+(?:\.\d+)?(?: (?:m3/h|mm|in|gpm|kPa|bar|psi|m|ft|l|gal)\b)?`)

// read reads an amount; false for what is none.
func read(text, bare string) (amount, bool) {
	if !strings.Contains(text, " ") {
		text += bare
	}
	number, unit, _ := strings.Cut(text, " ")
	f, err := strconv.ParseFloat(number, 64)
	if err != nil || unit == "in" || strings.HasSuffix(text, " in") {
		return amount{inches(text), 25.4/32 + 0.01}, true
	}
	half := 0.5
	if _, places, ok := strings.Cut(number, "."); ok {
		half *= math.Pow10(-len(places))
	}
	scale, ok := map[string]float64{"": 1, "mm": 1, "m": 1000, "ft": 304.8, "m3/h": 1, "gpm": 0.2271247, "kPa": 1, "bar": 100, "psi": 6.894757, "l": 1, "gal": 3.785412}[unit]
	return amount{f * scale, half * scale}, ok
}

// inches reads feet, inches and a fraction, in mm.
func inches(text string) float64 {
	sum := 0.0
	text = strings.TrimSuffix(text, " in")
	if feet, rest, ok := strings.Cut(text, " ft"); ok {
		n, _ := strconv.ParseFloat(feet, 64)
		sum, text = 12*n, strings.TrimSpace(rest)
	}
	whole, fraction, both := strings.Cut(text, "-")
	if !both && strings.Contains(whole, "/") {
		whole, fraction = "", whole
	}
	n, _ := strconv.ParseFloat(whole, 64)
	sum += n
	if over, under, ok := strings.Cut(fraction, "/"); ok {
		a, _ := strconv.ParseFloat(over, 64)
		b, _ := strconv.ParseFloat(under, 64)
		sum += a / b
	}
	return sum * 25.4
}
