package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// banksText is a pump that drives two banks of jets.
const banksText = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "15 m"], ["20 m3/h", "9 m"], ["30 m3/h", "1 m"]]
[[part]]
id = "tee"
kind = "tee"
[[part]]
id = "backs"
kind = "jet-group"
count = 6
[[part]]
id = "feet"
kind = "jet-group"
count = 4
`

// Jets of two banks on one pump are one maker's: what they take of the head is one unknown, and
// moves both.
func TestBanksAreOneMakers(t *testing.T) {
	text := banksText
	for _, way := range []string{"tub.a pump.in", "pump.out tee.run-in", "tee.run-out backs.in", "tee.branch feet.in", "backs.out tub.b", "feet.out tub.c"} {
		from, to, _ := strings.Cut(way, " ")
		text += "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"1 m\"\n"
	}
	read, ds := description.Read("banks.toml", []byte(text))
	if graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	c := read.At(graph.After)
	m, err := hydraulic.Build(laying.Of(c), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, u := range unknowns([]*hydraulic.Model{m}) {
		if !strings.Contains(u.what, "of the head") {
			continue
		}
		found++
		p := &hydraulic.Perturb{}
		u.set(m, p, 1.5)
		if backs, feet := p.Loss[m.PartAt["backs"]], p.Loss[m.PartAt["feet"]]; !agree.Within(backs, 1.5, 1e-12) || !agree.Within(feet, 1.5, 1e-12) {
			t.Errorf("%s: backs %g, feet %g, want 1.5 both", u.what, backs, feet)
		}
	}
	if found != 1 {
		t.Errorf("%d unknowns of what the jets take, want 1", found)
	}
}
