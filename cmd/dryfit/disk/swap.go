package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// asidePrefix begins the name an older folder has while a new one takes its place, where the
// two can't be exchanged in one step; the folder's own name follows.
const asidePrefix = ".dryfit-old-"

func asideOf(dir string) string {
	return filepath.Join(filepath.Dir(dir), asidePrefix+filepath.Base(dir))
}

// putBack looks for the older folder that a command killed between two renames left aside:
// it is put back, or taken away where the new one got its place. One that was changed is
// named.
func (f *Files) putBack(dir string) error {
	f.step.Lock()
	defer f.step.Unlock()
	aside := asideOf(dir)
	file, err := os.Open(aside)
	if err != nil {
		return nil //nolint:nilerr // nothing was left aside
	}
	free := !locks || lock(file, false)
	_ = file.Close()
	if !free { // another command is at it
		return nil
	}
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return explain(dir, "write", os.Rename(aside, dir))
	}
	names, err := f.replaceable(aside, false)
	if err != nil {
		return fmt.Errorf("an older pack was left in %s and is not as dryfit wrote it: look at it and move it away", aside)
	}
	return discard(aside, names)
}

// swap puts fresh in the place of dir and takes away what was there. Nothing is done if it
// has been changed meanwhile.
func (f *Files) swap(fresh, dir string, force bool) error {
	f.step.Lock()
	defer f.step.Unlock()
	old, err := f.replaceable(dir, force)
	if err != nil {
		return err
	}
	defer syncFolder(filepath.Dir(dir))
	info, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return explain(dir, "write", os.Rename(fresh, dir))
	}
	if err != nil {
		return explain(dir, "write", err)
	}
	if err := os.Chmod(fresh, info.Mode().Perm()); err != nil {
		return explain(dir, "write", err)
	}
	if exchange(fresh, dir) == nil {
		if err := discard(fresh, old); err != nil {
			f.forget(fresh)
			return keepAside(fresh, dir, err)
		}
		return nil
	}
	return twoSteps(fresh, dir, old)
}

// keepAside names an old folder that could not be taken away whole, so that nothing sweeps it.
func keepAside(old, dir string, why error) error {
	aside := asideOf(dir)
	if err := os.Rename(old, aside); err != nil {
		aside = old
	}
	return fmt.Errorf("the new pack is in its place; what was left of the old one is in %s: %w", aside, why)
}

// twoSteps is swap where names can't be exchanged.
func twoSteps(fresh, dir string, old []string) error {
	aside := asideOf(dir)
	if locks {
		if file, err := os.Open(dir); err == nil {
			lock(file, true)
			defer func() { _ = file.Close() }()
		}
	}
	if err := os.Rename(dir, aside); err != nil {
		return explain(dir, "write", err)
	}
	if err := os.Rename(fresh, dir); err != nil {
		if back := os.Rename(aside, dir); back != nil {
			return fmt.Errorf("%w; the pack that was there is now %s", explain(dir, "write", err), aside)
		}
		return explain(dir, "write", err)
	}
	if err := discard(aside, old); err != nil {
		return keepAside(aside, dir, err)
	}
	return nil
}

// discard removes the files of an older folder and the folder; it fails where something came
// into it meanwhile, which stays.
func discard(dir string, names []string) error {
	for _, name := range names {
		if err := os.Remove(filepath.Join(dir, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return explain(filepath.Join(dir, name), "write", err)
		}
	}
	return explain(dir, "write", os.Remove(dir))
}
