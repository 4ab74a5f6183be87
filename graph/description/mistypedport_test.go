package description

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/lots"
)

// portSaid is a port where it is named: as an end of a run, a place that is counted from, one that was
// read, or in the list of a part's ports.
var (
	portSaid  = regexp.MustCompile(`^(?:from|to|at-from|at) = "[\w-]+\.([\w-]+)"|adaptors-kept = \["[\w-]+\.([\w-]+)"`)
	idSaid    = regexp.MustCompile(`^id = "([\w-]+)"|^(?:from|to|at-from|at) = "([\w-]+)\.[\w-]+"`)
	portNamed = regexp.MustCompile(`^ports = \[.*\]`)
	oneText   = regexp.MustCompile(`"([\w-]+)"`)
	portTable = regexp.MustCompile(`^port\.([\w-]+)[ .]`)
)

// A port, or the id of a part or run, mistyped by its last letter is one finding that says which was
// meant, wherever it is named: where it is called so itself, all that names it is told as one.
func TestEveryPortMistyped(t *testing.T) {
	files := demos(t)
	files["everything.toml"] = []byte(everything)
	cases := 0
	for name, data := range files {
		if !lots.Named(name, "everything.toml", "circulation.toml") {
			continue
		}
		lines := strings.Split(string(data), "\n")
		for i, l := range lines {
			var spots [][2]int
			for _, re := range []*regexp.Regexp{portSaid, portTable, idSaid} {
				if m := re.FindStringSubmatchIndex(l); m != nil {
					for k := 2; k < len(m); k += 2 {
						if m[k] >= 0 {
							spots = append(spots, [2]int{m[k], m[k+1]})
						}
					}
				}
			}
			if at := portNamed.FindStringIndex(l); at != nil {
				for _, m := range oneText.FindAllStringSubmatchIndex(l[:at[1]], -1) {
					spots = append(spots, [2]int{m[2], m[3]})
				}
			}
			for _, s := range spots {
				cases++
				changed := append([]string(nil), lines...)
				changed[i] = l[:s[1]] + "x" + l[s[1]:]
				c, ds := Read(name, []byte(strings.Join(changed, "\n")))
				where := fmt.Sprintf("%s:%d: %sx", name, i+1, l[s[0]:s[1]])
				switch {
				case c != nil && strings.HasPrefix(l, "id"): // nothing else names it
				case c != nil || len(ds) == 0:
					t.Errorf("%s is read", where)
				case len(ds) > 1:
					t.Errorf("%s: %s", where, messagesOf(ds))
				case !strings.Contains(string(ds[0].Hint), l[s[0]:s[1]]):
					t.Errorf("%s: %s, hint %q", where, messagesOf(ds), ds[0].Hint)
				}
			}
		}
	}
	if cases < 150 {
		t.Errorf("only %d cases", cases)
	}
}
