package quantity

import (
	"slices"
	"strings"
)

// elsewhere are units in use that are none here, each with what one of them is in one that is: a word near to
// it by its letters ("l" to "hl") would be a wrong value. By definition of the unit; the last digit is rounded.
var elsewhere = map[string]string{
	"hl": "100 l", "dl": "0.1 l", "cl": "0.01 l", "ml": "0.001 l", "kl": "1 m3", "dm3": "1 l", "dm³": "1 l", "cm3": "0.001 l",
	"cm³": "0.001 l", "cc": "0.001 l", "ccm": "0.001 l",
	"in3": "0.016387 l", "qt": "0.25 gal", "quart": "0.25 gal", "quarts": "0.25 gal", "pt": "0.125 gal",
	"dm": "10 cm", "km": "1000 m", "yd": "3 ft", "yard": "3 ft", "yards": "3 ft", "µm": "0.001 mm", "mil": "0.001 in",
	"hPa": "1 mbar", "MPa": "10 bar", "mmHg": "1.3332 mbar", "torr": "1.3332 mbar", "atm": "1.01325 bar",
	"MW": "1000 kW", "mW": "0.001 W", "PS": "735.5 W", "ton": "3.5169 kW", "tons": "3.5169 kW", "kcal/h": "1.163 W", "kBtu/h": "1000 Btu/h", "kBtu": "1000 Btu/h", "MBH": "1000 Btu/h",
	"mA": "0.001 A", "mV": "0.001 V", "kA": "1000 A", "g": "0.001 kg", "t": "1000 kg", "d": "24 h", "day": "24 h", "days": "24 h",
	"ml/s": "0.001 l/s", "ml/min": "0.001 l/min", "hl/h": "100 l/h", "Wh": "0.001 kWh", "MJ": "0.27778 kWh", "kJ": "0.00027778 kWh",
}

// inOurs is what one of a unit that is none here is in one that is and fits. Where known is true and ours is
// "", that is not known for sure, and nothing near by its letters is meant.
func inOurs(word string, want []Dimension) (ours string, known bool) {
	name, known := theirs(word)
	if !known || slices.ContainsFunc(fitting(want), func(u string) bool { return strings.EqualFold(u, word) }) {
		return "", false
	}
	if _, err := Parse(elsewhere[name], want...); name == "" || err != nil {
		return "", name == ""
	}
	return elsewhere[name], true
}

// theirs finds a word among the units that are none here, in whatever capitals: "mL" is "ml". But MW is no mW and
// ML no ml: name is "" where it could be either.
func theirs(word string) (name string, known bool) {
	if _, same := elsewhere[word]; same {
		return word, true
	}
	n := 0
	for w := range elsewhere {
		if strings.EqualFold(w, word) {
			name = w
			n++
		}
	}
	if n > 1 || n == 1 && word[0] == 'M' && name[0] == 'm' {
		name = ""
	}
	return name, n > 0
}
