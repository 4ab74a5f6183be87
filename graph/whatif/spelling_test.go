package whatif

import (
	"errors"
	"strings"
	"testing"

	"dryfit/graph/description"
)

// A blank takes what somebody types as the hint beside it shows it, quotes, brackets, key and all,
// and a decimal comma; what might mean two things is refused.
func TestTypedAsInTheFile(t *testing.T) {
	text, err := description.Template("two-speed")
	if err != nil {
		t.Fatal(err)
	}
	j := Job{File: "job.toml", Text: text}
	form := j.Form()
	for _, c := range []struct{ table, label, typed, want string }{
		{"[water]", "volume", `"1400 l"`, `volume = "1400 l"`},
		{"[water]", "volume", `volume = "1400 l"`, `volume = "1400 l"`},
		{"[water]", "volume", "1,25 m3", `volume = "1.25 m3"`},
		{"[water]", "volume", `"1,25 m3"`, `volume = "1.25 m3"`},
		{"[job]", "name", "One, two", `name = "One, two"`},
		{"[job]", "name", `"One, two"`, `name = "\"One, two\""`},
		{"part jets", "count", "count = 20", "count = 20"},
		{"part element", "disconnected", `"true"`, "disconnected = true"},
		{"part element", "disconnected", "yes", "disconnected = true"},
		{"part unit", "drain-plug", "No", "drain-plug = false"},
		{"[job]", "name", "No", `name = "No"`},
		{"part element", "disconnected", "maybe", ""},
		{"part unit", "port.out.at", `["up 260 mm"]`, `port.out.at = ["up 260 mm"]`},
		{"run return-line", "legs", `["right 200 mm", "up 300 mm"]`, `legs = ["right 200 mm", "up 300 mm"]`},
		{"run return-line", "legs", `legs = right 200 mm, up 300 mm`, `legs = ["right 200 mm", "up 300 mm"]`},
		{"run return-line", "play", "1,250 mm", ""}, // a metre and a quarter, or one and a quarter mm
		{"run return-line", "play", `"forty"`, ""},
	} {
		f := field(t, form, c.table, c.label)
		if f == nil {
			t.Fatalf("%s has no %s", c.table, c.label)
		}
		got, err := j.Fill(f.Path, c.typed)
		var no *Refusal
		switch {
		case c.want == "":
			if !errors.As(err, &no) {
				t.Errorf("%s = %s is taken", c.label, c.typed)
			}
		case err != nil:
			t.Errorf("%s = %s: %v", c.label, c.typed, err)
		case !strings.Contains(string(got), c.want):
			t.Errorf("%s = %s: no %s in the file", c.label, c.typed, c.want)
		}
	}
}
