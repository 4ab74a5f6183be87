package located

import (
	"strings"
	"testing"
)

// TestSlips reads files with one line as it is typed in a hurry: what is told to write in its place, and at
// which line.
func TestSlips(t *testing.T) {
	for line, want := range map[string]string{
		"// del grifo al skimmer":                         "a remark begins with #: # del grifo al skimmer",
		"; old line":                                      "a remark begins with #: # old line",
		"-- old line":                                     "a remark begins with #: # old line",
		`id = "a" // the filter`:                          "a remark begins with #: # the filter",
		`n = 3 -- counted`:                                "a remark begins with #: # counted",
		`kind: "filter"`:                                  `between a key and its value stands one = alone: kind = "filter"`,
		`kind == "filter"`:                                `between a key and its value stands one = alone: kind = "filter"`,
		`kind := "filter"`:                                `between a key and its value stands one = alone: kind = "filter"`,
		`kind "filter"`:                                   `between a key and its value stands =: kind = "filter"`,
		`legs ["up 3 m"]`:                                 `between a key and its value stands =: legs = ["up 3 m"]`,
		`runs for heat = "hours"`:                         "a key is one word, with hyphens in it: runs-for-heat = …",
		"[[part]":                                         "the name of a table that there may be several of stands in two brackets: [[part]]",
		"[part]]":                                         "the name of a table that there may be several of stands in two brackets: [[part]]",
		"date = 11.05.2026":                               "a date is written 2026-04-18, without quotes: year, month, day",
		"date = 11/05/26":                                 "a date is written 2026-04-18, without quotes: year, month, day",
		"[run]\nid = 1\n[run]":                            "each begins with its own [[run]], in two brackets: here, and wherever else it stands in one",
		"[[run]]\nid = 1\n[run]":                          "each begins with its own [[run]], in two brackets: here, and wherever else it stands in one",
		"[water]\nid = 1\n[water]":                        "a key stands once in its table; where there are several of a thing each begins with its own [[part]] or [[run]]",
		"[stock]\nid = 1\n[[stock]]":                      "an earlier one stands in one bracket: write [[stock]] there too",
		"runs–for–heat = 1":                               `U+2013 stands here for "-": type it anew on the keyboard, here and wherever else it was pasted`,
		"kind\u00a0= 1":                                   `U+00A0 stands here for " ": type it anew on the keyboard, here and wherever else it was pasted`,
		"count = １６":                                      `U+FF11 stands here for "1": type it anew on the keyboard, here and wherever else it was pasted`,
		`note = "cut here -- then bend`:                   `end the text with " on the same line`,
		`note = "cut here ; then bend`:                    `end the text with " on the same line`,
		"at = [\nright 450 mm,":                           `put text and quantities in quotes: length = "450 mm"`,
		"ports = [\n'a'\n'b'":                             "put a comma between the values of a list, and ] after the last",
		`ports = ["a" ; "b"]`:                             "put a comma between the values of a list, and ] after the last",
		`size = "2 in";`:                                  "a value ends with its line: leave out what stands behind it",
		`size = "2 in", # counted`:                        "a value ends with its line: leave out what stands behind it",
		`size = "2 in"; existing = 1`:                     "each key begins a line of its own: existing = …",
		`size = "2 in" existing = true`:                   "each key begins a line of its own: existing = …",
		"ports_size = 2 in":                               `put text and quantities in quotes: length = "450 mm"`,
		`id = "é" -- olé`:                                 "a remark begins with #: # olé",
		"id = 'a'\nkind = filter":                         `put text and quantities in quotes: length = "450 mm"`,
		`a = ` + `"http://x" "` + strings.Repeat("b", 99): `put text and quantities in quotes: length = "450 mm"`,
	} {
		f := New("a.toml", []byte(line+"\n"))
		if _, ok := f.Decode(); ok || len(f.Found) != 1 {
			t.Errorf("%q: read %v, found %v; want one finding", line, ok, f.Found)
			continue
		}
		if got := string(f.Found[0].Hint); got != want {
			t.Errorf("%q: hint %q, want %q", line, got, want)
		}
		if at := f.Found[0].Pos; at.Line != strings.Count(line, "\n")+1 || at.Column < 1 {
			t.Errorf("%q: told at %v", line, at)
		}
	}
}

// TestOneReturn reads a file whose lines all end in a carriage return alone: one mistake, told once.
func TestOneReturn(t *testing.T) {
	f := New("a.toml", []byte("[water]\rvolume = \"1 m3\"\r[pipe]\r"))
	if _, ok := f.Decode(); ok || len(f.Found) != 1 {
		t.Errorf("read %v, found %v", ok, f.Found)
	}
}
