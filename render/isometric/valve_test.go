package isometric

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/render/isometric/picture"
	"dryfit/render/scene"
)

// The pipe up to the sign of a valve in line is drawn as the pipe that comes there: a new valve that is cut
// into old pipe on one side has thin pipe there, and the new thick pipe ends at its sign. It went on past the
// cut, as long as the valve is longer than its sign.
func TestOldPipeAtANewValveIsThin(t *testing.T) {
	const text = `
[job]
name = "valve"
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a"]
[[part]]
id = "v"
kind = "ball-valve"
length = "103 mm"
[[part]]
id = "end"
kind = "cap"
[[run]]
id = "old"
from = "tub.a"
to = "v.in"
existing = true
legs = ["up 300 mm", "right 600 mm"]
[[run]]
id = "new"
from = "v.out"
to = "end.in"
legs = ["right 600 mm", "back 500 mm"]
`
	c, ds := description.Read("valve.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	lay := laying.Of(c.At(graph.After))
	pens := map[float64]int{}
	for _, page := range Draw(Input{Layout: lay, Assembly: route.Assemble(lay)}) {
		for _, it := range page.Items {
			if s, ok := it.(scene.Shape); ok && strings.HasPrefix(s.Name, "part:v") {
				pens[s.Style.StrokeMM]++
			}
		}
	}
	if len(pens) != 2 || pens[picture.PenNew] != 1 || pens[picture.PenOld] != 1 || agree.Within(picture.PenNew, picture.PenOld, 0.1) {
		t.Errorf("pens of the pipe up to the valve: %v, want one of %g and one of %g", pens, picture.PenOld, picture.PenNew)
	}
}
