package disk

import (
	"os"
	"path/filepath"
	"testing"
)

// A file is replaced where it holds what is thought to be in it, and left alone otherwise.
func TestReplace(t *testing.T) {
	name := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(name, []byte("one"), 0o640); err != nil {
		t.Fatal(err)
	}
	var f Files
	if err := f.Replace(name, []byte("another"), []byte("two")); err == nil {
		t.Error("what nobody saw is replaced")
	}
	if err := f.Replace(name, []byte("one"), []byte("two")); err != nil {
		t.Error(err)
	}
	data, _ := os.ReadFile(name)
	info, err := os.Stat(name)
	if string(data) != "two" || err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("%q, %v", data, info.Mode())
	}
	if err := f.Replace(name+"x", []byte("one"), []byte("two")); err == nil {
		t.Error("a file that is not there is replaced")
	}
}
