package description_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/description"
)

// A part of the old work whose existing = true was forgotten is one finding, at its id: of every
// such part between whole runs of the demos whose work is planned.
func TestForgottenExisting(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	head := regexp.MustCompile(`\[\[part\]\]\nid = "([^"]*)"\nkind = "[^"]*"\nexisting = true\n`)
	tried := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		if !strings.Contains(text, "[retrofit]") || strings.Contains(text, "remains-of") || strings.Contains(text, "removed = true") {
			continue
		}
		for _, at := range head.FindAllStringSubmatchIndex(text, -1) {
			id := text[at[2]:at[3]]
			if strings.Count(text, `"`+id+`.`) < 2 { // at the end of a run known by its length alone
				continue
			}
			tried++
			wrong := text[:at[0]] + strings.Replace(text[at[0]:at[1]], "existing = true\n", "", 1) + text[at[1]:]
			circuit, ds := description.Read(file, []byte(wrong))
			line := strings.Count(text[:at[2]], "\n") + 1
			if circuit != nil || len(ds) != 1 || ds[0].Pos.Line != line || !strings.HasPrefix(ds[0].Message.In(0), `"`+id+`" is not said to exist`) || !strings.Contains(ds[0].Hint.In(0), "existing = true") {
				t.Errorf("%s: %s, line %d: %v", file, id, line, ds)
			}
		}
	}
	if tried < 10 {
		t.Errorf("%d parts tried: too few", tried)
	}
}

// A cabinet counted from a part that is not there yet is told where nothing is planned.
func TestCabinetCountedFromNewPart(t *testing.T) {
	_, ds := description.Read("cabinet.toml", []byte(`
[cabinet]
at-from = "filter.in"
from = ["left 200 mm", "down 700 mm", "front 600 mm"]
to = ["right 1900 mm", "up 150 mm", "back 100 mm"]
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "filter"
kind = "filter"
[[run]]
from = "tub.a"
to = "filter.in"
existing = true
length = "500 mm"
[[run]]
from = "filter.out"
to = "tub.b"
existing = true
length = "500 mm"
`))
	if len(ds) != 1 || !strings.Contains(ds[0].Message.In(0), "is new work") || ds[0].Pos.Line != 3 {
		t.Error(ds)
	}
}
