package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Replaceable refuses a folder that can't be written whole without something of the user's
// being lost: one that dryfit did not write, that holds a file it did not write, or one that
// has been changed since (unless force is set); a link, a file, the folder the command stands
// in, or one that holds an input. A folder that is not there, or empty, is fine.
func (f *Files) Replaceable(dir string, force bool) error {
	_, err := f.replaceable(filepath.Clean(dir), force) // a "/" at the end would follow a link
	return err
}

// replaceable returns also the names of the files in the folder.
func (f *Files) replaceable(dir string, force bool) ([]string, error) {
	info, err := os.Lstat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, explain(dir, "read", err)
	case info.Mode()&os.ModeSymlink != 0:
		return nil, fmt.Errorf("%s is a link; name the folder itself", dir)
	case !info.IsDir():
		return nil, fmt.Errorf("%s is a file, and a pack is a folder: name another", dir)
	}
	if here, err := os.Stat("."); err == nil && os.SameFile(here, info) {
		return nil, fmt.Errorf("%s is the folder you stand in, and a pack takes its folder's place: name a folder in it", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, explain(dir, "read", err)
	}
	if len(entries) == 0 {
		return nil, nil
	}
	manifest, err := os.ReadFile(filepath.Join(dir, Manifest))
	sums, ok := listed(manifest)
	if err != nil || !ok {
		return nil, fmt.Errorf("%s is there and dryfit did not write it: name another folder", dir)
	}
	names := []string{Manifest}
	for _, e := range entries {
		if e.Name() == Manifest {
			continue
		}
		if err := f.ours(dir, e, sums, force); err != nil {
			return nil, err
		}
		names = append(names, e.Name())
	}
	return names, nil
}

// ours looks at one entry of a folder that dryfit wrote.
func (f *Files) ours(dir string, e fs.DirEntry, sums map[string]string, force bool) error {
	path := filepath.Join(dir, e.Name())
	sum, listed := sums[e.Name()]
	if !listed || !e.Type().IsRegular() {
		return fmt.Errorf("%s holds %q, which dryfit did not write: move it out, or name another folder", dir, e.Name())
	}
	if err := f.Writable(path); err != nil {
		return err
	}
	if force {
		return nil
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return explain(path, "read", err)
	}
	if sumOf(data) != sum {
		return fmt.Errorf("%s has been changed since dryfit wrote it: move it out, name another folder, or let --force overwrite it", path)
	}
	return nil
}

// WriteFolder writes a folder of these files whole or not at all: beside dir under another
// name, flushed, then put in its place in one step. What Replaceable refuses is refused.
func (f *Files) WriteFolder(dir string, files []File, force bool) error {
	dir = filepath.Clean(dir)
	if _, err := f.replaceable(dir, force); err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	defer f.unmakeEmpty()
	if err := f.makeAll(parent); err != nil {
		return explain(dir, "write", err)
	}
	sweep(parent)
	if err := f.putBack(dir); err != nil {
		return err
	}
	fresh, done, err := f.temporaryFolder(parent)
	if err != nil {
		return explain(dir, "write", err)
	}
	defer done()
	all := append(slices.Clone(files), File{Name: Manifest, Data: manifestOf(files)})
	for _, one := range all {
		if err := f.fillOne(filepath.Join(fresh, one.Name), one.Data); err != nil {
			return explain(dir, "write", err)
		}
	}
	if err := f.flush(fresh, all); err != nil {
		return explain(dir, "write", err)
	}
	return f.swap(fresh, dir, force)
}

func (f *Files) fillOne(name string, data []byte) error {
	f.step.Lock()
	defer f.step.Unlock()
	return os.WriteFile(name, data, 0o666)
}

// flush flushes the files, once all are written: most of that is then done in one go.
func (f *Files) flush(folder string, files []File) error {
	f.step.Lock()
	defer f.step.Unlock()
	for _, one := range files {
		file, err := os.OpenFile(filepath.Join(folder, one.Name), os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		if err := errors.Join(file.Sync(), file.Close()); err != nil {
			return err
		}
	}
	syncFolder(folder)
	return nil
}

// makeAll makes a folder and those above it.
func (f *Files) makeAll(dir string) error {
	f.step.Lock()
	defer f.step.Unlock()
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Lstat(d); err == nil || d == filepath.Dir(d) {
			break
		}
		f.made = append(f.made, d)
	}
	return os.MkdirAll(dir, 0o777)
}

func (f *Files) unmakeEmpty() {
	f.step.Lock()
	defer f.step.Unlock()
	f.unmake()
}
