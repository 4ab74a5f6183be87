package description

import (
	"os"
	"strings"
	"testing"
)

// A box that ends where its ports look, or no deeper than a sunk nut, is nobody's mistake; one
// past them is, whichever way they look. Worked out by hand from the corners.
func TestBoxBehindPorts(t *testing.T) {
	for _, one := range []struct {
		faces, from, to string
		wrong           string
	}{
		{"left", `["front 300 mm", "down 300 mm"]`, `["right 500 mm", "back 400 mm", "up 600 mm"]`, ""},
		{"left", `["left 60 mm", "front 300 mm", "down 300 mm"]`, `["right 500 mm", "back 400 mm", "up 600 mm"]`, ""},
		{"right", `["front 300 mm", "down 300 mm"]`, `["right 500 mm", "back 400 mm", "up 600 mm"]`, "port in faces right, and 500 mm of its box"},
		{"front", `["front 300 mm", "down 300 mm", "left 10 mm"]`, `["right 500 mm", "back 400 mm", "up 600 mm"]`, "port in faces front, and 300 mm of its box"},
		{"back", `["front 300 mm", "down 300 mm", "left 10 mm"]`, `["right 500 mm", "up 600 mm"]`, ""},
		{"left", `["left 500 mm", "front 300 mm", "down 300 mm"]`, `["left 90 mm", "back 400 mm", "up 600 mm"]`, "port in faces left, and 500 mm of its box"},
		{"left", `["left 500 mm", "front 300 mm", "down 300 mm"]`, `["right 90 mm", "front 40 mm", "up 600 mm"]`, ""}, // beside its port
	} {
		_, ds := Read("job.toml", []byte(`[[part]]
id = "filter"
kind = "filter"
existing = true
port.in = { faces = "`+one.faces+`" }
box = { from = `+one.from+`, to = `+one.to+` }
`))
		got := ""
		for _, d := range ds {
			if strings.Contains(d.Message.String(), "of its box") {
				got += d.Message.String()
				if d.Pos.Line != 6 {
					t.Errorf("told at line %d, not the box's", d.Pos.Line)
				}
			}
		}
		if one.wrong == "" && got != "" || one.wrong != "" && !strings.HasPrefix(got, one.wrong) {
			t.Errorf("%s from %s to %s: %q, want %q", one.faces, one.from, one.to, got, one.wrong)
		}
	}
}

// A file in inches that is not read is told so in inches: 6 in of a box before its port, not 152 mm.
func TestErrorsOfReadingAreInTheFilesUnits(t *testing.T) {
	text, err := os.ReadFile("../plan/testdata/jobs/imperial.toml")
	if err != nil {
		t.Fatal(err)
	}
	wrong := strings.Replace(string(text), `["left 1 1/2 in", "front 4 in"`, `["left 6 in", "front 4 in"`, 1)
	for units, want := range map[string]string{"inch": "6 in of its box", "metric": "152.4 mm of its box"} {
		_, ds := Read("imperial.toml", []byte(strings.Replace(wrong, `units = "inch"`, `units = "`+units+`"`, 1)))
		if len(ds) != 1 || !strings.Contains(ds[0].Message.String(), want) {
			t.Errorf("%s: want %q, got %v", units, want, ds)
		}
	}
}
