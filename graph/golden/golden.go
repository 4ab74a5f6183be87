// Package golden holds what a test makes against files kept of it: byte for byte, showing what
// differs; a missing file and one kept of nothing fail. With the flag -update the files are
// written anew, to be looked at before they are committed. Only tests import it, and it
// imports nothing of the house.
package golden

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/diff"
)

var update = flag.Bool("update", false, "rewrite golden files")

// Updating reports whether golden files are written anew.
func Updating() bool { return *update }

// Show tells in words or files what differs between what was kept and what is made now; name
// is that of the file, without its folder.
type Show func(name string, kept, made []byte) string

// Files are the golden files of one test.
type Files struct {
	t    testing.TB
	show Show
	seen []string
}

// In returns the golden files that match a pattern. At the end of the test one of them that
// was not asked for fails, as kept of nothing. Show may be nil: then lines are shown.
func In(t testing.TB, pattern string, show Show) *Files {
	t.Helper()
	if show == nil {
		show = Lines
	}
	f := &Files{t: t, show: show}
	t.Cleanup(func() {
		t.Helper()
		if t.Failed() || partial() {
			return // not everything was asked for
		}
		all, err := filepath.Glob(pattern)
		if err != nil {
			t.Error(err)
		}
		for _, file := range all {
			if !slices.Contains(f.seen, filepath.Clean(file)) {
				t.Errorf("%s is kept of nothing: take it away", file)
			}
		}
	})
	return f
}

// partial reports whether only some subtests are run.
func partial() bool {
	run := flag.Lookup("test.run")
	return run != nil && strings.Contains(run.Value.String(), "/")
}

// Is demands that a file holds what is made.
func (f *Files) Is(file string, made []byte) {
	f.t.Helper()
	f.seen = append(f.seen, filepath.Clean(file))
	kept, err := os.ReadFile(file)
	switch {
	case err == nil && bytes.Equal(kept, made):
	case *update:
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			f.t.Fatal(err)
		}
		if err := os.WriteFile(file, made, 0o644); err != nil {
			f.t.Fatal(err)
		}
	case err != nil:
		f.t.Errorf("%v: go test -update writes it", err)
	default:
		f.t.Errorf("%s differs; go test -update writes it anew, to be looked at\n%s", file, f.show(filepath.Base(file), kept, made))
	}
}

// mostLines bounds how much of a difference is shown.
const mostLines = 60

// Lines shows the lines that differ, with those about them.
func Lines(name string, kept, made []byte) string {
	lines := strings.SplitAfter(string(diff.Diff("kept "+name, kept, "made "+name, made)), "\n")
	if len(lines) > mostLines {
		lines = append(lines[:mostLines], "…\n")
	}
	return strings.Join(lines, "")
}
