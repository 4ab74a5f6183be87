package layout

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// By hand, from the layout that the package's documentation says.
func TestFormat(t *testing.T) {
	for _, c := range []struct{ what, from, to string }{
		{"spaces round =, at the left", "  a=1\n\tb   =  2\n", "a = 1\nb = 2\n"},
		{"a comment at its column", "a = 1 # one\n", "a = 1                        # one\n"},
		{"a comment behind a long value", "name = \"a rather long text here\" # why\n", "name = \"a rather long text here\"  # why\n"},
		{"an = in a text or key", "\"a=b\"=\"c=d # no comment\"\n", "\"a=b\" = \"c=d # no comment\"\n"},
		{"a blank line before a table and its comment", "a = 1\n# about it\n[t]\nb = 2\n\n\n\n[[u]]\n", "a = 1\n\n# about it\n[t]\nb = 2\n\n[[u]]\n"},
		{"lines that go on", "l = [\n\"a\",\n      { x = 1 }, # x\n  ]\n", "l = [\n  \"a\",\n  { x = 1 },                 # x\n]\n"},
		{"a text of several lines", "t = \"\"\"\n  # no comment   \n [no]\n\"\"\"\nb=1", "t = \"\"\"\n  # no comment   \n [no]\n\"\"\"\nb = 1\n"},
		{"ends of lines", "a=1\r\n\r\n", "a = 1\r\n"},
	} {
		got, err := Format([]byte(c.from))
		if err != nil || string(got) != c.to {
			t.Errorf("%s: %v\n%q, want\n%q", c.what, err, got, c.to)
		}
	}
	if _, err := Format([]byte("a = \n")); err == nil {
		t.Error("what is no TOML is laid out")
	}
}

// Every description of the project is laid out without losing anything, and once laid out it
// stays; the templates have the layout already.
func TestFormatDescriptions(t *testing.T) {
	n := 0
	err := filepath.WalkDir("../../..", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".toml" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		once, err := Format(text)
		if err != nil {
			return nil //nolint:nilerr // no TOML, for a test
		}
		n++
		if twice, err := Format(once); err != nil || string(twice) != string(once) {
			t.Errorf("%s: laid out twice it differs: %v", path, err)
		}
		if (filepath.Base(filepath.Dir(path)) == "templates" || filepath.Dir(path) == filepath.Join("..", "..", "..", "testdata")) && string(once) != string(text) {
			t.Errorf("%s has not the layout of the house", path)
		}
		return nil
	})
	if err != nil || n < 20 {
		t.Errorf("%d descriptions: %v", n, err)
	}
}

func FuzzFormat(f *testing.F) {
	f.Add("a = 1 # x\n[t]\nl=[1,\n2]\n")
	f.Add("t = '''\n#\n'''\n")
	f.Add("\"a\\\"#\" = \"\"\"x\"\"\"\"\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		once, err := Format([]byte(text))
		if err != nil {
			return
		}
		if twice, err := Format(once); err != nil || string(twice) != string(once) {
			t.Errorf("%q: %q, then %q: %v", text, once, twice, err)
		}
	})
}

// Lines end as most of them did; a text of several lines keeps its own.
func TestFormatLineEnds(t *testing.T) {
	for text, want := range map[string]string{
		"[job]\r\nname=\"a\" # b\r\nunits = \"inch\"\r\n[water]\r\n":              "[job]\r\nname = \"a\"                   # b\r\nunits = \"inch\"\r\n\r\n[water]\r\n",
		"[job]\r\nname = \"\"\"\r\na  \r\nb\"\"\"\r\n":                            "[job]\r\nname = \"\"\"\r\na  \r\nb\"\"\"\r\n",
		"[job]\nname=\"a\"\n\n\nunits = \"inch\"\r\n[water]\nvolume = \"2 m3\"\n": "[job]\nname = \"a\"\n\nunits = \"inch\"\n\n[water]\nvolume = \"2 m3\"\n",
		"[job]\r\nname = \"\"\"\na\r\nb\"\"\"\n[water]\r\nvolume=1\r\n\r\n":       "[job]\r\nname = \"\"\"\na\r\nb\"\"\"\r\n\r\n[water]\r\nvolume = 1\r\n",
		"[job]\nname = \"\"\"\na\r\nb\"\"\"\nunits=1\n":                           "[job]\nname = \"\"\"\na\r\nb\"\"\"\nunits = 1\n",
	} {
		got, err := Format([]byte(text))
		if err != nil || string(got) != want {
			t.Errorf("%q is laid out as %q (%v), want %q", text, got, err, want)
		}
	}
}
