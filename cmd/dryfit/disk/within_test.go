package disk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestReadWithin(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "job")
	for name, text := range map[string]string{"job/a.jpg": "a", "job/sub/b.jpg": "bb", "secret": "s"} {
		file := filepath.Join(top, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(filepath.Join(top, "secret"), filepath.Join(dir, "out.jpg")); err != nil {
		t.Skip(err)
	}
	if err := os.Symlink("a.jpg", filepath.Join(dir, "in.jpg")); err != nil {
		t.Fatal(err)
	}
	var f Files
	for name, want := range map[string]string{"a.jpg": "a", "sub/b.jpg": "bb", "in.jpg": "a", "sub/../a.jpg": "a"} {
		if got, err := f.ReadWithin(dir, name, 10); err != nil || string(got) != want {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	for name, want := range map[string]string{
		"out.jpg": "a link that leads out", "../secret": "a link that leads out", "sub": "is a folder",
		"none.jpg": "there is no file", "none/x.jpg": "there is no folder", "a.jpg/x": "",
	} {
		if got, err := PeekWithin(dir, name, 10); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %q, %v, want %q", name, got, err, want)
		}
	}
	if _, err := PeekWithin(dir, "sub/b.jpg", 1); err == nil || !strings.Contains(err.Error(), "at most 1 are read") {
		t.Errorf("too long: %v", err)
	}
	if err := f.Writable(filepath.Join(dir, "a.jpg")); err == nil {
		t.Error("a picture that was read may be written over")
	}
}
