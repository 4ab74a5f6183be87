package located_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph/description/located"
	"dryfit/graph/lots"
)

// Each edit by hand: what stands around the value stays as it is.
func TestApply(t *testing.T) {
	const text = `# über
[job]
name = "x"   # what it is called

[[part]]
  id = "pump" # the pump
  speeds = [
    { name = "low", curve = [["0 m3/h", "4 m"], ["5 m3/h", "3 m"]] }, # slow
  ]
  port.out.at = ["up 1 m"]

[[part]]
id = "jets"
count = 14
[part.loss]
k = 3

[empty]
`
	for _, c := range []struct {
		what string
		edit located.Edit
		old  string
		new  string
	}{
		{"a text", located.Edit{Path: []any{"job", "name"}, Value: `"y"`}, `name = "x"   # what`, `name = "y"   # what`},
		{"a number", located.Edit{Path: []any{"part", 1, "count"}, Value: `15`}, `count = 14`, `count = 15`},
		{"deep inside", located.Edit{Path: []any{"part", 0, "speeds", 0, "curve", 1, 1}, Value: `"2.5 m"`}, `"3 m"]]`, `"2.5 m"]]`},
		{"a dotted key", located.Edit{Path: []any{"part", 0, "port", "out", "at", 0}, Value: `"up 2 m"`}, `["up 1 m"]`, `["up 2 m"]`},
		{"a key that is new", located.Edit{Path: []any{"job", "units"}, Value: `"inch"`}, "called\n", "called\nunits = \"inch\"\n"},
		{"after a dotted one", located.Edit{Path: []any{"part", 0, "known"}, Value: `"measured"`}, "[\"up 1 m\"]\n", "[\"up 1 m\"]\n  known = \"measured\"\n"},
		{"before a table of its own", located.Edit{Path: []any{"part", 1, "bore"}, Value: `"6 mm"`}, "count = 14\n", "count = 14\nbore = \"6 mm\"\n"},
		{"into braces", located.Edit{Path: []any{"part", 0, "speeds", 0, "power"}, Value: `"1 kW"`}, `"3 m"]] }`, `"3 m"]], power = "1 kW" }`},
		{"into a table without keys", located.Edit{Path: []any{"empty", "a"}, Value: `1`}, "[empty]\n", "[empty]\na = 1\n"},
		{"a table that is new", located.Edit{Path: []any{"water", "temperature"}, Value: `"38 °C"`}, "[empty]\n", "[empty]\n\n[water]\ntemperature = \"38 °C\"\n"},
		{"lines at the end", located.Edit{Value: "[[mode]]\nname = \"a\"\n"}, "[empty]\n", "[empty]\n\n[[mode]]\nname = \"a\"\n"},
		{"a key taken out", located.Edit{Path: []any{"job", "name"}, Out: true}, "name = \"x\"   # what it is called\n", ""},
		{"a list taken out", located.Edit{Path: []any{"part", 0, "speeds"}, Out: true}, "  speeds = [\n    { name = \"low\", curve = [[\"0 m3/h\", \"4 m\"], [\"5 m3/h\", \"3 m\"]] }, # slow\n  ]\n", ""},
		{"a dotted key taken out", located.Edit{Path: []any{"part", 0, "port", "out", "at"}, Out: true}, "  port.out.at = [\"up 1 m\"]\n", ""},
		{"a key in quotes", located.Edit{Path: []any{"job", "a b"}, Value: `1`}, "called\n", "called\n\"a b\" = 1\n"},
	} {
		want := strings.Replace(text, c.old, c.new, 1)
		if want == text {
			t.Fatal(c.what)
		}
		for _, crlf := range []bool{false, true} {
			in, out := text, want
			if crlf {
				in, out = strings.ReplaceAll(text, "\n", "\r\n"), strings.ReplaceAll(want, "\n", "\r\n")
			}
			got, err := located.Apply([]byte("\ufeff"+in), c.edit)
			if err != nil || string(got) != "\ufeff"+out {
				t.Errorf("%s: %v\n%s", c.what, err, got)
			}
		}
	}
	for what, e := range map[string]located.Edit{
		"a table":                 {Path: []any{"job"}, Value: `1`},
		"no such element":         {Path: []any{"part", 7, "id"}, Value: `"x"`},
		"no such table":           {Path: []any{"part", 0, "loss", "k"}, Value: `1`},
		"what is no value":        {Path: []any{"job", "name"}, Value: `"y`},
		"a value and more":        {Path: []any{"job", "name"}, Value: "\"y\"\nname = 2"},
		"one of a pair":           {Path: []any{"part", 0, "speeds", 0, "name"}, Out: true},
		"the list of all parts":   {Path: []any{"part"}, Value: `1`},
		"a table of the last one": {Path: []any{"part", 1, "loss"}, Value: `1`},
	} {
		if got, err := located.Apply([]byte(text), e); err == nil {
			t.Errorf("%s is edited:\n%s", what, got)
		}
	}
}

// Every value of every demo gets another in its place: that changes the value and nothing else. The
// suite takes of each key one value in the first table or place of a list and one further on.
func TestApplyToTheDemos(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	count, tried := 0, map[string]bool{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		top, ok := located.New(name, data).Decode()
		if !ok {
			t.Fatal(name)
		}
		var walk func(v located.Value, path []any)
		walk = func(v located.Value, path []any) {
			if keys := v.Keys(); len(keys) > 0 {
				for _, k := range keys {
					c, _ := v.In(k)
					walk(c, append(path[:len(path):len(path)], k))
				}
				return
			}
			if items, ok := v.Items(); ok {
				for i, c := range items {
					walk(c, append(path[:len(path):len(path)], i))
				}
				return
			}
			of := keyOf(path)
			if tried[of] && !lots.All() {
				return
			}
			tried[of] = true
			count++
			changed, err := located.Apply(data, located.Edit{Path: path, Value: `"another"`})
			if err != nil {
				t.Fatalf("%s: %v: %v", name, path, err)
			}
			same, prefix := 0, 0
			for prefix < len(data) && prefix < len(changed) && data[prefix] == changed[prefix] {
				prefix++
			}
			for same < len(data)-prefix && same < len(changed)-prefix && data[len(data)-1-same] == changed[len(changed)-1-same] {
				same++
			}
			old := string(data[prefix : len(data)-same])
			if strings.Contains(old, "\n") {
				t.Errorf("%s: %v: changes %q", name, path, old)
			}
			after, _ := located.New(name, changed).Decode()
			at := after
			for _, step := range path {
				switch s := step.(type) {
				case string:
					at, _ = at.In(s)
				case int:
					items, _ := at.Items()
					at = items[s]
				}
			}
			if at.V != "another" {
				t.Errorf("%s: %v is %v", name, path, at.V)
			}
		}
		walk(top, nil)
	}
	if count < lots.Count(700, 200) {
		t.Errorf("%d values tried", count)
	}
}

// keyOf names the key a path leads to: places of lists are the first, or one further on.
func keyOf(path []any) string {
	out := ""
	for _, step := range path {
		if n, ok := step.(int); ok {
			step = min(n, 1)
		}
		out += fmt.Sprint(step, " ")
	}
	return out
}
