package heat

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// months45N are the twelve months of the typical year: air, swing, spread of the daily means,
// humidity, wind. Source: worked from PVGIS's typical year 2005-2023 at 45° N 8° E
// (© European Union, 2001-2025).
var months45N = [12][5]float64{
	{5.20, 7.38, 1.84, 84.4, 1.18}, {6.96, 8.73, 1.48, 80.7, 1.11}, {8.73, 10.14, 1.95, 70.7, 1.34}, {12.37, 8.33, 3.23, 79.8, 1.34},
	{17.04, 8.59, 1.21, 73.8, 1.33}, {22.46, 12.72, 3.83, 54.3, 1.47}, {21.92, 9.81, 1.82, 68.5, 1.32}, {22.15, 9.08, 2.29, 71.1, 1.20},
	{20.20, 9.32, 2.98, 71.5, 1.11}, {14.97, 7.53, 2.13, 81.5, 1.06}, {6.31, 7.84, 2.79, 75.3, 1.16}, {4.05, 7.87, 1.94, 89.8, 0.89},
}

func monthsOf(swing, wave bool) Months {
	var m Months
	for i, row := range months45N {
		m.AirC[i], m.Humidity[i], m.Wind[i] = row[0], row[3]/100, row[4]
		if swing {
			m.SwingK[i] = row[1]
		}
		if wave {
			m.DayToDay[i] = row[2]
		}
	}
	return m
}

func hoursBelow(w *Weather, t float64) int {
	n := 0
	for _, a := range w.Hours {
		if a.TempC < t {
			n++
		}
	}
	return n
}

// Degree hours and tails of the file and of the year made from its months, counted elsewhere.
func TestMonthsAgainstHours(t *testing.T) {
	file := readTestWeather(t)
	sum := 0.0
	for _, a := range file.Hours {
		sum += 38 - a.TempC
	}
	if !near(sum, 214058.5, 0.1) || hoursBelow(file, 0) != 164 || hoursBelow(file, 5) != 1460 {
		t.Errorf("file: %.1f K h to 38 °C, %d h below 0, %d below 5", sum, hoursBelow(file, 0), hoursBelow(file, 5))
	}
	plant := &Plant{Units: Alone(mapUnit(), 0), Heating: AnyTime(), Runs: PumpOnCall}
	for _, c := range []struct {
		swing, wave bool
		kWh         float64
		zero, five  int
	}{{false, false, 605.0, 0, 744}, {true, false, 612.6, 0, 1421}, {true, true, 617.3, 201, 1473}} {
		y := monthsOf(c.swing, c.wave).Year()
		got := Year(yearTub(0), plant, y, Tariff{}).KWh
		if !near(got, c.kWh, 0.3) || !near(float64(hoursBelow(y, 0)), float64(c.zero), 2) || !near(float64(hoursBelow(y, 5)), float64(c.five), 2) {
			t.Errorf("swing %v wave %v: %.2f kWh, %d h below 0, %d below 5; want %+v", c.swing, c.wave, got, hoursBelow(y, 0), hoursBelow(y, 5), c)
		}
	}
	// the monthly mean is kept exactly
	y := monthsOf(true, true).Year()
	at := 0
	for m, days := range daysOf {
		mean := 0.0
		for range days * 24 {
			mean += y.Hours[at].TempC / float64(days*24)
			at++
		}
		if !near(mean, months45N[m][0], 1e-9) {
			t.Errorf("month %d: mean %.12f, want %g", m+1, mean, months45N[m][0])
		}
	}
}

// epw writes hours in the open weather format.
func epw(rows int, zone string, lat string, line func(i int) string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "LOCATION,Made Up,-,XXX,test,000000,%s,8.0,%s,250\n", lat, zone)
	b.WriteString("DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVING,No,0,0,0\n")
	b.WriteString("COMMENTS 1,\"never closed, with commas\nCOMMENTS 2,made up\nDATA PERIODS,1,1,Data,Sunday,1/1,12/31\n")
	for i := range rows {
		b.WriteString(strings.Replace(line(i), ",1,1,1,", fmt.Sprintf(",1,1,%d,", i%24+1), 1))
		b.WriteString("\r\n")
	}
	return b.String()
}

func epwLine(year int, air, humidity, wind string) string {
	return fmt.Sprintf("%d,1,1,1,60,flags,%s,1.0,%s,101325,0,0,300,0,0,0,0,0,0,0,0,%s,0,0,0,0,0,0,0,0,0,0,0,0,0", year, air, humidity, wind)
}

func TestEPW(t *testing.T) {
	line := func(i int) string { return epwLine(2005+i%3, fmt.Sprint(float64(i%24)), "80", "1.5") }
	w, err := ReadWeather([]byte("\ufeff"+epw(8760, "1.0", "45", line)), Zone{})
	if err != nil {
		t.Fatal(err)
	}
	if a := w.Hours[5]; a.TempC != 5 || a.Humidity != 0.8 || a.Wind != 1.5 || a.Sky != 300 {
		t.Errorf("hour 5: %+v", a)
	}
	if len(w.Notes) != 1 || !strings.Contains(w.Notes[0], "3 different years") {
		t.Errorf("notes %q", w.Notes)
	}
	utc, err := ReadWeather([]byte(epw(8760, "1.0", "45", line)), Zone{Hours: 0, Said: true})
	if err != nil || utc.Hours[6].TempC != 5 || utc.Hours[0].TempC != 23 {
		t.Errorf("rows in UTC, place an hour ahead: hour 6 is %+v, %v", utc.Hours[6], err)
	}
	south, err := ReadWeather([]byte(epw(8784, "10", "-33.9", line)), Zone{})
	if err != nil || !south.South || !south.Leap() || !strings.Contains(strings.Join(south.Notes, "; "), "south of the equator") || !strings.Contains(strings.Join(south.Notes, "; "), "leap year") {
		t.Errorf("south %v leap %v notes %q %v", south.South, south.Leap(), south.Notes, err)
	}
	if h, ok := south.Day(2, 29); !ok || h != (31+28)*24 {
		t.Errorf("29 February of a leap year: hour %d %v", h, ok)
	}
	gap, err := ReadWeather([]byte(epw(8760, "1", "45", func(i int) string {
		if i >= 10 && i < 13 {
			return epwLine(2005, "99.9", "999", "999")
		}
		return epwLine(2005, fmt.Sprint(float64(i%24)), "80", "1.5")
	})), Zone{})
	if err != nil || !near(gap.Hours[11].TempC, 11, 1e-9) || !strings.Contains(strings.Join(gap.Notes, "; "), "9 missing values") {
		t.Errorf("gap of three hours: %+v, %q, %v", gap.Hours[11], gap.Notes, err)
	}
}

func TestBrokenWeather(t *testing.T) {
	good := func(int) string { return epwLine(2005, "10", "80", "1.5") }
	for name, c := range map[string]struct {
		data, want string
		line       int
	}{
		"short":          {epw(100, "1", "45", good), "ends after 100 hours", 108},
		"empty":          {"", "ends after 0 hours", 0},
		"word for a sum": {epw(8760, "1", "45", func(i int) string { return strings.Replace(good(i), ",10,", ",warm,", b2i(i == 7)) }), `"warm" is no number`, 16},
		"cut line": {epw(8760, "1", "45", func(i int) string {
			if i == 3 {
				return "2005,1,1"
			}
			return good(i)
		}), "3 fields", 12},
		"one hour twice, another missing": {epw(8760, "1", "45", func(i int) string {
			if i == 30 {
				return strings.Replace(good(i), ",1,1,1,", ",1,1,6,", 1)
			}
			return good(i)
		}), "hour 6 is there twice", 39},
		"no place":      {"LOCATION,x\n", "fewer than ten fields", 1},
		"hot":           {epw(8760, "1", "45", func(int) string { return epwLine(2005, "75", "80", "1.5") }), "outside -70 to 60", 9},
		"long gap":      {epw(8760, "1", "45", func(int) string { return epwLine(2005, "99.9", "80", "1.5") }), "in a row are missing", 0},
		"csv head":      {"hour,temp\n1,2\n", `no column "dry_bulb_C" among "hour", "temp"`, 1},
		"csv short row": {"hour,dry_bulb_C,relative_humidity,wind_m_s\n1,2\n", "2 fields", 2},
		"csv nan":       {"hour,dry_bulb_C,relative_humidity,wind_m_s\n1,NaN,80,1\n", "is no number", 2},
	} {
		_, err := ReadWeather([]byte(c.data), Zone{})
		var w *WeatherError
		if !errors.As(err, &w) || !strings.Contains(w.Message, c.want) || w.Line != c.line {
			t.Errorf("%s: %v, want line %d and %q", name, err, c.line, c.want)
		}
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func FuzzReadWeather(f *testing.F) {
	f.Add([]byte(epw(30, "1", "45", func(int) string { return epwLine(2005, "10", "80", "1.5") })))
	f.Add([]byte("hour,dry_bulb_C,relative_humidity,wind_m_s\n1,2,3,4\n"))
	f.Add([]byte("LOCATION"))
	f.Fuzz(func(t *testing.T, data []byte) {
		w, err := ReadWeather(data, Zone{})
		if err != nil {
			return
		}
		for i, a := range w.Hours {
			if math.IsNaN(a.TempC+a.Humidity+a.Wind+a.Sky) || a.Humidity < 0 || a.Humidity > 1 {
				t.Fatalf("hour %d: %+v", i, a)
			}
		}
	})
}
