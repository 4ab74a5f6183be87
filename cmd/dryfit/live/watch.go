package live

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/fsnotify/fsnotify"
)

// How long a file must have been still before it is read, how long that is waited for at most,
// and how often files are looked at where nobody tells of a change (a network folder).
const (
	still   = 15 * time.Millisecond
	restive = 90 * time.Millisecond
	look    = 2 * time.Second
)

// watch tells of changes of files: once after each burst of them. It watches their folders,
// for editors put a new file in the old one's place; what a link leads to counts as well.
type watch struct {
	changed chan struct{} // holds one at most
	files   chan []string // what to watch from now on
}

func newWatch() *watch {
	return &watch{changed: make(chan struct{}, 1), files: make(chan []string)}
}

// on sets the files to be watched. It returns at once where the watch has ended.
func (w *watch) on(ctx context.Context, files []string) {
	select {
	case w.files <- files:
	case <-ctx.Done():
	}
}

// run watches until ctx is done. Where the system can't tell of changes it looks for them.
func (w *watch) run(ctx context.Context) {
	notify, err := fsnotify.NewWatcher()
	var events chan fsnotify.Event
	var errs chan error
	if err == nil {
		defer func() { _ = notify.Close() }()
		events, errs = notify.Events, notify.Errors
	}
	tick := time.NewTicker(look)
	defer tick.Stop()
	var files, folders []string
	var seen []stamp
	var pending, latest <-chan time.Time
	for {
		select {
		case <-ctx.Done():
			return
		case now := <-w.files:
			was := files
			files = withTargets(now)
			stood := seen
			seen = stamps(files)
			for i, f := range files {
				if k := slices.Index(was, f); k >= 0 {
					seen[i] = stood[k] // what it was before it was read: what was saved meanwhile is seen
				} else {
					pending = time.After(still) // it may have been saved after it was read: look once more
				}
			}
			if notify != nil {
				folders = follow(notify, folders, files)
			}
		case e := <-events:
			if e.Op == fsnotify.Chmod || !slices.ContainsFunc(files, func(f string) bool { return filepath.Base(f) == filepath.Base(e.Name) }) {
				continue
			}
			pending = time.After(still)
			if latest == nil {
				latest = time.After(restive)
			}
		case _, open := <-errs:
			if open { // events were lost: look
				pending = time.After(still)
			}
		case <-tick.C:
			if now := stamps(files); !slices.Equal(now, seen) {
				seen = now
				pending = time.After(still)
			}
		case <-pending:
			pending, latest = nil, nil
			w.tell(files, &seen)
		case <-latest:
			pending, latest = nil, nil
			w.tell(files, &seen)
		}
	}
}

// poke tells of a change that needs no watching for.
func (w *watch) poke() {
	select {
	case w.changed <- struct{}{}:
	default:
	}
}

func (w *watch) tell(files []string, seen *[]stamp) {
	*seen = stamps(files)
	w.poke() // whoever is told will read what is newest
}

// stamp is by what a change of a file is seen.
type stamp struct {
	size int64
	when time.Time
}

func stamps(files []string) []stamp {
	out := make([]stamp, len(files))
	for i, f := range files {
		if info, err := os.Stat(f); err == nil {
			out[i] = stamp{info.Size(), info.ModTime()}
		}
	}
	return out
}

// withTargets adds what links lead to.
func withTargets(files []string) []string {
	out := slices.Clone(files)
	for _, f := range files {
		if target, err := filepath.EvalSymlinks(f); err == nil && !slices.Contains(out, target) {
			out = append(out, target)
		}
	}
	return out
}

// follow watches the folders of the files, and no others any more.
func follow(notify *fsnotify.Watcher, was, files []string) []string {
	var now []string
	for _, f := range files {
		if dir := filepath.Dir(f); !slices.Contains(now, dir) {
			now = append(now, dir)
		}
	}
	for _, dir := range was {
		if !slices.Contains(now, dir) {
			_ = notify.Remove(dir) // it may be gone
		}
	}
	for _, dir := range now {
		if !slices.Contains(was, dir) {
			_ = notify.Add(dir) // what can't be watched is looked at
		}
	}
	return now
}
