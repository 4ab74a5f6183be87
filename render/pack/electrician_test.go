package pack

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
)

// The electrician's page says of the circuits what the file says: two units and a pump on one
// circuit have none of their own, whatever it is called; and what goes for every circuit is said
// once.
func TestCircuitsOnPaper(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "second-unit.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	supply := func(connection, feeds string) string {
		return "\n[[supply]]\nfeeds = [" + feeds + "]\nvoltage = \"230 V\"\nrating = \"32 A\"\nconnection = \"" + connection + "\"\n"
	}
	for _, c := range []struct {
		name, supplies string
		want, never    []string
	}{
		{"one for all", supply("own-circuit", `"unit-1", "unit-2", "pump"`),
			[]string{"HP1, HP2 and P1 hang on one circuit of 32 A"}, []string{"has a circuit of its own", "On each circuit"}},
		{"a circuit each", supply("own-circuit", `"unit-1"`) + supply("own-circuit", `"unit-2"`),
			[]string{"Each unit, HP1 and HP2, has a circuit of its own", "On each circuit: the dip at a start"}, []string{"hang on"}},
		{"nothing said", "", []string{"Each unit, HP1 and HP2, wants a circuit of its own"}, []string{"has a circuit of its own", "hang on"}},
	} {
		p := wanted(t, file, append([]byte(nil), append(source, c.supplies...)...), plan.Findings|plan.Flows|plan.Heat)
		text := wordsOf(electrician(p, factsOf(p, quantity.MetricSystem)))
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: nothing of %q in\n%s", c.name, want, text)
			}
		}
		for _, never := range c.never {
			if strings.Contains(text, never) {
				t.Errorf("%s: %q in\n%s", c.name, never, text)
			}
		}
		if n := strings.Count(strings.ToLower(text), "the dip at a start is not judged"); n > 1 {
			t.Errorf("%s: said %d times that the dip is not judged", c.name, n)
		}
	}
}

// A job that takes the unit out says on the electrician's page too what draws what from then on.
func TestWhatStaysOnTheSupply(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "unit-out.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Heat)
	if text := wordsOf(electrician(p, factsOf(p, quantity.MetricSystem))); !strings.Contains(text, "P1 pump: ") || !strings.Contains(text, "by the local code; standards") || strings.Contains(text, "Full load of the unit") {
		t.Error(text)
	}
}

// What nobody gave of a unit is no empty cell: it says whose it is to fill in. The plate of two-speed's
// unit is given by its full load alone (its file).
func TestWhatIsNotGivenSaysWhoFillsItIn(t *testing.T) {
	p := demoPlan(t, "two-speed")
	if text := wordsOf(electrician(p, factsOf(p, quantity.MetricSystem))); !strings.Contains(text, "Fuse or breaker of the unit | not given: the electrician fills it in") || !strings.Contains(text, "Circuit of HP1 heat pump: 14.8 A running, 74 A for a moment") {
		t.Error(text)
	}
}

// What the description says of the unit's circuit stands in the electrician's form, and where what
// runs heaviest is not what starts heaviest, both are named.
func TestSupplyOnPaper(t *testing.T) {
	for name, want := range map[string]string{
		"circulation": "P1 pump, E1 element heater, P2 pump and HP1 heat pump run together: 24.2 A in all, and 56.8 A for the moment in which one of them starts while the rest runs.",
		"two-speed":   "Supply of the unit | 230 V, its circuit rated 20 A, cable of 2.5 mm2, 14 m long | \n",
		"plug-in":     "to be disconnected and made safe, or its heating switched off at the keypad; proved by", // as its section on heating says
		"plunge-pool": "P1 pump (day) and E1 element heater run together: 30.2 A in all. The most for a moment is 55.1 A: P1 pump (day) and HP1 heat pump, one of them starting while the rest runs.",
	} {
		p := demoPlan(t, name)
		if text := wordsOf(electrician(p, factsOf(p, quantity.MetricSystem))); !strings.Contains(text, want) {
			t.Errorf("%s: nothing of %q in\n%s", name, want, text)
		}
	}
}
