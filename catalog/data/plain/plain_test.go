package plain

import (
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// agrees holds a text against the decoder: what is read is what that one reads.
func agrees(t *testing.T, text []byte) (plain bool) {
	t.Helper()
	got, ok := read(text)
	if !ok {
		return false
	}
	var want map[string]any
	if _, err := toml.Decode(string(text), &want); err != nil {
		t.Fatalf("%q is read; the decoder says: %v", text, err)
	}
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("%q\nread    %#v\ndecoded %#v", text, got, want)
	}
	return true
}

// Every description and every catalogue of the house that the decoder reads is read as it does it, and
// nearly all of them are plain.
func TestReadsAsTheDecoder(t *testing.T) {
	all, fast := 0, 0
	for _, path := range descriptions(t) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !utf8.Valid(text) {
			continue
		}
		var into map[string]any
		_, err = toml.Decode(string(text), &into)
		if plain := agrees(t, text); err == nil {
			all++
			if plain {
				fast++
			}
		}
	}
	for _, demo := range []string{"../equipment.toml", "../../../testdata/two-speed.toml"} { // these every command reads
		text, err := os.ReadFile(demo)
		if err != nil || !agrees(t, text) {
			t.Errorf("%s is not plain: %v", demo, err)
		}
	}
	if all < 80 || fast < all*9/10 {
		t.Errorf("%d of %d are plain", fast, all)
	}
}

func descriptions(t testing.TB) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir("../../..", func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".toml") {
			out = append(out, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// What is plain, what is left to the decoder, and what is wrong.
func TestPlainOrNot(t *testing.T) {
	for _, text := range []string{
		"", "# nothing\n", "a = 1", "a = -12", "a = -0", "a = 0", "a = 1.50", "a = -0.5", "a = 'x'", `a = "x # y"`, "a = true\nb = false\r\n",
		"a = []", "a = [1, 2.0, 'x', [3]]", "a = [\n 1, # one\n 2,\n]", "a = { b = 1, c = [2] }", "a = [{ b = 1 }, { b = 2 }]",
		"[a]\nb = 1\n[c]\nb = 2", "[a.b]\nc = 1\n[a.d]\ne = 2", "[a]\nx = 1\n[a.b]\nc = 1", "[[a]]\nb = 1\n[[a]]\nb = 2",
		"[[a]]\n[a.b]\nc = 1\n[[a]]\n[a.b]\nc = 2", "[[a.b]]\nc = 1\n[[a.b]]\nc = 2", "[a]\n[[a.b]]\n[[a.b]]",
		"a.b = 1\na.c.d = 2\na.c.e = 3", "[a]\nb.c = 1\n[a.d]\nb.c = 2", "[[a]]\nb.c = 1\n[[a]]\nb.c = 2", "a = { b.c = 1, b.d = 2 }", "[ a ]\nb\t=\t1", "[[ a . b ]]\nc . d = 1", "a = 1979-05-27",
	} {
		if !agrees(t, []byte(text)) {
			t.Errorf("not plain: %q", text)
		}
	}
	for _, text := range []string{
		`"a" = 1`, `a."b" = 1`, `a = "x\ty"`, `a = """x"""`, "a = '''\nx'''", "a = 1e3", "a = 1_000", "a = 0x10", "a = inf", "a = nan", "a = +1", "a = 1979-05-27T07:32:00Z", "a = 07:32:00",
		"a = 1.5e3", "[a.b]\nc = 1\n[a]\nd = 2", "é = 1", "a = 99999999999999999999",
		"a = 1\na = 2", "[a]\n[a]", "[a]\n[[a]]", "[[a]]\n[a]", "a = 1\n[a]", "a = 1\n[a.b]", "a = []\n[[a]]", "a = {}\n[a.b]", "[a]\nb = 1\n[a.b]",
		"a = { b = 1, b = 2 }", "a.b = 1\na = 2", "a = 1\na.b = 2", "a.b = 1\na.b = 2", "a.b = 1\na.b.c = 2", "a.b = 1\n[a]", "a.b = 1\n[a.c]", "[a]\nb.c = 1\n[a.b]",
		"[a.b]\n[c]\n[a]\nb.c = 1", "[a.b.c]\n[a]\nb.d = 1", "a = { b = 1 }\na.c = 2", "a = { b = { c = 1 }, b.d = 2 }", "a = 1979-13-27", "a = 2023-02-29", "a = [1,,2]", "a = {,}", "a = 01", "a = 1.", "a = .5", "a = [1", "a", "[a", "a = 1 b = 2", "a = \"x\ny\"",
	} {
		if agrees(t, []byte(text)) {
			t.Errorf("plain: %q", text)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("a = 1\n[b.c]\nd = ['x', { e = 2.5 }] # f\n[[g]]\nh = true\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		if utf8.Valid(text) {
			agrees(t, text)
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	text, err := os.ReadFile("../../../testdata/two-speed.toml")
	if err != nil {
		b.Fatal(err)
	}
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			if _, ok := read(text); !ok {
				b.Fatal("it is not plain")
			}
		}
	})
	b.Run("decoder", func(b *testing.B) {
		for b.Loop() {
			var top map[string]any
			if _, err := toml.Decode(string(text), &top); err != nil {
				b.Fatal(err)
			}
		}
	})
}
