package meaning

import "testing"

// What stands below a key is its own, and a line that is nothing is no line.
func TestParse(t *testing.T) {
	got, err := parse("# head\n\n[job]\nname: what it is called: in full\n  such as \"a: b\"\n  open: none\nports:\n  open: some\n\n[pipe]\nname: of the pipe\n")
	if err != nil {
		t.Fatal(err)
	}
	want := map[at]entry{
		{"job", "name"}:  {"what it is called: in full", `"a: b"`, "none"},
		{"job", "ports"}: {"", "", "some"},
		{"pipe", "name"}: {"of the pipe", "", ""},
	}
	for k, e := range want {
		if got[k] != e {
			t.Errorf("%v: %q, want %q", k, got[k], e)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d entries, want %d: %v", len(got), len(want), got)
	}
	for _, wrong := range []string{"name\n", "name: a\nname: b\n", "  such as 3\n", "name: a\n  like 3\n", "name: a\n  open: b\n  open: c\n", "[x]\nname: a\n[y]\n  open: b\n"} {
		if _, err := parse(wrong); err == nil {
			t.Errorf("%q was read", wrong)
		}
	}
}
