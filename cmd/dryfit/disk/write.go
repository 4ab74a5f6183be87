package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Write writes a file whole or not at all: beside it under another name, flushed, then put in
// its place. A link is followed, the permissions of a file that is there are kept, and what is
// no regular file (a pipe, a device) is written straight to. An input is refused.
func (f *Files) Write(name string, data []byte) error {
	if err := f.Writable(name); err != nil {
		return err
	}
	target, err := follow(name)
	if err != nil {
		return explain(name, "write", err)
	}
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return explain(name, "write", f.beside(target, 0, data, os.Rename))
	case err != nil:
		return explain(name, "write", err)
	case info.IsDir():
		return fmt.Errorf("%s is a folder; name a file", name)
	case !info.Mode().IsRegular():
		return explain(name, "write", straight(target, data))
	case info.Mode().Perm()&0o200 == 0:
		return explain(name, "write", fs.ErrPermission)
	}
	return explain(name, "write", f.beside(target, info.Mode().Perm(), data, os.Rename))
}

// Create writes a new file whole or not at all; one that is there is left alone, with an
// error that is fs.ErrExist.
func (f *Files) Create(name string, data []byte) error {
	if err := Absent(name); err != nil {
		return err
	}
	return explain(name, "write", f.beside(name, 0, data, place))
}

// Absent refuses a name at which there is something already.
func Absent(name string) error {
	if _, err := os.Lstat(name); err == nil {
		return explain(name, "write", fs.ErrExist)
	}
	return nil
}

// place gives a file its name unless the name is taken.
func place(fresh, name string) error {
	err := os.Link(fresh, name)
	if err == nil {
		return os.Remove(fresh)
	}
	if errors.Is(err, fs.ErrExist) {
		return err
	}
	// No links here: reserve the name, then put the file in its place.
	reserved, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	if err := errors.Join(reserved.Close(), os.Rename(fresh, name)); err != nil {
		return errors.Join(err, os.Remove(name))
	}
	return nil
}

// beside writes the data to a temporary file in the target's folder and lets put give it its
// name.
func (f *Files) beside(target string, mode fs.FileMode, data []byte, put func(from, to string) error) error {
	dir := filepath.Dir(target)
	sweep(dir)
	file, err := f.temporary(dir)
	if err != nil {
		return err
	}
	defer f.drop(file.Name())
	f.step.Lock()
	defer f.step.Unlock()
	if err := fill(file, mode, data); err != nil {
		return err
	}
	if err := put(file.Name(), target); err != nil {
		return err
	}
	syncFolder(dir)
	return nil
}

// fill writes and flushes a file and closes it. Who may read it is settled before anything is in it.
func fill(file *os.File, mode fs.FileMode, data []byte) error {
	var err error
	if info, bad := file.Stat(); mode != 0 && (bad != nil || info.Mode().Perm() != mode) {
		err = file.Chmod(mode)
	}
	if err == nil {
		_, err = file.Write(data)
	}
	if err == nil {
		err = file.Sync()
	}
	return errors.Join(err, file.Close())
}

// straight writes to what can't be replaced.
func straight(name string, data []byte) error {
	file, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	return errors.Join(err, file.Close())
}

// follow returns the file a name leads to by links, whether it is there or not.
func follow(name string) (string, error) {
	for range 40 { // as many as Linux follows
		to, err := os.Readlink(name)
		if err != nil {
			return name, nil //nolint:nilerr // no link
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(name), to)
		}
		name = to
	}
	return "", errors.New("the links lead in a circle")
}

// syncFolder flushes a folder's names. Where that can't be done, nothing better is left.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
