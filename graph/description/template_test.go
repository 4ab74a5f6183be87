package description

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// blankAnswers fill the blanks of each template in the order they stand, with invented
// answers.
var blankAnswers = map[string][]string{
	"two-speed": {
		"A tub", "1250 l", "2 in", "60.3 mm", "pvc-u", "-6 °C", "eu", "tn-s", "34 m3/h", "hours", "#true", "#16", "830 mm",
		"240 mm", "520 mm", "440 mm", "160 mm", "45 mm", "right 120 mm|up 260 mm|left 1450 mm|up 150 mm", "1 1/2 in",
		"2.8 m3/h", "4.2 m3/h", "8.4 m3/h", "4.2 m3/h", "6 kPa", "3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW", "230 V", "14 A",
		"38 °C", "-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"one-speed": {
		"A tub", "1250 l", "2 in", "60.3 mm", "pvc-u", "-6 °C", "eu", "tn-s", "34 m3/h", "hours", "#true", "#16", "830 mm",
		"240 mm", "520 mm", "440 mm", "160 mm", "45 mm", "right 120 mm|up 260 mm|left 1450 mm|up 150 mm", "1 1/2 in",
		"2.8 m3/h", "4.2 m3/h", "8.4 m3/h", "4.2 m3/h", "6 kPa", "3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW", "230 V", "14 A",
		"38 °C", "-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"circulation": {
		"A tub", "980 l", "1 in", "33.4 mm", "abs", "-6 °C", "eu", "tn-s", "34 m3/h", "34 m3/h", "34 m3/h", "#false", "700 mm",
		"500 mm", "300 mm", "360 mm", "30 mm", "right 1150 mm|down 180 mm|back 200 mm", "#18", "600 mm", "950 mm", "350 mm",
		"1.8 m", "1 in", "1.1 m3/h", "1.7 m3/h", "3.4 m3/h", "1.7 m3/h", "5 kPa", "3 bar", "up 240 mm", "15 °C", "38 °C",
		"11 kW", "2.8 kW", "230 V", "14 A", "38 °C", "-12 °C", "40 °C", "#false", "#true", "R32", "slab", "2.4 m",
		"front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"large-circulation": {
		"A tub", "1450 l", "1 1/2 in", "48.3 mm", "pvc-u", "-6 °C", "eu", "tn-s", "34 m3/h", "34 m3/h", "34 m3/h", "#true",
		"#4", "900 mm", "220 mm", "400 mm", "390 mm", "150 mm", "40 mm", "right 140 mm|up 240 mm|left 1300 mm|up 120 mm",
		"#20", "700 mm", "1.1 m", "400 mm", "2.1 m", "1 1/2 in", "2.2 m3/h", "3.2 m3/h", "6.4 m3/h", "3.2 m3/h", "7 kPa",
		"3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW", "230 V", "14 A", "38 °C", "-12 °C", "40 °C", "#true", "#true", "R32",
		"slab", "2.4 m", "front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"plunge-pool": {
		"A pool", "4.8 m3", "30 °C", "50 mm", "50 mm", "pvc-u", "2 °C", "eu", "tn-s", "34 m3/h", "hours", "5.5 m", "7.2 m",
		"260 mm", "650 mm", "60 mm", "right 180 mm|up 350 mm|left 1500 mm", "220 mm", "4.8 m", "7.6 m", "50 mm", "2.3 m3/h",
		"3.4 m3/h", "7.5 m3/h", "3.4 m3/h", "6 kPa", "3.5 bar", "up 240 mm", "15 °C", "38 °C", "11 kW", "2.8 kW", "230 V", "14 A", "30 °C",
		"-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "front 540 mm|right 2300 mm|down 330 mm", "left",
	},
	"plug-in": {
		"A tub", "830 l", "5 °C", "eu", "tn-s", "34 m3/h", "34 m3/h", "hours", "#true", "38 mm", "1.2 m", "38 mm", "1.2 m",
		"38 mm", "300 mm", "38 mm", "1.5 m", "1 1/2 in", "0.9 m3/h", "1.5 m3/h", "3.2 m3/h", "1.5 m3/h", "4 kPa", "2.5 bar",
		"15 °C", "38 °C", "11 kW", "2.8 kW", "230 V", "14 A", "38 °C", "-12 °C", "40 °C", "#true", "#true", "R32", "slab", "2.4 m", "38 mm",
		"1.1 m", "38 mm", "1.4 m", "front 360 mm|right 900 mm", "left 560 mm|back 120 mm",
	},
}

var (
	comment = regexp.MustCompile(`(?m)#.*$`)
	blankOf = regexp.MustCompile(`"\?"`)
)

// fill puts the answers where the blanks are; | parts the elements of a list and # marks a
// bare number.
func fill(text string, answers []string) string {
	return blankOf.ReplaceAllStringFunc(text, func(string) string {
		if len(answers) == 0 {
			return `"?"`
		}
		a := answers[0]
		answers = answers[1:]
		if n, ok := strings.CutPrefix(a, "#"); ok {
			return n
		}
		return `"` + strings.ReplaceAll(a, "|", `", "`) + `"`
	})
}

func TestTemplates(t *testing.T) {
	if len(Templates()) != 6 {
		t.Fatalf("%d templates, want one for each of the six circuits", len(Templates()))
	}
	for _, name := range Templates() {
		t.Run(name, func(t *testing.T) {
			data, err := Template(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, key := range []string{"reference", "prepared-by", "date"} {
				if !strings.Contains(string(data), "\n# "+key+" = ") {
					t.Errorf("the template does not offer %s", key)
				}
			}
			offered := strings.NewReplacer("\n# reference", "\nreference", "\n# prepared-by", "\nprepared-by", "\n# date", "\ndate").Replace(string(data))
			if _, ds := Read(name, []byte(offered)); len(ds) != len(blankOf.FindAllString(comment.ReplaceAllString(offered, ""), -1)) {
				t.Errorf("what the template offers does not read: %v", ds)
			}
			bare := comment.ReplaceAllString(string(data), "")
			blanks := len(blankOf.FindAllString(bare, -1))
			c, ds := Read(name, data)
			if c != nil || len(ds) != blanks {
				t.Errorf("%d findings for %d blanks", len(ds), blanks)
			}
			for _, d := range ds {
				if !strings.Contains(d.Message.String(), "still blank") || !strings.HasPrefix(d.Hint.String(), "write ") {
					t.Errorf("a blank is reported as %q, hint %q", d.Message, d.Hint)
				}
			}
			if n := len(blankAnswers[name]); n != blanks {
				t.Fatalf("%d answers for %d blanks", n, blanks)
			}
			text := fill(bare, blankAnswers[name])
			c, ds = Read(name, []byte(text))
			if c == nil {
				t.Fatalf("not clean once filled:\n%s", located.Render(ds, map[string][]byte{name: []byte(text)}, quantity.MetricSystem, false))
			}
			if len(c.OfKind(graph.HeatPump)) != 1 || len(c.OfKind(graph.Tub)) != 1 {
				t.Error("a template has one tub and one unit")
			}
			for _, r := range c.Runs { // pipe that is drawn says itself that it runs outdoors, where a unit stands
				if unit := c.OfKind(graph.HeatPump)[0].ID; c.Retrofit == nil && (r.From.Part == unit || r.To.Part == unit) && !(r.Outside && r.Insulated) {
					t.Errorf("the pipe %s to %s of the unit freezes", r.From, r.To)
				}
			}
			roundTrip(t, c)
		})
	}
	if _, err := Template("sauna"); err == nil {
		t.Error("a template nobody wrote was found")
	}
}
