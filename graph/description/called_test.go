package description

import (
	"strings"
	"testing"
)

// What the trade calls a kind of part, an earthing or a region besides is told the word that is read: no
// letters would tell it. Each hint is followed, and reads.
func TestOtherNamesAreToldTheirWord(t *testing.T) {
	const job = "[job]\nname = \"x\"\n[site]\nregion = \"REGION\"\nearthing = \"EARTH\"\n[[part]]\nid = \"a\"\nexisting = true\nkind = \"KIND\"\n"
	right := map[string]string{"REGION": "uk", "EARTH": "tt", "KIND": "union"}
	for _, c := range []struct{ key, said, word string }{
		{"KIND", "Spa", "tub"}, {"KIND", "hot tub", "tub"}, {"KIND", "jets", "jet-group"}, {"KIND", "cartridge", "filter"}, {"KIND", "ozonator", "ozone-injector"}, {"KIND", "boiler", "heat-exchanger"}, {"KIND", "chiller", "heat-pump"}, {"KIND", "non-return valve", "check-valve"}, {"KIND", "heater", "element-heater"},
		{"EARTH", "PME", "tn-c-s"}, {"EARTH", "earth rod", "tt"}, {"EARTH", "TNS", "tn-s"}, {"REGION", "USA", "us"}, {"REGION", "GB", "uk"}, {"REGION", "UK", "uk"},
	} {
		told := func(said string) string {
			text := strings.Replace(job, c.key, said, 1)
			for key, word := range right {
				text = strings.Replace(text, key, word, 1)
			}
			_, ds := Read("job.toml", []byte(text))
			for _, d := range ds {
				if strings.Contains(string(d.Message), "can't be") || strings.Contains(string(d.Message), "no kind of part") {
					return string(d.Hint)
				}
			}
			return ""
		}
		if hint := told(c.said); !strings.Contains(hint, `"`+c.word+`"`) || strings.Contains(hint, ",") {
			t.Errorf("%s %q: %q, want %q", c.key, c.said, hint, c.word)
		}
		if hint := told(c.word); hint != "" {
			t.Errorf("%s %q, followed: %q", c.key, c.word, hint)
		}
	}
}

// What is written as the trade writes it, inches by any mark, a minus apart from its number, a direction in
// short or drawn out, is told how it is read.
func TestWrittenAsTheTradeWritesIt(t *testing.T) {
	for _, c := range []struct{ line, hint string }{
		{"size = \"2”\"", `write "2 in"`}, {"size = \"1 1/2″\"", `write "1-1/2 in"`}, {"size = \"2''\"", `write "2 in"`}, {`size = "2\""`, `write "2 in"`},
		{`air = "- 6 °C"`, `write "-6 °C"`},
		{`legs = ["r 40 mm"]`, `"right"`}, {`legs = ["upwards 40 mm"]`, `"up"`}, {`legs = ["Forwards 40 mm"]`, `"front"`}, {`legs = ["backward 40 mm"]`, `"back"`}, {`legs = ["north 40 mm"]`, "there are left, right"},
	} {
		table := map[string]string{"size": "[pipe]\n", "air": "[site]\n", "legs": "[[run]]\nfrom = \"a.out\"\nto = \"b.in\"\nexisting = true\n"}[strings.Fields(c.line)[0]]
		_, ds := Read("job.toml", []byte("[job]\nname = \"x\"\n"+table+c.line+"\n"))
		said := ""
		for _, d := range ds {
			said += string(d.Hint) + "\n"
		}
		if !strings.Contains(said, c.hint) {
			t.Errorf("%s: %q, want %q", c.line, said, c.hint)
		}
	}
}
