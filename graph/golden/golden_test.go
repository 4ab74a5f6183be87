package golden

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// recorder is a test that is watched.
type recorder struct {
	testing.TB
	said []string
	end  []func()
}

func (r *recorder) Helper()          {}
func (r *recorder) Failed() bool     { return len(r.said) > 0 }
func (r *recorder) Cleanup(f func()) { r.end = append(r.end, f) }
func (r *recorder) Error(a ...any)   { r.said = append(r.said, fmt.Sprint(a...)) }
func (r *recorder) Errorf(format string, a ...any) {
	r.said = append(r.said, fmt.Sprintf(format, a...))
}

func TestIs(t *testing.T) {
	if *update {
		t.Skip("writing, not comparing")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"same.txt": "a\n", "other.txt": "a\nb\nc\n", "orphan.txt": ""} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ file, made, want string }{
		{"same.txt", "a\n", "orphan.txt is kept of nothing"},
		{"other.txt", "a\nB\nc\n", "-b\n+B\n c"},
		{"missing.txt", "a\n", "-update writes it"},
	} {
		r := &recorder{TB: t}
		f := In(r, filepath.Join(dir, "*.txt"), nil)
		if c.file == "same.txt" {
			f.Is(filepath.Join(dir, "other.txt"), []byte("a\nb\nc\n"))
		}
		f.Is(filepath.Join(dir, c.file), []byte(c.made))
		for _, end := range r.end {
			end()
		}
		if len(r.said) != 1 || !strings.Contains(r.said[0], c.want) {
			t.Errorf("%s: %q, want one with %q", c.file, r.said, c.want)
		}
	}
}
