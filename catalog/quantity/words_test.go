package quantity

import (
	"errors"
	"strings"
	"testing"
)

// A unit written in words is told in the symbols that are read, with the number: what is then
// suggested is taken. Each case by hand.
func TestUnitsInWords(t *testing.T) {
	for _, c := range []struct {
		text string
		want Dimension
		near string
	}{
		{"46 litres per minute", Flow, "46 l/min"},
		{"46 Liters Per Minute", Flow, "46 l/min"}, //nolint:misspell // as it is typed
		{"46 litres/minute", Flow, "46 l/min"},
		{"46 litres a minute", Flow, "46 l/min"},
		{"46 l per min", Flow, "46 l/min"},
		{"2800 litres per hour", Flow, "2800 l/h"},
		{"1.6 litres per second", Flow, "1.6 l/s"},
		{"25 gallons per minute", Flow, "25 gpm"},
		{"25 US gallons per minute", Flow, "25 gpm"},
		{"25 us gpm", Flow, "25 gpm"},
		{"21 imperial gallons per minute", Flow, "21 imp-gpm"},
		{"5.8 cubic metres per hour", Flow, "5.8 m3/h"},
		{"5.8 cubic meters an hour", Flow, "5.8 m3/h"},
		{"17 cubic feet per minute", Air, "17 cfm"},
		{"1 1/2 inches", Length, "1 1/2 in"},
		{"12 feet 6 inches", Length, "12 ft 6 in"},
		{"1 foot", Length, "1 ft"},
		{"450 millimetres", Length, "450 mm"},
		{`12' 6"`, Length, `12 ft 6 in`},
		{"38 degrees", Temperature, "38 °C"},
		{"38 degrees Celsius", Temperature, "38 °C"},
		{"38 deg C", Temperature, "38 °C"},
		{"38 ° C", Temperature, "38 °C"},
		{"100 degrees Fahrenheit", Temperature, "100 °F"},
		{"-5 degrees centigrade", Temperature, "-5 °C"},
		{"1200 litres", Volume, "1200 l"},
		{"1.2 cubic metres", Volume, "1.2 m3"},
		{"250 imperial gallons", Volume, "250 imp-gal"},
		{"2 pounds per square inch", Pressure, "2 psi"},
		{"6 kilopascals", Pressure, "6 kPa"},
		{"4 metres of water", Head, "4 m"},
		{"8 feet of head", Head, "8 ft"},
		{"3 kilowatts", Power, "3 kW"},
		{"28000 Btu per hour", Power, "28000 Btu/h"},
		{`4'6"`, Length, "4 ft 6 in"},
		{`4'-6 1/2"`, Length, "4 ft 6 1/2 in"},
		{"4′ 6″", Length, "4 ft 6 in"},
		{"10 1/2''", Length, "10 1/2 in"},
		{"14 amps", Current, "14 A"},
		{"2 hours 30 minutes", Time, "2 h 30 min"},
		{"60 per cent", Share, "60 %"},
		{"60 percent", Share, "60 %"},
		{"4 square metres", Area, "4 m2"},
		{"6 feet per second", Velocity, "6 ft/s"},
		{"993 kilograms per cubic metre", Density, "993 kg/m3"},
		{"2 kilowatt hours", Energy, "2 kWh"},
	} {
		_, err := Parse(c.text, c.want)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%s is read", c.text)
			continue
		}
		if !strings.HasPrefix(e.Hint, `did you mean "`+c.near+`"?`) {
			t.Errorf("%s: %s; %s, want %q", c.text, e.Message, e.Hint, c.near)
		}
		if _, err := Parse(c.near, c.want); err != nil {
			t.Errorf("%s is suggested and not read: %v", c.near, err)
		}
	}
	for _, c := range []struct {
		text string
		want Dimension
	}{{"46 litres per minute", Length}, {"25 gallons per hour", Flow}, {"3 buckets", Volume}, {"5 per", Flow}, {"2 /", Flow}} {
		_, err := Parse(c.text, c.want)
		var e *Error
		if !errors.As(err, &e) || strings.Contains(e.Hint, "did you mean") {
			t.Errorf("%s: %v", c.text, err)
		}
	}
}
