package rule

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/settle"
)

// A limit that nobody gave is told as the guess it is, and what to read is said before what to change;
// one that the description or a row of the user's gives is told as it stands.
func TestGuessedLimitsAreToldAsGuesses(t *testing.T) {
	for _, c := range []struct {
		how   settle.How
		row   string
		guess bool
	}{
		{settle.Given, "", false},
		{settle.OwnRow, "my element", false},
		{settle.Row, "heat-pump 9 kW", true},
		{settle.Assumed, "element-heater", true},
	} {
		limit := settle.Value{V: 1, Known: true, Origin: settle.Origin{How: c.how, Row: c.row}}
		words := byRow(limit).In(quantity.MetricSystem)
		hint := sheetFirst(limit, "least-flow", "a weaker spring").In(quantity.MetricSystem)
		if got := strings.Contains(words, c.row) && words != ""; got != c.guess {
			t.Errorf("%s: the limit is told with %q", c.how, words)
		}
		if got := strings.HasPrefix(hint, "read it"); got != c.guess || !strings.HasSuffix(hint, "a weaker spring") {
			t.Errorf("%s: the hint is %q", c.how, hint)
		}
	}
}
