package heat

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A WeatherError says what is wrong with a weather file, and in which line, from 1; 0 stands
// for the whole of it.
type WeatherError struct {
	Line    int
	Message string
}

func (e *WeatherError) Error() string {
	if e.Line == 0 {
		return e.Message
	}
	return fmt.Sprintf("line %d: %s", e.Line, e.Message)
}

// Zone is what the hours of a weather file's rows are, counted from UTC. Said is false where
// the file's own word holds.
type Zone struct {
	Hours float64
	Said  bool
}

// ReadWeather reads a year of hours: an EPW file, which begins with LOCATION, or a CSV file
// with a head that names hour, dry_bulb_C, relative_humidity (per cent) and wind_m_s, and
// sky_W_m2 if it is known; see readCSV. The error is a *WeatherError.
func ReadWeather(data []byte, zone Zone) (*Weather, error) {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return nil, &WeatherError{1, "the file is UTF-16: save it as UTF-8"}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(bytes.ToUpper(data[:min(len(data), 8)]), []byte("LOCATION")) {
		return readEPW(data, zone)
	}
	return readCSV(data, zone)
}

// columns are where a row holds what is wanted; -1: not there. missing is what stands for a
// value that nobody measured: at least so much.
type columns struct {
	air, humidity, wind, sky                int
	airGone, humidityGone, windGone, skyOff float64
}

func (c columns) most() int { return max(c.air, c.humidity, c.wind, c.sky) }

// row reads one line's fields.
func (c columns) row(fields []string, line int) (Air, error) {
	if len(fields) <= c.most() {
		return Air{}, &WeatherError{line, fmt.Sprintf("%d fields; the hour's air, humidity and wind need %d", len(fields), c.most()+1)}
	}
	get := func(i int, gone, low, high float64, what string) (float64, error) {
		v, err := strconv.ParseFloat(strings.TrimSpace(fields[i]), 64)
		switch {
		case err != nil || math.IsNaN(v) || math.IsInf(v, 0):
			return 0, &WeatherError{line, fmt.Sprintf("%s %q is no number", what, strings.TrimSpace(fields[i]))}
		case v >= gone:
			return math.NaN(), nil
		case v < low || v > high:
			return 0, &WeatherError{line, fmt.Sprintf("%s %g is outside %g to %g", what, v, low, high)}
		}
		return v, nil
	}
	var a Air
	var err error
	if a.TempC, err = get(c.air, c.airGone, -70, 60, "dry bulb temperature"); err != nil {
		return a, err
	}
	if a.Humidity, err = get(c.humidity, c.humidityGone, 0, 110, "relative humidity"); err != nil {
		return a, err
	}
	a.Humidity = math.Min(1, a.Humidity/100)
	if a.Wind, err = get(c.wind, c.windGone, 0, 60, "wind"); err != nil {
		return a, err
	}
	if c.sky >= 0 {
		if a.Sky, err = get(c.sky, c.skyOff, 0, 700, "sky radiation"); err != nil || math.IsNaN(a.Sky) {
			a.Sky = 0
		}
	}
	return a, err
}

// readEPW reads the open EnergyPlus weather format by lines: eight of head, then 35 fields
// an hour, of which 7 is dry bulb, 9 humidity, 13 the sky's radiation and 22 the wind. Rows
// keep the order of the file: its months may come from different years. The hours of a day, field 4, follow each other.
func readEPW(data []byte, zone Zone) (*Weather, error) {
	cols := columns{air: 6, humidity: 8, wind: 21, sky: 12, airGone: 99.9, humidityGone: 999, windGone: 999, skyOff: 9999}
	w := &Weather{}
	var site float64
	years, count := map[string]bool{}, hourCount{column: 3}
	rows, err := eachLine(data, func(line int, text string) error {
		fields := strings.Split(text, ",")
		if line == 1 {
			if len(fields) < 10 {
				return &WeatherError{1, "LOCATION has fewer than ten fields"}
			}
			lat, err1 := strconv.ParseFloat(strings.TrimSpace(fields[6]), 64)
			tz, err2 := strconv.ParseFloat(strings.TrimSpace(fields[8]), 64)
			if err1 != nil || err2 != nil {
				return &WeatherError{1, "LOCATION wants the latitude in field 7 and the zone in field 9, as numbers"}
			}
			site, w.South = tz, lat < 0
			return nil
		}
		year := strings.TrimSpace(fields[0])
		if strings.Trim(year, "0123456789") != "" || year == "" {
			return nil // a line of the head
		}
		if err := count.next(fields, line); err != nil {
			return err
		}
		a, err := cols.row(fields, line)
		if err != nil {
			return err
		}
		years[year] = true
		w.Hours = append(w.Hours, a)
		return nil
	})
	if err != nil {
		return nil, err
	}
	if len(years) > 1 {
		w.Notes = append(w.Notes, fmt.Sprintf("a typical year: its months come from %d different years, and it holds no extremes", len(years)))
	}
	for year := range years {
		if len(years) == 1 {
			w.Notes = append(w.Notes, "the weather of the year "+year+": another year is warmer or colder")
		}
	}
	shift := 0.0
	if zone.Said {
		shift = site - zone.Hours
	}
	return w.finish(rows, shift)
}

// mostLine is the longest line read [bytes].
const mostLine = 1 << 20

// eachLine calls f for each line, numbered from 1, and returns how many there were.
func eachLine(data []byte, f func(line int, text string) error) (int, error) {
	s := bufio.NewScanner(bytes.NewReader(data))
	s.Buffer(make([]byte, 0, 4096), mostLine)
	n := 0
	for s.Scan() {
		n++
		if err := f(n, strings.TrimRight(s.Text(), "\r")); err != nil {
			return n, err
		}
	}
	if err := s.Err(); err != nil {
		return n, &WeatherError{n + 1, "a line of more than a million characters"}
	}
	return n, nil
}

// finish holds the rows against a year, fills short gaps and moves the hours.
func (w *Weather) finish(lines int, shift float64) (*Weather, error) {
	if n := len(w.Hours); n != 365*24 && n != 366*24 {
		return nil, &WeatherError{lines, fmt.Sprintf("the file ends after %d hours; a year has 8760, a leap year 8784", n)}
	}
	if !slices.ContainsFunc(w.Hours, func(a Air) bool { return math.IsNaN(a.Humidity) || a.Humidity > 0.01 }) {
		return nil, &WeatherError{lines, "no relative humidity of the year is above 1: per cent are wanted, and these are shares of one"}
	}
	filled, err := w.fill()
	if err != nil {
		return nil, err
	}
	if filled > 0 {
		w.Notes = append(w.Notes, fmt.Sprintf("%d missing values were filled from their neighbours", filled))
	}
	if w.Leap() {
		w.Notes = append(w.Notes, "a leap year: 8784 hours")
	}
	if w.South {
		w.Notes = append(w.Notes, "a place south of the equator: its winter is in the middle of the year")
	}
	if shift != math.Trunc(shift) {
		w.Notes = append(w.Notes, "the zone has a half hour; hours are moved by whole ones")
	}
	return w.shifted(int(math.Trunc(shift))), nil
}

// longestGap is how many hours in a row may be missing. Source: judgement.
const longestGap = 12

// fill puts straight lines where up to longestGap values in a row are missing.
func (w *Weather) fill() (int, error) {
	filled := 0
	n := len(w.Hours)
	for _, what := range []struct {
		name string
		of   func(*Air) *float64
	}{
		{"dry bulb temperatures", func(a *Air) *float64 { return &a.TempC }},
		{"humidities", func(a *Air) *float64 { return &a.Humidity }},
		{"wind speeds", func(a *Air) *float64 { return &a.Wind }},
	} {
		name, of := what.name, what.of
		last := -1
		for i := 0; i <= n; i++ {
			if i < n && math.IsNaN(*of(&w.Hours[i])) {
				continue
			}
			gap := i - last - 1
			if gap > longestGap || gap == n {
				return 0, &WeatherError{0, fmt.Sprintf("%d %s in a row are missing, from hour %d; at most %d can be filled", gap, name, last+2, longestGap)}
			}
			for k := 1; k <= gap; k++ {
				filled++
				*of(&w.Hours[last+k]) = between(w.Hours, of, last, i, float64(k)/float64(gap+1))
			}
			last = i
		}
	}
	return filled, nil
}

// between returns the value a share of the way from hour i to hour j; at an end of the year
// the one neighbour there is.
func between(hours []Air, of func(*Air) *float64, i, j int, share float64) float64 {
	switch {
	case i < 0:
		return *of(&hours[j])
	case j >= len(hours):
		return *of(&hours[i])
	}
	a, b := *of(&hours[i]), *of(&hours[j])
	return a + share*(b-a)
}
