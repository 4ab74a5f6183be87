package quantity

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// either stands between the two wordings of an Either.
const either = "\x03"

// Either is words that are other words in each system: a tin that is called 250 ml here and
// 8.5 fl oz there.
func Either(metric, inch string) Text {
	return Text(amountStart + "e" + metric + either + inch + amountEnd)
}

// choose puts the words of the system in the place of every Either.
func choose(t string, s System) string {
	var b strings.Builder
	for {
		before, after, ok := strings.Cut(t, amountStart+"e")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		words, rest, _ := strings.Cut(after, amountEnd)
		metric, inch, _ := strings.Cut(words, either)
		if s == InchSystem {
			metric = inch
		}
		b.WriteString(metric)
		t = rest
	}
}

// proseUnits are the units of one system that Prose knows, each with its like in the other.
var proseUnits = map[string]struct {
	dimension Dimension
	unit      string // as the table of units spells it
	other     string
	inch      bool // the unit is one of the inch system
}{
	"mm": {Length, "mm", "in", false}, "m": {Length, "m", "ft", false}, "m/s": {Velocity, "m/s", "ft/s", false},
	"m3/h": {Flow, "m3/h", "gpm", false}, "m³/h": {Flow, "m3/h", "gpm", false}, "l/min": {Flow, "l/min", "gpm", false}, "l/s": {Flow, "l/s", "gpm", false},
	"kPa": {Pressure, "kPa", "psi", false}, "bar": {Pressure, "bar", "psi", false}, "l": {Volume, "l", "gal", false}, "kg": {Mass, "kg", "lb", false},
	"°C": {Temperature, "°C", "°F", false}, "K": {TemperatureDifference, "K", "°F", false},
	"ft": {Length, "ft", "m", true}, "ft/s": {Velocity, "ft/s", "m/s", true}, "gpm": {Flow, "gpm", "m3/h", true}, "US gpm": {Flow, "gpm", "m3/h", true},
	"psi": {Pressure, "psi", "kPa", true}, "°F": {Temperature, "°F", "°C", true},
}

// proseAmount finds "5 kPa", "1 to 5 kPa", "0.25, 0.35 and 0.70 m3/h", and a second amount in
// brackets behind.
var proseAmount = func() *regexp.Regexp {
	const number, more = `\d+(?:\.\d+)?`, `(?:(?:, \d+(?:\.\d+)?)* (?:to|and|or) \d+(?:\.\d+)?)?`
	var units []string
	for u := range proseUnits {
		units = append(units, regexp.QuoteMeta(u))
	}
	slices.Sort(units)
	slices.Reverse(units) // the longer of two that begin alike first
	unit := `(` + strings.Join(units, "|") + `)`
	one := `(` + number + more + `) ` + unit
	return regexp.MustCompile(`(^|[\s(])` + one + `(?: \(` + one + `\))?([\s),;:.]|$)`)
}()

var proseNumber = regexp.MustCompile(`\d+(?:\.\d+)?`)

// Prose returns words about amounts, such as a row's source, as a text: In prints each amount
// as it is written for who reads the system it is written in, and in the other system's unit
// for who doesn't, to as many figures, two at the least. An amount with the same in the other
// system behind it in brackets ("40 °C (104 °F)") gives each reader his own. Nominal sizes of
// pipe ("a 50 mm socket") are names and stay, as do inches.
func Prose(words string) Text {
	if !mayHoldAmount(words) { // as most: tables and standards have numbers too
		return Text(words)
	}
	var b strings.Builder
	for {
		m := proseAmount.FindStringSubmatchIndex(words)
		if m == nil {
			b.WriteString(words)
			return Text(b.String())
		}
		group := func(i int) string {
			if m[2*i] < 0 {
				return ""
			}
			return words[m[2*i]:m[2*i+1]]
		}
		first := proseUnits[group(3)]
		written, end := words[m[4]:m[7]], m[7]
		metric, inch := written, converted(group(2), group(3))
		if second, ok := proseUnits[group(5)]; ok && second.inch != first.inch {
			inch, end = group(4)+" "+group(5), m[11]+1
		}
		if first.inch {
			metric, inch = inch, metric
		}
		b.WriteString(words[:m[4]])
		if metric == inch {
			b.WriteString(written)
		} else {
			b.WriteString(string(Either(metric, inch)))
		}
		words = words[end:]
	}
}

// mayHoldAmount reports whether a digit, a space and one of proseUnits stand behind each other anywhere.
func mayHoldAmount(words string) bool {
	for i := 0; i+2 < len(words); i++ {
		if words[i] < '0' || words[i] > '9' || words[i+1] != ' ' {
			continue
		}
		for unit := range proseUnits {
			if strings.HasPrefix(words[i+2:], unit) {
				return true
			}
		}
	}
	return false
}

// converted returns numbers of one unit in its like of the other system; the sizes of pipe
// unchanged.
func converted(numbers, unit string) string {
	u := proseUnits[unit]
	if u.unit == "mm" && nominal(numbers) {
		return numbers + " " + unit
	}
	written := proseNumber.FindAllString(numbers, -1)
	for more := 0; ; more++ {
		out := proseNumber.ReplaceAllStringFunc(numbers, func(n string) string { return figures(n, unit, more) })
		told := proseNumber.FindAllString(out, -1)
		slices.Sort(told)
		if more == 2 || len(slices.Compact(told)) == len(written) { // two that differ still do
			return out + " " + u.other
		}
	}
}

// figures returns one number of a unit in its like of the other system, to as many figures and
// so many more.
func figures(n, unit string, more int) string {
	u := proseUnits[unit]
	q, err := Parse(n+" "+u.unit, u.dimension)
	if err != nil {
		return n
	}
	v := fromBase(q.Value, u.dimension, u.other)
	if u.dimension == Temperature {
		return Trim(Round(v, more))
	}
	digits := strings.TrimLeft(strings.ReplaceAll(n, ".", ""), "0")
	if !strings.Contains(n, ".") {
		digits = strings.TrimRight(digits, "0") // 300 is said to one figure
	}
	decimals := max(2, len(digits)) - 1 + more
	if v != 0 {
		decimals -= int(math.Floor(math.Log10(math.Abs(v))))
	}
	return strconv.FormatFloat(Round(v, decimals), 'f', max(0, min(decimals, 3)), 64)
}

// nominalMM are the sizes that metric pipe and hose are named by.
var nominalMM = []string{"16", "20", "25", "32", "38", "40", "50", "63", "75", "90", "110"}

func nominal(numbers string) bool {
	for _, n := range proseNumber.FindAllString(numbers, -1) {
		if !slices.Contains(nominalMM, n) {
			return false
		}
	}
	return true
}
