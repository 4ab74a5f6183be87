package description

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/golden"
)

// TestWrong reads files with mistakes and compares every message, byte for byte. The
// expected texts were read through by hand: each must tell a tradesman what to write.
func TestWrong(t *testing.T) {
	files, err := filepath.Glob("testdata/wrong/*.toml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d wrong files (%v), want at least 20", len(files), err)
	}
	kept := golden.In(t, "testdata/wrong/*.golden", nil)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			c, ds := Read(filepath.Base(file), data)
			if c != nil || len(ds) == 0 {
				t.Fatalf("read without an error")
			}
			checkPlaces(t, data, ds)
			got := located.Render(ds, map[string][]byte{filepath.Base(file): data}, quantity.MetricSystem, false)
			kept.Is(strings.TrimSuffix(file, ".toml")+".golden", []byte(got))
		})
	}
}

// checkPlaces fails where a finding has no place in the file, or no words.
func checkPlaces(t *testing.T, data []byte, ds []graph.Diagnostic) {
	t.Helper()
	lines := strings.Split(strings.TrimPrefix(string(data), "\xef\xbb\xbf"), "\n")
	inside := func(p graph.Pos) bool {
		return p.Line >= 1 && p.Line <= len(lines) && p.Column >= 1 && p.Column <= len([]rune(lines[p.Line-1]))+1
	}
	for _, d := range ds {
		if !inside(d.Pos) || d.Message == "" || d.Rule != located.Rule {
			t.Errorf("finding without a place in the file: %+v", d)
		}
		for _, r := range d.Related {
			if !inside(r.Pos) {
				t.Errorf("related place outside the file: %+v", r)
			}
		}
	}
}
