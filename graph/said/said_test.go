package said

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// A text is said where what stands round its verbs is; one that is not, one that is said though it is
// listed as said elsewhere, and one listed that is no text any more are told. Tags, what panics, words
// without a blank and what is left out by name are no texts.
func TestHold(t *testing.T) {
	room := t.TempDir()
	source := "package p\n\ntype v struct {\n\tA string `json:\"a b\"`\n}\n\nvar list = []row{{Source: \"a book\", Why: \"because of it\"}}\n\n" +
		"func f() {\n\tpanic(\"never to be\")\n\tx.Source = \"another book\"\n\tx.Say(\"it gets %s of %d %% there\", word)\n\tx.Add(\"word\", \"by hand (or not)\")\n}\n"
	for name, s := range map[string]string{"a.go": source, "left.go": "package p\n\nconst c = \"left out\"\n", "a_test.go": "package p\n\nconst d = \"of a test\"\n"} {
		if err := os.WriteFile(filepath.Join(room, name), []byte(s), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	words := func(texts []Text) (out []string) {
		for _, x := range texts {
			out = append(out, x.Words)
		}
		return out
	}
	texts := In(t, room, "left.go", "Source")
	if got, want := words(texts), []string{"because of it", "it gets %s of %d %% there", "by hand (or not)"}; !slices.Equal(got, want) {
		t.Errorf("texts %q, want %q", got, want)
	}
	if got, want := words(Handed(t, room, "Add")), []string{"by hand (or not)"}; !slices.Equal(got, want) {
		t.Errorf("handed to Add: %q, want %q", got, want)
	}
	const said = "it gets a lot of 12 % there\nby hand (or not)\n"
	for _, c := range []struct {
		elsewhere map[string]string
		wrong     int
	}{
		{nil, 1},
		{map[string]string{"because of it": "TestIt"}, 0},
		{map[string]string{"because of it": "TestIt", "by hand (or not)": "TestIt"}, 1},
		{map[string]string{"because of it": "TestIt", "gone by now": "TestIt"}, 1},
	} {
		if got := Hold(texts, said, c.elsewhere); len(got) != c.wrong {
			t.Errorf("%v: %q, want %d", c.elsewhere, got, c.wrong)
		}
	}
}
