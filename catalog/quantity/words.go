package quantity

import (
	"slices"
	"strings"
)

// otherWords are spellings people use that are not units here, and the unit meant.
var otherWords = map[string]string{
	`"`: "in", "''": "in", "”": "in", "inch": "in", "inches": "in",
	"'": "ft", "’": "ft", "foot": "ft", "feet": "ft",
	"metre": "m", "metres": "m", "meter": "m", "meters": "m", "millimetre": "mm", "millimetres": "mm",
	"litre": "l", "litres": "l", "liter": "l", "liters": "l", "ltr": "l", //nolint:misspell // both spellings are typed
	"lpm": "l/min", "lph": "l/h", "cmh": "m3/h", "usgpm": "gpm", "us gpm": "gpm", "gal/min": "gpm", "igpm": "imp-gpm",
	"m^3/h": "m3/h", "m^3": "m3", "gallon": "gal", "gallons": "gal", "us gal": "gal",
	"c": "°C", "degc": "°C", "deg c": "°C", "celsius": "°C", "° c": "°C",
	"f": "°F", "degf": "°F", "deg f": "°F", "fahrenheit": "°F", "° f": "°F",
	"lb": "psi", "lbs": "psi", "lbf/in2": "psi", "mh2o": "m", "mwc": "m", "mws": "m",
	"watt": "W", "watts": "W", "btu": "Btu/h", "btus": "Btu/h", "amp": "A", "amps": "A", "volt": "V", "volts": "V",
	"hour": "h", "hours": "h", "hr": "h", "hrs": "h", "minute": "min", "minutes": "min", "sec": "s", "second": "s", "seconds": "s",
	"percent": "%", "pct": "%", "cp": "mPa s", "kilo": "kg", "kilos": "kg",
}

// nearUnit returns the unit that fits and that a word was most likely meant to be; "" where
// none is near.
func nearUnit(word string, want []Dimension) string {
	fits := fitting(want)
	if u, ok := otherWords[strings.ToLower(word)]; ok && slices.Contains(fits, u) {
		return u
	}
	near, _ := Nearest(word, fits)
	return near
}
