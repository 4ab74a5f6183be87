package settle_test

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// otherUnits are units and what one of each is in another.
//
// Source: the definitions of inch, gallon, pound and horsepower in NIST SP 811 (2008), B.8 (from memory).
var otherUnits = []struct {
	from, to string
	times    float64
}{
	{"m3/h", "gpm", 1 / (60 * 3.785411784e-3)}, {"l/min", "l/s", 1.0 / 60}, {"kPa", "psi", 1 / 6.894757293168361}, {"bar", "mbar", 1000},
	{"kW", "Btu/h", 3412.141633127942}, {"cm", "ft", 1 / 30.48}, {"mm", "cm", 0.1}, {"l", "gal", 1 / 3.785411784},
	{"m", "ft", 1 / 0.3048},
}

// A description in other units settles every value as it was: of the demos, whose quantities between them are of
// every kind a circuit has. Sizes of pipe are names, and stay.
func TestSettledInAnyUnit(t *testing.T) {
	turned := 0
	for _, name := range []string{"two-speed", "plunge-pool", "large-circulation"} {
		data, err := os.ReadFile("../../testdata/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for _, u := range otherUnits {
			amount := regexp.MustCompile(`("(?:[a-z]+ )?)(\d+(?:\.\d+)?) ` + regexp.QuoteMeta(u.from) + `"`)
			sizes := regexp.MustCompile(`(?m)^(size|ports-size) = .*$|(?s)measured-outside-diameter = "[^"]*"`)
			keep := sizes.FindAllString(text, -1)
			text = amount.ReplaceAllStringFunc(text, func(s string) string {
				m := amount.FindStringSubmatch(s)
				v, err := strconv.ParseFloat(m[2], 64)
				if err != nil {
					t.Fatal(err)
				}
				turned++
				return fmt.Sprintf(`%s%.14g %s"`, m[1], v*u.times, u.to)
			})
			n := 0
			text = sizes.ReplaceAllStringFunc(text, func(string) string { n++; return keep[n-1] })
		}
		was, now := valuesOf(t, string(data)), valuesOf(t, text)
		if len(was) != len(now) || len(was) < 50 {
			t.Errorf("%s: %d values, in other units %d", name, len(was), len(now))
		}
		for k, v := range was {
			if w, ok := now[k]; !ok || !agree.Within(w, v, 1e-9*max(1, v)) {
				t.Errorf("%s: %s of %s is %.12g in other units, was %.12g", name, k.What, k.Of, w, v)
			}
		}
	}
	if turned < 150 {
		t.Errorf("%d amounts were written in other units", turned)
	}
}

// valuesOf is every number that is settled of a description.
func valuesOf(t *testing.T, text string) map[settle.Key]float64 {
	t.Helper()
	c, ds := description.Read("job.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	out := map[settle.Key]float64{}
	for k, v := range settle.Of(c.At(graph.After)).Values() {
		if v.Dim != settle.Words {
			out[k] = v.V
		}
	}
	return out
}
