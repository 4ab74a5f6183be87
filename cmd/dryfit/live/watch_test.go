package live

import (
	"path/filepath"
	"testing"
	"time"
)

// A file that is saved after it was read and before it is watched is told of, once; watched on as it
// is, it is not told of again.
func TestSavedBeforeItIsWatched(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "job.toml")
	save(t, file, "what was read")
	save(t, file, "what stands there now")
	w := newWatch()
	go w.run(t.Context())
	w.on(t.Context(), []string{file})
	select {
	case <-w.changed:
	case <-time.After(20 * time.Second):
		t.Fatal("nobody is told of what was saved before the watch began")
	}
	w.on(t.Context(), []string{file})
	select {
	case <-w.changed:
		t.Error("a file that did not change is told of")
	case <-time.After(10 * still):
	}
}
