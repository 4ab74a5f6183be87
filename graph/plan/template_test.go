package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
)

// answers fill the blanks of a template by their keys, in the order they stand, the last again
// for those that follow: | parts the elements of a list, # marks what is no text. All of it is
// invented.
type answers map[string][]string

// usual are the answers that fit every template.
var usual = answers{
	"name": {"An invented tub"}, "volume": {"1300 l"}, "temperature": {"30 °C"}, "material": {"pvc-u"}, "air": {"-6 °C", "15 °C"}, "region": {"eu"},
	"earthing": {"tn-s"}, "cover-rating": {"34 m3/h"}, "runs-for-heat": {"hours"}, "disconnected": {"#true"}, "length": {"830 mm", "340 mm", "520 mm"},
	"play": {"60 mm"}, "count": {"#16"}, "highest-pressure": {"3.5 bar"}, "water": {"38 °C"}, "output": {"11 kW"}, "input": {"2.8 kW"}, "voltage": {"230 V"},
	"full-load": {"14 A"}, "set-point": {"38 °C"}, "least-air": {"-12 °C"}, "most-water": {"40 °C"}, "stops-at-high-limit": {"#true"}, "drain-plug": {"#true"},
	"refrigerant": {"R32"}, "stands-on": {"slab"}, "from-water": {"2.4 m"},
	"port.out.at": {"up 240 mm"}, "at": {"front 540 mm|right 2300 mm|down 330 mm"}, "ports-face": {"left"},
	"least": {"2.2 m3/h"}, "rated": {"3.2 m3/h"}, "most": {"7.5 m3/h"}, "flow": {"3.2 m3/h"}, "drop": {"6 kPa"},
}

var templateAnswers = map[string]answers{
	"two-speed": {"size": {"2 in"}, "measured-outside-diameter": {"60.3 mm"}, "legs": {"right 200 mm|up 300 mm|left 1600 mm|up 200 mm"}, "ports-size": {"1 1/2 in"},
		"at": {"front 700 mm|left 2000 mm|down 250 mm"}, "ports-face": {"right"}, "least": {"2.8 m3/h"}, "rated": {"4.2 m3/h"}, "most": {"8.4 m3/h"}},
	"one-speed": {"size": {"2 in"}, "measured-outside-diameter": {"60.3 mm"}, "legs": {"right 200 mm|up 300 mm|left 1600 mm|up 200 mm"}, "ports-size": {"1 1/2 in"},
		"at": {"front 700 mm|left 2000 mm|down 250 mm"}, "ports-face": {"right"}, "least": {"2.8 m3/h"}, "rated": {"4.2 m3/h"}, "most": {"8.4 m3/h"}},
	"circulation": {"size": {"1 in"}, "measured-outside-diameter": {"33.4 mm"}, "legs": {"right 1150 mm|down 180 mm|back 200 mm"}, "ports-size": {"1 in"},
		"least": {"1.1 m3/h"}, "rated": {"1.7 m3/h"}, "most": {"3.4 m3/h"}, "flow": {"1.7 m3/h"}},
	"large-circulation": {"size": {"1 1/2 in"}, "measured-outside-diameter": {"48.3 mm"}, "count": {"#4", "#20"},
		"legs": {"right 240 mm|up 340 mm|left 1500 mm|up 220 mm"}, "ports-size": {"1 1/2 in"}},
	"plunge-pool": {"volume": {"4.8 m3"}, "size": {"50 mm"}, "measured-outside-diameter": {"50 mm"}, "air": {"2 °C", "15 °C"}, "length": {"5.5 m", "7.2 m", "260 mm", "650 mm"},
		"legs": {"right 280 mm|up 350 mm|left 1900 mm"}, "ports-size": {"50 mm"}, "set-point": {"30 °C"}},
	"plug-in": {"air": {"5 °C", "15 °C"}, "size": {"38 mm"}, "length": {"1.2 m", "1.2 m", "300 mm", "1.5 m", "1.1 m", "1.4 m"}, "ports-size": {"1 1/2 in"}, "least": {"0.9 m3/h"},
		"rated": {"1.5 m3/h"}, "most": {"3.2 m3/h"}, "flow": {"1.5 m3/h"}, "drop": {"4 kPa"}, "legs": {"front 360 mm|right 900 mm", "left 560 mm|back 120 mm"}},
}

var (
	templateComment = regexp.MustCompile(`(?m)#.*$`)
	templateBlank   = regexp.MustCompile(`([a-z.-]+) = \[?"\?"`)
)

// filledTemplate is a template with its blanks filled.
func filledTemplate(t *testing.T, name string) string {
	t.Helper()
	data, err := description.Template(name)
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]int{}
	return templateBlank.ReplaceAllStringFunc(templateComment.ReplaceAllString(string(data), ""), func(blank string) string {
		key := templateBlank.FindStringSubmatch(blank)[1]
		if strings.HasPrefix(key, "port.") && strings.HasSuffix(key, ".cover-rating") {
			key = "cover-rating"
		}
		list := templateAnswers[name][key]
		if list == nil {
			list = usual[key]
		}
		if list == nil {
			t.Fatalf("%s: nobody answers %s", name, key)
		}
		a := list[min(used[key], len(list)-1)]
		used[key]++
		if plain, ok := strings.CutPrefix(a, "#"); ok {
			return strings.Replace(blank, `"?"`, plain, 1)
		}
		return strings.Replace(blank, `"?"`, `"`+strings.ReplaceAll(a, "|", `", "`)+`"`, 1)
	})
}

// template is the circuit of a filled template.
func template(t *testing.T, name string) *graph.Circuit {
	t.Helper()
	return read(t, name+".toml", []byte(filledTemplate(t, name)))
}
