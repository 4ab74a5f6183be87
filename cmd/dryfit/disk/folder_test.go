package disk

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
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
	broken := []File{{Name: "a.txt", Data: []byte("a")}, {Name: "no-such-folder/b.txt", Data: []byte("b")}}
	t.Run("nothing there", func(t *testing.T) {
		parent := t.TempDir()
		if err := new(Files).WriteFolder(filepath.Join(parent, "job"), broken, false); err == nil {
			t.Fatal("no error")
		}
		if got := names(t, parent); len(got) > 0 {
			t.Errorf("left behind: %q", got)
		}
	})
	t.Run("an older pack there", func(t *testing.T) {
		parent := t.TempDir()
		dir := filepath.Join(parent, "job")
		if err := new(Files).WriteFolder(dir, []File{{Name: "old.txt", Data: []byte("old")}}, false); err != nil {
			t.Fatal(err)
		}
		if err := new(Files).WriteFolder(dir, broken, false); err == nil {
			t.Fatal("no error")
		}
		if got := strings.Join(names(t, dir), " "); got != Manifest+" old.txt" {
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
		if err := new(Files).Replaceable(dir, false); err != nil {
			t.Fatal(err)
		}
		if err := new(Files).WriteFolder(dir, []File{{Name: name, Data: []byte(name)}}, false); err != nil {
			t.Fatal(err)
		}
	}
	if got := strings.Join(names(t, dir), " "); got != Manifest+" second.txt" {
		t.Errorf("the folder holds %q", got)
	}
	if got := names(t, filepath.Dir(filepath.Clean(dir))); len(got) != 1 {
		t.Errorf("left behind: %q", got)
	}
}

func TestMayReplace(t *testing.T) {
	root := t.TempDir()
	in := func(name string) string { return filepath.Join(root, name) }
	for _, dir := range []string{"empty", "bare", "mine", "target"} {
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
	if err := new(Files).WriteFolder(in("pack"), []File{{Name: "a.txt"}}, false); err != nil {
		t.Fatal(err)
	}
	if err := new(Files).WriteFolder(in("grown"), []File{{Name: "a.txt"}}, false); err != nil {
		t.Fatal(err)
	}
	write(t, in("grown/photo.jpg"), "mine")
	for _, name := range []string{"edited", "swapped"} {
		if err := new(Files).WriteFolder(in(name), []File{{Name: "a.txt", Data: []byte("a")}}, false); err != nil {
			t.Fatal(err)
		}
	}
	write(t, in("edited/a.txt"), "a, and the size of the door")
	if err := errors.Join(os.Remove(in("swapped/a.txt")), os.Mkdir(in("swapped/a.txt"), 0o755)); err != nil {
		t.Fatal(err)
	}
	t.Chdir(in("empty"))
	if err := new(Files).Replaceable(in("edited"), true); err != nil {
		t.Errorf("not by force either: %v", err)
	}
	for _, c := range []struct{ dir, want string }{
		{"edited", "has been changed since"}, {"swapped", `holds "a.txt"`},
		{"empty", "the folder you stand in"},
		{"new", ""}, {"new/below", ""}, {"bare", ""}, {"pack", ""},
		{"mine", "dryfit did not write it"},
		{"grown", `holds "photo.jpg"`},
		{"file", "is a file"},
		{"link", "is a link"}, {"link/", "is a link"}, {"dangling", "is a link"},
	} {
		err := new(Files).Replaceable(root+"/"+c.dir, false)
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

// A file that comes into a folder after it was looked at is not lost with it, nor is an
// input that lies in it.
func TestReplacingLosesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "job")
	a := []File{{Name: "a.txt", Data: []byte("a")}}
	if err := new(Files).WriteFolder(dir, a, false); err != nil {
		t.Fatal(err)
	}
	f := &Files{}
	if _, err := f.Read(filepath.Join(dir, "a.txt"), 100); err != nil {
		t.Fatal(err)
	}
	wantError(t, f.WriteFolder(dir, a, true), "an input")
	write(t, filepath.Join(dir, "photo.jpg"), "mine")
	wantError(t, new(Files).swap(filepath.Join(filepath.Dir(dir), "fresh"), dir, false), `holds "photo.jpg"`)
	old := filepath.Join(filepath.Dir(dir), "old")
	if err := os.Rename(dir, old); err != nil {
		t.Fatal(err)
	}
	if err := discard(old, []string{"a.txt", Manifest}); err == nil || read(t, filepath.Join(old, "photo.jpg")) != "mine" {
		t.Errorf("the photo is lost: %v", err)
	}
}

// Where names can't be exchanged in one step, a command killed between the two renames is
// mended by the next.
func TestTwoSteps(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "job")
	files := []File{{Name: "a.txt", Data: []byte("a")}}
	if err := new(Files).WriteFolder(dir, files, false); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(root, "fresh"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := twoSteps(filepath.Join(root, "fresh"), dir, []string{"a.txt", Manifest}); err != nil {
		t.Fatal(err)
	}
	if got := names(t, root); len(got) != 1 {
		t.Errorf("left behind: %q", got)
	}
	// killed between
	if err := new(Files).WriteFolder(dir, files, false); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(dir, asideOf(dir)); err != nil {
		t.Fatal(err)
	}
	if err := twoSteps(filepath.Join(root, "nothing"), asideOf(dir), nil); err == nil {
		t.Error("nothing took its place")
	}
	if err := new(Files).putBack(dir); err != nil || read(t, filepath.Join(dir, "a.txt")) != "a" {
		t.Errorf("not put back: %v", err)
	}
	// killed after the second rename
	if err := os.Rename(dir, asideOf(dir)); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := new(Files).WriteFolder(dir, files, false); err != nil {
		t.Fatal(err)
	}
	if got := names(t, root); len(got) != 1 {
		t.Errorf("left behind: %q", got)
	}
}

// The mark's lines after the first are what sha256sum -c reads; the sum of "abc" is that of
// FIPS 180-2, appendix B.1.
func TestMark(t *testing.T) {
	mark := manifestOf([]File{{Name: "a b.txt", Data: []byte("abc")}})
	_, line, _ := strings.Cut(string(mark), "\n")
	if want := "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  a b.txt\n"; line != want {
		t.Errorf("got %q, want %q", line, want)
	}
	if sums, ok := listed(mark); !ok || len(sums) != 1 || sums["a b.txt"] == "" {
		t.Errorf("read back as %v", sums)
	}
}
