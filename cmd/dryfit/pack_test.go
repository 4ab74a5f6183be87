package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/render/pack"
)

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A pack that fails half way leaves neither a part of itself nor a trace beside it, and an
// older pack stays as it was.
func TestWriteFolderWholeOrNot(t *testing.T) {
	broken := []pack.File{{Name: "a.txt", Data: []byte("a")}, {Name: "no-such-folder/b.txt", Data: []byte("b")}}
	t.Run("nothing there", func(t *testing.T) {
		parent := t.TempDir()
		if err := writeFolder(filepath.Join(parent, "job"), broken); err == nil {
			t.Fatal("no error")
		}
		if got := names(t, parent); len(got) > 0 {
			t.Errorf("left behind: %q", got)
		}
	})
	t.Run("an older pack there", func(t *testing.T) {
		parent := t.TempDir()
		dir := filepath.Join(parent, "job")
		if err := writeFolder(dir, []pack.File{{Name: "old.txt", Data: []byte("old")}}); err != nil {
			t.Fatal(err)
		}
		if err := writeFolder(dir, broken); err == nil {
			t.Fatal("no error")
		}
		if got := strings.Join(names(t, dir), " "); got != mark+" old.txt" {
			t.Errorf("the older pack is now %q", got)
		}
		if got := names(t, parent); len(got) != 1 {
			t.Errorf("left behind: %q", got)
		}
	})
}

// A pack takes the place of an older one whole: what the older had and it has not is gone.
func TestWriteFolderReplaces(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "deep", "job") + string(filepath.Separator)
	for _, name := range []string{"first.txt", "second.txt"} {
		if err := mayReplace(dir); err != nil {
			t.Fatal(err)
		}
		if err := writeFolder(dir, []pack.File{{Name: name, Data: []byte(name)}}); err != nil {
			t.Fatal(err)
		}
	}
	if got := strings.Join(names(t, dir), " "); got != mark+" second.txt" {
		t.Errorf("the folder holds %q", got)
	}
	if got := names(t, filepath.Dir(filepath.Clean(dir))); len(got) != 1 {
		t.Errorf("left behind: %q", got)
	}
}

func TestMayReplace(t *testing.T) {
	root := t.TempDir()
	in := func(name string) string { return filepath.Join(root, name) }
	for _, dir := range []string{"empty", "mine", "target"} {
		if err := os.Mkdir(in(dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	write(t, in("mine/notes.txt"), "mine")
	write(t, in("file"), "a file")
	for link, to := range map[string]string{"link": in("target"), "dangling": in("nowhere")} {
		if err := os.Symlink(to, in(link)); err != nil {
			t.Skip("no links here:", err)
		}
	}
	if err := writeFolder(in("pack"), []pack.File{{Name: "a.txt"}}); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(in("grown"), []pack.File{{Name: "a.txt"}}); err != nil {
		t.Fatal(err)
	}
	write(t, in("grown/photo.jpg"), "mine")
	for _, c := range []struct{ dir, want string }{
		{"new", ""}, {"new/below", ""}, {"empty", ""}, {"pack", ""},
		{"mine", "dryfit did not write it"},
		{"grown", `holds "photo.jpg"`},
		{"file", "is a file"},
		{"link", "is a link"}, {"link/", "is a link"}, {"dangling", "is a link"},
	} {
		err := mayReplace(root + "/" + c.dir)
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s is refused: %v", c.dir, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: %v, want %q", c.dir, err, c.want)
		}
	}
	if got := strings.Join(names(t, in("mine")), " "); got != "notes.txt" {
		t.Errorf("mine holds %q", got)
	}
}
