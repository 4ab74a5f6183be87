package disk

import (
	"io"
	"os"
	"slices"
	"sync"
)

// Files is what one command does with files. Its zero value is ready to use.
type Files struct {
	Stdin io.Reader // what "-" reads; nil is an empty one

	step   sync.Mutex // held through each step that changes the disk
	inputs []input    // what was read
	litter []string   // temporary files and folders of ours
	made   []string   // folders made for them, deepest first
	piped  bool       // standard input has been read
}

// input is a file that was read, as it was then.
type input struct {
	name string
	info os.FileInfo
}

// Stop takes temporary files away and lets no step begin any more; it is for a command that
// is about to be ended by a signal. A step under way is waited for: it is short.
func (f *Files) Stop() {
	f.step.Lock()
	for _, name := range f.litter {
		_ = os.RemoveAll(name) // the next command tries again
	}
	f.unmake()
}

// drop takes a temporary file or folder away, if it is there still.
func (f *Files) drop(name string) {
	f.step.Lock()
	defer f.step.Unlock()
	_ = os.RemoveAll(name) // the next command tries again
	f.forget(name)
}

// unmake removes the folders that were made, unless something is in them.
func (f *Files) unmake() {
	for _, dir := range f.made {
		_ = os.Remove(dir)
	}
	f.made = nil
}

func (f *Files) forget(name string) {
	f.litter = slices.DeleteFunc(f.litter, func(s string) bool { return s == name })
}
