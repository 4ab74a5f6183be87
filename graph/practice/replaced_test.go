package practice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// What comes back in a new one of its kind is not told as gone for good, and water that the new one treats is not
// told as treated no more.
func TestReplacedIsNotGone(t *testing.T) {
	j := &Job{Out: []Out{{Name: "HP1 heat pump", Instead: "HP2 heat pump"}, {Name: "FD1 feeder", Treats: true, Instead: "FD2 feeder"}, {Name: "F1 filter"}}}
	said := strings.Join(Texts(Pick(j, TakenOut()), quantity.MetricSystem), "\n")
	for text, want := range map[string]bool{
		"Taken out and not put back: F1 filter.":                                              true,
		"Taken out and replaced: HP1 heat pump, by HP2 heat pump; FD1 feeder, by FD2 feeder.": true,
		"no longer treated": false,
	} {
		if strings.Contains(said, text) != want {
			t.Errorf("%q said: %t, want %t, in\n%s", text, !want, want, said)
		}
	}
}
