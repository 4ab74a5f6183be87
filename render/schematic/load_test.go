package schematic

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/retrofit"
	"dryfit/graph/route/laying"
	"dryfit/render/scene"
)

// read returns the circuit of a description.
func read(t testing.TB, file string) *graph.Circuit {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c, findings := description.Read(file, data)
	for _, f := range findings {
		if f.Severity == graph.Error {
			t.Fatalf("%s: %s", f.Pos, f.Message)
		}
	}
	if c.Catalog == nil {
		c.Catalog = catalog.Embedded()
	}
	return c
}

// built returns the circuit with the work asked for built in at the first place that can be
// had, by a spring check and by a valve.
func built(t testing.TB, c *graph.Circuit, bypass string) *graph.Circuit {
	t.Helper()
	before := c.At(graph.Before)
	lay := laying.Of(before)
	choice := retrofit.Choice{Bypass: bypass}
	if rows := c.Catalog.Springs(); bypass == "spring" && len(rows) > 0 {
		choice.Spring = rows[0].Name
	}
	for _, p := range retrofit.NewSite(before, lay).Places() {
		if p.Leg < 1 || c.Retrofit.Cut != nil && c.Retrofit.Cut.Run != p.Run {
			continue
		}
		if got, _ := retrofit.Build(c, lay, p, choice); got != nil {
			return got.Circuit
		}
	}
	t.Fatalf("%s: the work could not be built in anywhere", c.File)
	return nil
}

// drawn is a circuit the tests draw.
type drawn struct {
	name string
	in   Input
}

// pages returns what is drawn of it; each is drawn once for all tests.
func (d *drawn) pages() []*scene.Scene {
	if p, ok := alreadyDrawn[d.name]; ok {
		return p
	}
	p := Draw(d.in)
	alreadyDrawn[d.name] = p
	return p
}

var alreadyDrawn = map[string][]*scene.Scene{}

// everyDrawing lists the examples of this folder and the demos: as described, before the
// work with a cut marked, and with the work built in.
func everyDrawing(t testing.TB) []drawn {
	t.Helper()
	if listed == nil {
		listed = listDrawings(t)
	}
	return listed
}

// listed is what everyDrawing found the first time: none of the tests changes it.
var listed []drawn

func listDrawings(t testing.TB) []drawn {
	t.Helper()
	var out []drawn
	for _, pattern := range []string{"testdata/*.toml", "../../testdata/*.toml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("no descriptions at %s (%v)", pattern, err)
		}
		for _, file := range files {
			name := strings.TrimSuffix(filepath.Base(file), ".toml")
			c := read(t, file)
			out = append(out, drawn{name, Input{Circuit: c}})
			if c.Retrofit == nil {
				continue
			}
			var cuts []Cut
			for _, r := range c.Runs {
				if r.Existing && r.Named && len(cuts) == 0 {
					cuts = []Cut{{Run: r.ID, Name: "X1"}, {Run: r.ID, Name: "X2"}}
				}
			}
			out = append(out, drawn{name + " before", Input{Circuit: c, Stage: graph.Before, Cuts: cuts}},
				drawn{name + " with spring", Input{Circuit: built(t, c, "spring")}},
				drawn{name + " with valve", Input{Circuit: built(t, c, "valve")}})
		}
	}
	return out
}
