package quantity

import (
	"slices"
	"strings"
)

// otherWords are spellings people use that are not units here, and the unit meant.
var otherWords = map[string]string{
	`"`: "in", "''": "in", "”": "in",
	"'": "ft", "’": "ft",
	"lpm": "l/min", "lph": "l/h", "cmh": "m3/h", "usgpm": "gpm", "igpm": "imp-gpm", "us-gpm": "gpm",
	"m^3/h": "m3/h", "m^3": "m3", "ft^3": "ft3", "cuft": "ft3", "cf": "ft3",
	"c": "°C", "degc": "°C", "degsc": "°C", "°": "°C",
	"f": "°F", "degf": "°F", "degsf": "°F",
	"lb": "psi", "lbf/in2": "psi", "lb/in2": "psi", "mh2o": "m", "mwc": "m", "mws": "m",
	"btu": "Btu/h", "gal/min": "gpm", "imp-gal/min": "imp-gpm", "ft3/min": "cfm", "pct": "%", "cp": "mPa s",
}

// wordUnits are units written in words, each in the singular.
var wordUnits = map[string]string{
	"inch": "in", "foot": "ft", "metre": "m", "meter": "m", "millimetre": "mm", "millimeter": "mm", "centimetre": "cm", "centimeter": "cm",
	"litre": "l", "liter": "l", "ltr": "l", "gallon": "gal", //nolint:misspell // both spellings are typed
	"second": "s", "sec": "s", "minute": "min", "hour": "h", "hr": "h",
	"watt": "W", "kilowatt": "kW", "horsepower": "hp", "amp": "A", "ampere": "A", "volt": "V", "ohm": "ohm", "kelvin": "K",
	"degree": "°", "deg": "°", "celsius": "C", "centigrade": "C", "fahrenheit": "F",
	"pascal": "Pa", "kilopascal": "kPa", "millibar": "mbar", "bar": "bar", "pound": "lb", "lbs": "lb",
	"kilogram": "kg", "kilogramme": "kg", "kilo": "kg", "percent": "%", "kwh": "kWh",
}

// noUnits are words that say of what a unit is, and nothing of how large it is.
var noUnits = []string{"of", "water", "head", "column", "gauge", "us", "u.s.", "american"}

// inWords turns a unit written in words into symbols: "litres per minute" into "l/min", "cubic
// metres" into "m3".
func inWords(word string) string {
	word = strings.ReplaceAll(strings.ToLower(word), "per cent", "percent")
	word = strings.NewReplacer("/", " / ", "cu.", "cubic ", "sq.", "square ", "ft.", "ft", "kilowatt-hour", "kwh", "kilowatt hour", "kwh", "-", " ").Replace(word)
	if words := strings.Fields(word); len(words) == 1 && word == strings.Join(words, "") && singular(words[0]) == words[0] {
		return word
	}
	var b strings.Builder
	power, imperial := "", ""
	for _, w := range strings.Fields(word) {
		switch {
		case w == "per" || w == "/" || w == "a" || w == "an":
			b.WriteString("/")
		case w == "square" || w == "sq" || w == "sq.":
			power = "2"
		case w == "cubic" || w == "cu" || w == "cu.":
			power = "3"
		case w == "imperial" || w == "imp" || w == "imp." || w == "uk":
			imperial = "imp-"
		case slices.Contains(noUnits, w):
		default:
			b.WriteString(imperial + singular(w) + power)
			power, imperial = "", ""
		}
	}
	return b.String()
}

// singular is the symbol of a unit written as a word, in the singular or plural; the word where it is none.
func singular(w string) string {
	if w == "feet" {
		return "ft"
	}
	for _, one := range []string{w, strings.TrimSuffix(w, "."), strings.TrimSuffix(w, "s"), strings.TrimSuffix(w, "es")} {
		if u, ok := wordUnits[one]; ok {
			return u
		}
	}
	return w
}

// nearUnit returns the unit that fits and that a word was most likely meant to be; "" where
// none is near.
func nearUnit(word string, want []Dimension) string {
	fits := fitting(want)
	lower := strings.ToLower(word)
	for _, w := range []string{lower, strings.ReplaceAll(lower, " ", ""), inWords(word)} {
		for _, u := range []string{otherWords[strings.ToLower(w)], w} {
			if k := slices.IndexFunc(fits, func(f string) bool { return u != "" && strings.EqualFold(f, u) }); k >= 0 {
				return fits[k]
			}
		}
	}
	near, _ := Nearest(word, fits)
	return near
}

// marks are the strokes that stand for feet and inches on a tape, as they are typed: 4'-6 1/2".
var marks = strings.NewReplacer("''", " in ", `"`, " in ", "″", " in ", "”", " in ", "'-", " ft ", "'", " ft ", "′-", " ft ", "′", " ft ", "’-", " ft ", "’", " ft ")

// apart puts a space before a number that stands right behind feet, hours or minutes: "5ft3in".
func apart(text string) string {
	var b strings.Builder
	for i := range len(text) {
		if i > 0 && isDigit(text[i]) {
			for _, unit := range []string{"ft", "h", "min"} {
				if at := i - len(unit); at > 0 && text[at:i] == unit && (isDigit(text[at-1]) || text[at-1] == ' ') && text[i:] != "2" && text[i:] != "3" {
					b.WriteByte(' ')
				}
			}
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

// mended is the text with every word for a unit put right; "" where that makes no quantity.
func (r *reader) mended() string {
	again := &reader{text: apart(marks.Replace(r.text)), want: r.want}
	var b strings.Builder
	for again.space(); again.at < len(again.text); again.space() {
		from := again.at
		if b.Len() == 0 && !again.accept('-') {
			again.accept('+')
		}
		if _, _, err := again.number(); err != nil {
			return ""
		}
		number := strings.TrimSpace(again.text[from:again.at])
		again.space()
		word := again.unitWord()
		if !slices.Contains(fitting(r.want), word) {
			if word = nearUnit(word, r.want); word == "" {
				return ""
			}
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(number + " " + word)
	}
	if _, err := Parse(b.String(), r.want...); err != nil {
		return ""
	}
	return b.String()
}
