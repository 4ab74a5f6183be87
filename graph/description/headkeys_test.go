package description

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/meaning"
)

// carriers write a key of a table where it belongs; %s is "key = value".
var carriers = map[string]string{
	"":                                    "%s\n",
	"box":                                 "[[part]]\nid = \"x\"\nkind = \"filter\"\nbox = { %s }\n",
	"port":                                "[[part]]\nid = \"x\"\nkind = \"filter\"\nport.out = { %s }\n",
	"speed":                               "[[part]]\nid = \"x\"\nkind = \"pump\"\nspeeds = [{ %s }]\n",
	"the flow of the unit":                "[[part]]\nid = \"x\"\nkind = \"heat-pump\"\nflow = { %s }\n",
	"the room round the unit":             "[[part]]\nid = \"x\"\nkind = \"heat-pump\"\nclearances = { %s }\n",
	"the label of the unit":               "[[part]]\nid = \"x\"\nkind = \"heat-pump\"\nelectric = { %s }\n",
	"rating":                              "[[part]]\nid = \"x\"\nkind = \"heat-pump\"\nratings = [{ %s }]\n",
	"rated":                               "[[part]]\nid = \"x\"\nkind = \"jet-group\"\nrated = { %s }\n",
	"loss":                                "[[part]]\nid = \"x\"\nkind = \"filter\"\nloss = { %s }\n",
	"leg":                                 "[[run]]\nfrom = \"a.out\"\nto = \"b.in\"\nlegs = [{ %s }]\n",
	"fittings":                            "[[run]]\nfrom = \"a.out\"\nto = \"b.in\"\nlength = \"1 m\"\nfittings = { %s }\n",
	"cut":                                 "[retrofit]\nunit = \"x\"\ncut = { %s }\n",
	"keep-clear":                          "[retrofit]\nunit = \"x\"\nkeep-clear = [{ %s }]\n",
	"price":                               "[prices]\ntee = { %s }\n",
	"the fall of the water's temperature": "[heat-loss]\nfall = { %s }\n",
	"the standing loss":                   "[heat-loss]\nstanding = { %s }\n",
	"band":                                "[tariff]\nprice = \"0.3\"\nbands = [{ %s }]\n",
	"the cable":                           "[[supply]]\ncable = { %s }\n",
	"row":                                 "[[catalog.filter]]\nname = \"mine\"\n%s\n",
	"valve":                               "[[part]]\nid = \"x\"\nkind = \"ball-valve\"\n%s\n",
	"manifold":                            "[[part]]\nid = \"x\"\nkind = \"manifold\"\n%s\n",
}

// listed are the tables that a description has several of.
var listed = []string{"run", "mode", "stock", "accept", "reading", "supply"}

// headKeys are the keys that take a head as well as a pressure, each with the case of
// TestOneDoorForHeads that feeds it in both.
var headKeys = map[string]string{
	"part.highest-pressure": "highest-pressure",
	"check-valve.cracking":  "cracking",
	"loss.drop":             "loss drop",
	"loss.points":           "loss points",
	"rated.drop":            "jets rated",
	"pump.curve":            "curve",
	"speed.curve":           "speeds curve",
	"pump.npsh":             "npsh",
	"retrofit.spring":       "spring",
	"reading.pressure":      "reading",
	"reading.plus-minus":    "reading off",
	"row.cracking":          "row cracking",
	"row.cracking-low":      "row cracking-low",
	"row.cracking-high":     "row cracking-high",
	"row.loss-drop":         "row loss-drop",
	"row.loss-low":          "row loss-low",
	"row.loss-high":         "row loss-high",
	"row.rating":            "row rating",
	"row.curve":             "row curve",
}

// Every key a description may have is asked for a mass, which none of these takes: what it says
// then of the units that fit shows which keys take a head as well as a pressure. They are those of
// which one door is tried.
func TestEveryKeyOfHeadsIsTried(t *testing.T) {
	found := map[string]bool{}
	for table, keys := range meaning.Tables() {
		for _, key := range keys {
			refused, tries := "", 0
			for _, carrier := range carriersOf(table) {
				for _, value := range []string{`"1.5 kg"`, `[["1 m3/h", "1.5 kg"], ["2 m3/h", "1.5 kg"]]`} {
					no, head := asked(carrier, key, value)
					found[table+"."+key] = found[table+"."+key] || head
					if no != "" {
						refused = no
						continue
					}
					tries++
				}
			}
			if tries == 0 {
				t.Errorf("nothing that carries %q of [%s]: %s", key, table, refused)
			}
		}
	}
	for key, takes := range found {
		if takes && headKeys[key] == "" {
			t.Errorf("%s takes a head as well as a pressure: add it to TestOneDoorForHeads", key)
		}
	}
	for key, name := range headKeys {
		if !found[key] {
			t.Errorf("%s, said to be tried as %q, takes no head", key, name)
		}
		if _, ok := doors[name]; !ok {
			t.Errorf("%s: no case %q", key, name)
		}
	}
}

// carriersOf are the descriptions in which a key of a table may stand; of a key that parts have,
// parts of every kind.
func carriersOf(table string) []string {
	part := func(kind graph.Kind) string {
		return fmt.Sprintf("[[part]]\nid = \"x\"\nkind = %q\n", kind) + "%s\n"
	}
	switch {
	case carriers[table] != "":
		return []string{carriers[table]}
	case table == "part":
		var all []string
		for _, kind := range graph.Kinds() {
			all = append(all, part(kind))
		}
		return all
	case slices.Contains(graph.Kinds(), graph.Kind(table)):
		return []string{part(graph.Kind(table))}
	case slices.Contains(listed, table):
		return []string{"[[" + table + "]]\n%s\n"}
	}
	return []string{"[" + table + "]\n%s\n"}
}

// asked writes a key with a value that nothing takes and returns why the key itself is refused there,
// "" where it is not, and whether heads and pressures are among what is wanted of it.
func asked(carrier, key, value string) (refused string, head bool) {
	_, ds := Read("keys.toml", fmt.Appendf(nil, carrier, key+" = "+value))
	for _, d := range ds {
		message, hint := d.Message.In(0), d.Hint.In(0)
		switch {
		case strings.Contains(message, "has no table"), strings.Contains(message, fmt.Sprintf("has no %q", key)):
			return message, false
		case strings.Contains(message, `"1.5 kg"`) && strings.Contains(hint, " kPa,") && strings.Contains(hint, " ft"):
			head = true
		}
	}
	return "", head
}

// TestSeveral holds the tables of which a head in one bracket is told that it wants two against those that
// are read as lists.
func TestSeveral(t *testing.T) {
	var want []string
	for _, table := range topTables {
		if table.list {
			want = append(want, table.name)
		}
	}
	got := located.Several()
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("several may stand of %v, read as lists are %v", got, want)
	}
}
