package description

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// TestWaysOfHintsAreInItsUnits reads every wrong file as one in inches: a way that a hint gives as an example is
// in inches too, unless the file itself has it.
func TestWaysOfHintsAreInItsUnits(t *testing.T) {
	way := regexp.MustCompile(`"(?:left|right|up|down|front|back) (\d+)[^"]*mm"`)
	files, err := filepath.Glob("testdata/wrong/*.toml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d wrong files (%v), want at least 20", len(files), err)
	}
	seen := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		switch {
		case strings.Contains(text, `units = "metric"`):
			text = strings.Replace(text, `units = "metric"`, `units = "inch"`, 1)
		case strings.Contains(text, "[job]\n"):
			text = strings.Replace(text, "[job]\n", "[job]\nunits = \"inch\"\n", 1)
		default:
			text += "\n[job]\nunits = \"inch\"\n"
		}
		_, ds := Read(filepath.Base(file), []byte(text))
		for _, d := range ds {
			hint := d.Hint.In(quantity.InchSystem)
			seen += strings.Count(hint, " in\"")
			for _, w := range way.FindAllStringSubmatch(hint, -1) {
				if !strings.Contains(text, w[1]) { // its own, written right
					t.Errorf("%s: %s in %s", file, w[0], hint)
				}
			}
		}
	}
	if seen < 20 {
		t.Errorf("%d inches in all hints", seen)
	}
}
