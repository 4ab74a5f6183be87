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
