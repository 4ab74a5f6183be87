package description

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// The watts and the hours of a pump whose row has several speeds, written as if it had one: what the hint
// says to write, put in their place, reads, with the watts at the fast speed and the hours at the slow one.
func TestSpeedsOfARowAsToldAreRead(t *testing.T) {
	for _, c := range []struct {
		keys         string
		watts, hours float64
	}{{`hours-a-day = 8`, 0, 8}, {`power = "1.1 kW"`, 1100, 0}, {"power = \"1.1 kW\"\nhours-a-day = 8", 1100, 8}} {
		text := func(keys string) []byte { return aPumpWith("type = \"pool-pump-variable\"\n" + keys) }
		hint := ""
		_, ds := Read("pump.toml", text(c.keys))
		for _, d := range ds {
			if strings.Contains(d.Message.In(quantity.MetricSystem), "speeds for its 1") {
				hint = d.Hint.In(quantity.MetricSystem)
			}
		}
		told := regexp.MustCompile(`speeds = \[.*?\}\]`).FindString(hint)
		if told == "" {
			t.Errorf("%s: %q", c.keys, hint)
			continue
		}
		read, ds := Read("pump.toml", text(told))
		if read == nil || graph.HasErrors(ds) {
			t.Errorf("%s: %s: %v", c.keys, told, ds)
			continue
		}
		speeds := read.Part("pump").Pump.Speeds
		if len(speeds) != 3 || c.watts > 0 && speeds[2].PowerW != c.watts || speeds[0].HoursADay.V != c.hours || speeds[2].HoursADay.Set {
			t.Errorf("%s: %s is read as %+v", c.keys, told, speeds)
		}
	}
}
