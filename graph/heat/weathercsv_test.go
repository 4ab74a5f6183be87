package heat

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"dryfit/graph/agree"
)

const csvHead = "hour,dry_bulb_C,relative_humidity,wind_m_s\n"

// csvYear is a year in which hour i has i/1000 degrees; row may change a line, or leave it out ("").
func csvYear(head string, hours int, row func(i int) string) string {
	var b strings.Builder
	b.WriteString(head)
	for i := range hours {
		if s := row(i); s != "" {
			b.WriteString(s + "\n")
		}
	}
	return b.String()
}

func plainRow(i int) string { return fmt.Sprintf("%d,%.3f,80,1.5", i, float64(i)/1000) }

// One year is the same however its columns are parted, its decimals are written and its hours counted.
func TestCSVAsOthersWriteIt(t *testing.T) {
	continental := func(i int) string { return strings.NewReplacer(",", ";", ".", ",").Replace(plainRow(i)) }
	for name, data := range map[string]string{
		"semicolons, decimal commas": csvYear(strings.ReplaceAll(csvHead, ",", ";"), 8760, continental),
		"semicolons, points":         csvYear(strings.ReplaceAll(csvHead, ",", ";"), 8760, func(i int) string { return strings.ReplaceAll(plainRow(i), ",", ";") }),
		"tabs, decimal commas":       csvYear(strings.ReplaceAll(csvHead, ",", "\t"), 8760, func(i int) string { return strings.ReplaceAll(continental(i), ";", "\t") }),
		"hours from 1":               csvYear(csvHead, 8760, func(i int) string { return fmt.Sprint(i+1) + strings.TrimPrefix(plainRow(i), fmt.Sprint(i)) }),
		"hours of the day from 0":    csvYear(csvHead, 8760, func(i int) string { return fmt.Sprint(i%24) + strings.TrimPrefix(plainRow(i), fmt.Sprint(i)) }),
		"hours of the day from 1":    csvYear(csvHead, 8760, func(i int) string { return fmt.Sprint(i%24+1) + strings.TrimPrefix(plainRow(i), fmt.Sprint(i)) }),
		"hours 1 to 23 and 0":        csvYear(csvHead, 8760, func(i int) string { return fmt.Sprint((i+1)%24) + strings.TrimPrefix(plainRow(i), fmt.Sprint(i)) }),
		"hours as on a clock":        csvYear(csvHead, 8760, func(i int) string { return fmt.Sprint(i%24*100) + strings.TrimPrefix(plainRow(i), fmt.Sprint(i)) }),
		"dates":                      csvYear(csvHead, 8760, func(i int) string { return "2023-01-01" + strings.TrimPrefix(plainRow(i), fmt.Sprint(i)) }),
		"in quotation marks":         csvYear(`"`+strings.ReplaceAll(strings.TrimSpace(csvHead), ",", `","`)+"\"\n", 8760, func(i int) string { return `"` + strings.ReplaceAll(plainRow(i), ",", `","`) + `"` }),
		"a comma at each end":        csvYear(csvHead, 8760, func(i int) string { return plainRow(i) + "," }),
		"a leap year":                csvYear(csvHead, 8784, plainRow),
	} {
		w, err := ReadWeather([]byte(data), Zone{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, i := range []int{0, 1, 23, 24, 4711, 8759} {
			if a := w.Hours[i]; !agree.Within(a.TempC, float64(i)/1000, 1e-9) || !agree.Within(a.Humidity, 0.8, 1e-9) || !agree.Within(a.Wind, 1.5, 1e-9) {
				t.Errorf("%s, hour %d: %+v", name, i, a)
			}
		}
	}
}

// What is missing, twice or out of order is told at its line, and shares of one are no per cent.
func TestCSVThatIsWrong(t *testing.T) {
	for name, c := range map[string]struct {
		data, want string
		line       int
	}{
		"three hours missing": {csvYear(csvHead, 8760, func(i int) string {
			if i >= 5 && i < 8 {
				return ""
			}
			return plainRow(i)
		}), "hour 8 comes after hour 4: 3 missing between them", 7},
		"one twice": {csvYear(csvHead, 8760, func(i int) string {
			if i == 100 {
				return plainRow(99)
			}
			return plainRow(i)
		}), "hour 99 is there twice", 102},
		"back": {csvYear(csvHead, 8760, func(i int) string { return plainRow((i + 4000) % 8760) }), "hour 0 comes after hour 8759: hours go up by one", 4762},
		"shares": {csvYear(csvHead, 8760, func(i int) string { return strings.Replace(plainRow(i), ",80,", ",0.8,", 1) }),
			"per cent are wanted", 8761},
		"decimal commas between commas": {csvYear(csvHead, 8760, func(i int) string { return fmt.Sprintf("%d,12,80,5,2", i) }),
			"5 fields, and the head names 4", 2},
		"another unit":      {"hour,dry_bulb_F,relative_humidity,wind_mph\n", `no column "dry_bulb_C" among "hour", "dry_bulb_F", "relative_humidity", "wind_mph": the first line names`, 1},
		"a column twice":    {"hour,dry_bulb_C,relative_humidity,wind_m_s,Dry_Bulb_C\n", `columns 2 and 5 are both called "Dry_Bulb_C"`, 1},
		"hours twice":       {"hour,hour,dry_bulb_C,relative_humidity,wind_m_s\n", `columns 1 and 2 are both called "hour"`, 1},
		"others may be two": {"hour,note,note,relative_humidity,wind_m_s\n", `no column "dry_bulb_C"`, 1},
		"no weather":        {"root:x:0:0:root:/root:/bin/sh\n", `no column "dry_bulb_C": the first`, 1},
		"UTF-16":            {"\xff\xfeh\x00o\x00", "save it as UTF-8", 1},
	} {
		_, err := ReadWeather([]byte(c.data), Zone{})
		var w *WeatherError
		if !errors.As(err, &w) || !strings.Contains(w.Message, c.want) || w.Line != c.line {
			t.Errorf("%s: %v, want line %d and %q", name, err, c.line, c.want)
		}
	}
}
