package heat

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// columnsWanted is what the head of a CSV file names.
const columnsWanted = "the first line names hour, dry_bulb_C, relative_humidity (per cent) and wind_m_s"

// readCSV reads a head and a line for each hour. The head decides what parts the columns: a comma, a
// semicolon or a tab; decimals have a point, or a comma where commas part no columns. Where hours are
// numbers each is one more than the one before, over the year or from 0 or 1 on each day. Fields may stand
// in quotation marks. A row has no more of them than the head: those of a decimal comma would be read as others.
func readCSV(data []byte, zone Zone) (*Weather, error) {
	var cols columns
	w := &Weather{}
	headed, named := false, 0
	sep := ","
	count := hourCount{column: -1}
	rows, err := eachLine(data, func(line int, text string) error {
		if strings.TrimSpace(text) == "" || strings.HasPrefix(text, "#") {
			return nil
		}
		if !headed {
			headed = true
			for _, one := range []string{";", "\t"} {
				if !strings.Contains(text, ",") && strings.Contains(text, one) {
					sep = one
				}
			}
			fields := split(text, sep)
			named = len(fields)
			var err error
			cols, count.column, err = head(fields, line)
			return err
		}
		fields := split(text, sep)
		if n := len(fields); n > named && strings.TrimSpace(strings.Join(fields[named:], "")) != "" {
			return &WeatherError{line, fmt.Sprintf("%d fields, and the head names %d: where decimals have a comma, semicolons or tabs part the columns", n, named)}
		}
		if sep != "," {
			for i, f := range fields {
				fields[i] = strings.Replace(f, ",", ".", 1)
			}
		}
		if err := count.next(fields, line); err != nil {
			return err
		}
		a, err := cols.row(fields, line)
		w.Hours = append(w.Hours, a)
		return err
	})
	if err != nil {
		return nil, err
	}
	if zone.Said {
		w.Notes = append(w.Notes, "a CSV file names no place: its hours are taken for local standard time, whatever zone says")
	}
	return w.finish(rows, 0)
}

// split parts a line into its fields, without the quotation marks that one may stand in.
func split(text, sep string) []string {
	fields := strings.Split(text, sep)
	for i, f := range fields {
		fields[i] = strings.Trim(strings.TrimSpace(f), `"`)
	}
	return fields
}

// hourCount holds the hours of the rows against each other.
type hourCount struct {
	column      int // -1: there is none
	first, last float64
	step        float64 // 1, or 100 where they are written as on a clock: 0, 100 to 2300; 0 before it is known
	begun       bool
}

// next takes up a row. Hours that are no numbers, such as dates, are not read.
func (h *hourCount) next(fields []string, line int) error {
	if h.column < 0 || h.column >= len(fields) {
		return nil
	}
	hour, whole := wholeHour(fields[h.column])
	if !whole {
		h.column = -1
		return nil
	}
	last := h.last
	h.last = hour
	if h.begun && h.step == 0 {
		if h.step = 1; hour == last+100 {
			h.step = 100
		}
	}
	switch {
	case !h.begun:
		h.first, h.begun = hour, true
	case hour == last+h.step || h.nextDay(last, hour):
	case hour == last:
		return &WeatherError{line, fmt.Sprintf("hour %g is there twice", hour)}
	case hour > last:
		return &WeatherError{line, fmt.Sprintf("hour %g comes after hour %g: %g missing between them", hour, last, (hour-last)/h.step-1)}
	default:
		return &WeatherError{line, fmt.Sprintf("hour %g comes after hour %g: hours go up by one, over the year or over each day", hour, last)}
	}
	return nil
}

// nextDay reports whether an hour begins another day behind the last one, where those of a day are numbered from 0
// or 1: 0 after 23, 1 after 24. One may be written 1 to 23 and 0.
func (h *hourCount) nextDay(last, hour float64) bool {
	day := 24 * h.step
	return h.first <= h.step && hour <= h.step && last <= day && math.Mod(last+h.step, day) == hour
}

// wholeHour reads the number of an hour; false of anything else.
func wholeHour(field string) (float64, bool) {
	hour, err := strconv.ParseFloat(strings.TrimSpace(field), 64)
	return hour, err == nil && hour == math.Trunc(hour)
}

// isName reports whether a field can be the name of a column: a file that is none of weather is not recited.
func isName(field string) bool {
	const letters = "abcdefghijklmnopqrstuvwxyz0123456789_ -()/%°"
	return field != "" && len(field) <= 40 && strings.Trim(strings.ToLower(field), letters) == ""
}

// readColumns are the names of columns that are read, in small letters.
var readColumns = []string{"hour", "dry_bulb_c", "relative_humidity", "wind_m_s", "sky_w_m2"}

// head finds the columns of a CSV file by their names; hour is -1 where none is called so.
func head(fields []string, line int) (cols columns, hour int, err error) {
	cols = columns{sky: -1, airGone: math.Inf(1), humidityGone: math.Inf(1), windGone: math.Inf(1), skyOff: math.Inf(1)}
	at := map[string]int{}
	var named []string
	for i, name := range fields {
		if first, twice := at[strings.ToLower(name)]; twice && slices.Contains(readColumns, strings.ToLower(name)) {
			return cols, -1, &WeatherError{line, fmt.Sprintf("columns %d and %d are both called %q: which of them is meant? give the other another name", first+1, i+1, name)}
		}
		at[strings.ToLower(name)] = i
		if len(named) < 6 && isName(name) {
			named = append(named, strconv.Quote(name))
		}
	}
	for _, c := range []struct {
		name string
		to   *int
	}{{"dry_bulb_C", &cols.air}, {"relative_humidity", &cols.humidity}, {"wind_m_s", &cols.wind}} {
		i, ok := at[strings.ToLower(c.name)]
		if !ok {
			message := fmt.Sprintf("no column %q", c.name)
			if len(named) == len(fields) || len(named) == 6 {
				message += " among " + strings.Join(named, ", ")
			}
			return cols, -1, &WeatherError{line, message + ": " + columnsWanted}
		}
		*c.to = i
	}
	if i, ok := at["sky_w_m2"]; ok {
		cols.sky = i
	}
	if i, ok := at["hour"]; ok {
		return cols, i, nil
	}
	return cols, -1, nil
}
