package schematic

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"dryfit/render/scene"
	"dryfit/render/sheet"
)

var update = flag.Bool("update", false, "rewrite golden files")

// a3 takes the largest example on fewer sheets.
var a3 = sheet.Page{Format: sheet.A3, Fixed: true}

// The examples of this folder are drawn to the same bytes every time. Look at a golden file
// before it is committed.
func TestGoldenDrawings(t *testing.T) {
	files, err := filepath.Glob("testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples (%v)", err)
	}
	want := map[string]bool{}
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
			golden := file[:len(file)-len(".toml")] + ".svg"
			if k > 0 {
				golden = fmt.Sprintf("%s-%d.svg", file[:len(file)-len(".toml")], k+1)
			}
			want[golden] = true
			if *update {
				if err := os.WriteFile(golden, got, 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			old, err := os.ReadFile(golden)
			if err != nil {
				t.Error(err)
				continue
			}
			if !bytes.Equal(got, old) {
				t.Errorf("%s differs; run with -update and look at it", golden)
			}
		}
	}
	goldens, _ := filepath.Glob("testdata/*.svg")
	for _, g := range goldens {
		if !want[g] {
			t.Errorf("%s belongs to no example", g)
		}
	}
}
