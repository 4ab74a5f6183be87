package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
)

// templateAnswers fill the blanks of each template in the order they stand, with invented
// answers: | parts the elements of a list, # marks a bare number.
var templateAnswers = map[string][]string{
	"two-speed": {
		"A corner tub", "1300 l", "2 in", "60.3 mm", "pvc-u", "-6 °C", "eu", "tn-s", "34 m3/h", "hours", "#true", "#16",
		"830 mm", "240 mm", "520 mm", "440 mm", "160 mm", "60 mm", "right 200 mm|up 300 mm|left 1600 mm|up 200 mm", "1 1/2 in",
		"2.8 m3/h", "4.2 m3/h", "8.4 m3/h", "4.2 m3/h", "6 kPa", "3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW",
		"38 °C", "-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "front 700 mm|left 2000 mm|down 250 mm", "right",
	},
	"circulation": {
		"A round tub", "980 l", "1 in", "33.4 mm", "pvc-u", "-6 °C", "eu", "tn-s", "34 m3/h", "34 m3/h", "34 m3/h", "#true",
		"700 mm", "500 mm", "300 mm", "360 mm", "60 mm", "right 1150 mm|down 180 mm|back 200 mm", "#18", "600 mm", "950 mm",
		"350 mm", "1.8 m", "1 in", "1.1 m3/h", "1.7 m3/h", "3.4 m3/h", "1.7 m3/h", "5 kPa", "3 bar", "up 240 mm", "15 °C",
		"38 °C", "11 kW", "2.8 kW", "38 °C", "-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m",
		"front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"large-circulation": {
		"A long tub", "1450 l", "1 1/2 in", "48.3 mm", "pvc-u", "-6 °C", "eu", "tn-s", "34 m3/h", "34 m3/h", "34 m3/h",
		"#true", "#4", "900 mm", "220 mm", "400 mm", "390 mm", "150 mm", "60 mm",
		"right 240 mm|up 340 mm|left 1500 mm|up 220 mm", "#20", "700 mm", "1.1 m", "400 mm", "2.1 m", "1 1/2 in", "2.2 m3/h",
		"3.2 m3/h", "6.4 m3/h", "3.2 m3/h", "7 kPa", "3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW", "38 °C",
		"-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"plunge-pool": {
		"A pool", "4.8 m3", "30 °C", "50 mm", "50 mm", "pvc-u", "2 °C", "eu", "tn-s", "34 m3/h", "hours", "5.5 m", "7.2 m",
		"260 mm", "650 mm", "60 mm", "right 280 mm|up 350 mm|left 1900 mm", "220 mm", "4.8 m", "7.6 m", "50 mm", "2.3 m3/h",
		"3.4 m3/h", "7.5 m3/h", "3.4 m3/h", "6 kPa", "3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW", "30 °C",
		"-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"plug-in": {
		"A small tub", "830 l", "5 °C", "eu", "tn-s", "34 m3/h", "34 m3/h", "hours", "#true", "38 mm", "1.2 m", "38 mm",
		"1.2 m", "38 mm", "300 mm", "38 mm", "1.5 m", "1 1/2 in", "0.9 m3/h", "1.5 m3/h", "3.2 m3/h", "1.5 m3/h", "4 kPa",
		"2.5 bar", "15 °C", "38 °C", "11 kW", "2.8 kW", "38 °C", "-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m",
		"38 mm", "1.1 m", "38 mm", "1.4 m", "front 360 mm|right 900 mm", "left 560 mm|back 120 mm",
	},
}

var (
	templateComment = regexp.MustCompile(`(?m)#.*$`)
	templateBlank   = regexp.MustCompile(`"\?"`)
)

// filledTemplate is a template with its blanks filled.
func filledTemplate(t *testing.T, name string) string {
	t.Helper()
	data, err := description.Template(name)
	if err != nil {
		t.Fatal(err)
	}
	answers := templateAnswers[name]
	text := templateBlank.ReplaceAllStringFunc(templateComment.ReplaceAllString(string(data), ""), func(string) string {
		if len(answers) == 0 {
			t.Fatalf("%s has more blanks than there are answers", name)
		}
		a := answers[0]
		answers = answers[1:]
		if n, ok := strings.CutPrefix(a, "#"); ok {
			return n
		}
		return `"` + strings.ReplaceAll(a, "|", `", "`) + `"`
	})
	if len(answers) > 0 {
		t.Fatalf("%s: %d answers are left over", name, len(answers))
	}
	return text
}

// template is the circuit of a filled template.
func template(t *testing.T, name string) *graph.Circuit {
	t.Helper()
	return read(t, name+".toml", []byte(filledTemplate(t, name)))
}
