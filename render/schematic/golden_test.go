package schematic

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/golden"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
	"dryfit/render/sheet"
)

// a3 takes the largest example on fewer sheets.
var a3 = sheet.Page{Format: sheet.A3, Fixed: true}

// The example of every kind has one of each.
func TestEveryKindIsDrawn(t *testing.T) {
	c := read(t, "testdata/every-kind.toml")
	for _, k := range graph.Kinds() {
		if len(c.OfKind(k)) == 0 {
			t.Errorf("testdata/every-kind.toml has no %s", k)
		}
	}
}

// The examples of this folder are drawn to the same bytes every time. Look at a golden file
// before it is committed.
func TestGoldenDrawings(t *testing.T) {
	files, err := filepath.Glob("testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples (%v)", err)
	}
	kept := golden.In(t, "testdata/*.svg", differ.Picture)
	for i, file := range files {
		page := sheet.Page{}
		if filepath.Base(file) == "every-kind.toml" {
			page = a3
		}
		pages := Draw(Input{Circuit: read(t, file), Page: page})
		for k, one := range pages {
			got := scene.SVG(one)
			if i == 0 { // nothing of the first time is left over
				if again := scene.SVG(Draw(Input{Circuit: read(t, file), Page: page})[k]); !bytes.Equal(got, again) {
					t.Errorf("%s: drawn differently the second time", file)
				}
			}
			name := strings.TrimSuffix(file, ".toml")
			if k > 0 {
				name += fmt.Sprintf("-%d", k+1)
			}
			kept.Is(name+".svg", got)
		}
	}
}
