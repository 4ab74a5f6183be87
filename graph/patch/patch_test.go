package patch

import (
	"strings"
	"testing"
)

func TestOver(t *testing.T) {
	const text = "# clean\n# job\n\n[[part]]\nid = \"a\"\nold = true\n\n[[part]]\nid = \"b\"\nold = true\n"
	for _, c := range []struct{ name, patch, want, fails string }{
		{"the head alone", "# Other.\n", strings.Replace(text, "# clean\n# job", "# Other.", 1), ""},
		{"a line for another", "@@\n-id = \"b\"\n+id = \"c\"\n", strings.Replace(text, `"b"`, `"c"`, 1), ""},
		{"by the line it follows", "@@ id = \"b\"\n-old = true\n", strings.TrimSuffix(text, "old = true\n"), ""},
		{"right after a line", "@@ id = \"a\"\n+new = true\n\n@@\n id = \"b\"\n+x = 1\n", strings.NewReplacer("\"a\"\n", "\"a\"\nnew = true\n", "\"b\"\n", "\"b\"\nx = 1\n").Replace(text), ""},
		{"over a blank line", "@@\n-old = true\n\n [[part]]\n", strings.Replace(text, "old = true\n\n", "\n", 1), ""},
		{"twice there", "@@\n-old = true\n", "", `1: its lines stand together in the text 2 times (lines 6, 10), not once`},
		{"not there", "# x\n\n@@\n-odl = true\n", "", `3: its lines stand together in the text nowhere`},
		{"not together", "@@\n id = \"a\"\n-id = \"b\"\n", "", "1: its lines"},
		{"the line it follows is not there", "@@ id = \"z\"\n-old = true\n", "", `1: "id = \"z\"" stands in the text nowhere`},
		{"nothing that stays", "@@\n+new = true\n", "", "1: no word where the lines come"},
		{"gone already", "@@\n-id = \"a\"\n@@\n-id = \"a\"\n", "", `3: "id = \"a\"" goes already by the @@ of line 1`},
		{"no change", "@@\n id = \"a\"\n", "", "1: no line goes or comes"},
		{"no mark", "@@\nid = \"a\"\n", "", `2: "id = \"a\"" begins with none`},
		{"before the first", "id = \"a\"\n", "", `1: "id = \"a\"" before the first @@`},
	} {
		got, err := Over(text, c.patch)
		switch {
		case c.fails == "" && (err != nil || got != c.want):
			t.Errorf("%s: %v, got\n%swant\n%s", c.name, err, got, c.want)
		case c.fails != "" && (err == nil || !strings.HasPrefix(err.Error(), c.fails)):
			t.Errorf("%s: error %v, want %s", c.name, err, c.fails)
		}
	}
}
