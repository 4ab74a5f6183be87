package description

import (
	"fmt"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// climateFields are the keys of [climate].
var climateFields = []field.Field[graph.Climate]{
	field.Text("file", `the name of a file of hourly weather, such as "weather.epw"`, func(c *graph.Climate) *string { return &c.File }),
	{Key: "zone", Shape: func() schema.Shape { return schema.Matching(`^[+-]?[0-9]+(\.[0-9]+)?$`) }, Read: readZone, Write: func(c *graph.Climate) string { return words(c.Zone) }},
	monthsField("air", field.AirWarmth, false, func(c *graph.Climate) *[]float64 { return &c.AirC }),
	monthsField("swing", field.WarmthDifference, true, func(c *graph.Climate) *[]float64 { return &c.SwingK }),
	monthsField("humidity", field.Share, true, func(c *graph.Climate) *[]float64 { return &c.Humidity }),
	monthsField("wind", field.WindSpeed, true, func(c *graph.Climate) *[]float64 { return &c.WindMS }),
	field.Amount("day-to-day", field.WarmthDifference, func(c *graph.Climate) *graph.Amount { return &c.DayToDayK }),
}

func readClimate(r *field.Reader, v located.Value) {
	c := &graph.Climate{Pos: r.KeyPos(v)}
	c.KeyPos = field.ReadTable(r, v, "[climate]", climateFields, c)
	if c.File != "" && len(c.AirC) > 0 {
		at, _ := v.In("air")
		d := r.Add(r.KeyPos(at), "keep the file, which knows every hour; or the months where there is none", "the climate has a file and months as well")
		located.Related(d, c.KeyPos["file"], "the file is here")
	}
	_, hasFile := v.In("file")
	if _, hasAir := v.In("air"); !hasFile && !hasAir {
		r.Add(c.Pos, "give file, an EPW or CSV file, or air, twelve means from January on; or take [climate] out",
			"the climate says neither a file of hours nor the air of the months: there is no year to work out")
	}
	r.Circuit.Climate = c
}

// readZone reads what the rows' hours are, from UTC: "+1", "-3.5".
func readZone(r *field.Reader, v located.Value, into *graph.Climate) {
	const write = `the hours from UTC, such as "+1" or "-3.5"`
	s, ok := r.Text(v, write)
	if !ok {
		return
	}
	x, err := strconv.ParseFloat(strings.TrimPrefix(s, "+"), 64)
	if err != nil || x < -14 || x > 14 {
		r.Fail(v, "write "+write, "%s is no time zone", located.Said(s))
		return
	}
	into.Zone = s
}

// monthsField is a quantity for each month; with one, one for all of them will do.
func monthsField(name string, l field.Limit, one bool, at func(*graph.Climate) *[]float64) field.Field[graph.Climate] {
	return field.Field[graph.Climate]{
		Key:   name,
		Shape: func() schema.Shape { return monthsShape(one) },
		Read: func(r *field.Reader, v located.Value, into *graph.Climate) {
			items, ok := v.Items()
			if !ok {
				items = []located.Value{v}
			}
			switch {
			case len(items) == 12 || one && len(items) == 1:
			case one:
				r.Fail(v, "write one for the whole year, or twelve from January on", "%s has %s", located.Said(name), quantity.Counted(len(items), "value"))
				return
			default:
				if !r.Blank(v, "twelve values from January on") {
					r.Fail(v, "write twelve from January on", "%s has %s, and a year twelve months", located.Said(name), quantity.Counted(len(items), "value"))
				}
				return
			}
			for _, item := range items {
				q, ok := r.Quantity(item, l)
				if !ok {
					return
				}
				*at(into) = append(*at(into), r.BaseValue(q))
			}
		},
		Write: func(from *graph.Climate) string {
			var out []string
			for _, x := range *at(from) {
				out = append(out, field.ExactIn(x, l))
			}
			if len(out) == 1 {
				return out[0]
			}
			return field.List(out)
		},
	}
}

// monthsShape is twelve quantities; with one, one alone will do.
func monthsShape(one bool) schema.Shape {
	year := schema.Exactly(schema.Quantity(), 12)
	if !one {
		return year
	}
	return schema.Either(schema.Quantity(), schema.Exactly(schema.Quantity(), 1), year)
}

// clockPattern is a time of day.
const clockPattern = `^[0-9]{1,2}:[0-9]{2}$`

// clockField is a time of day.
func clockField[T any](name string, at func(*T) *graph.Clock) field.Field[T] {
	return field.Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Matching(clockPattern) },
		Read: func(r *field.Reader, v located.Value, into *T) {
			s, ok := r.Text(v, clockExample)
			if !ok {
				return
			}
			c, ok := clockOf(s)
			if !ok {
				r.Fail(v, "write "+clockExample, "%s is no time of day", located.Said(s))
				return
			}
			*at(into) = c
		},
		Write: func(from *T) string {
			if c := *at(from); c.Set {
				return field.Quote(clockWords(c))
			}
			return ""
		},
	}
}

const clockExample = `hours and minutes from 00:00 to 24:00, such as "20:00"`

// readHours reads "00:30-04:30".
func readHours(r *field.Reader, v located.Value) (graph.Hours, bool) {
	const write = `from and to with a dash between: "00:30-04:30"`
	s, ok := r.Text(v, write)
	if !ok {
		return graph.Hours{}, false
	}
	a, b, _ := strings.Cut(s, "-")
	from, okFrom := clockOf(strings.TrimSpace(a))
	to, okTo := clockOf(strings.TrimSpace(b))
	if !okFrom || !okTo {
		r.Fail(v, "write "+write, "%s is no stretch of the day", located.Said(s))
		return graph.Hours{}, false
	}
	return graph.Hours{From: from, To: to}, true
}

// clockOf returns the time of day a text stands for: "7:00", "07:30", "24:00".
func clockOf(s string) (graph.Clock, bool) {
	h, m, ok := strings.Cut(s, ":")
	if !ok || len(m) != 2 || len(h) < 1 || len(h) > 2 {
		return graph.Clock{}, false
	}
	hour, errH := strconv.ParseUint(h, 10, 8)
	minute, errM := strconv.ParseUint(m, 10, 8)
	if errH != nil || errM != nil || minute > 59 || hour*60+minute > 24*60 {
		return graph.Clock{}, false
	}
	return graph.Clock{Minute: int(hour*60 + minute), Set: true}, true
}

func clockWords(c graph.Clock) string { return fmt.Sprintf("%02d:%02d", c.Minute/60, c.Minute%60) }

// words writes a text; "" leaves its key out.
func words(s string) string {
	if s == "" {
		return ""
	}
	return field.Quote(s)
}
