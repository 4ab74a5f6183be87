package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// temporaryPrefix begins the names of our temporary files and folders; a number follows.
const temporaryPrefix = ".dryfit-new-"

// mostTries bounds the search for a free temporary name.
const mostTries = 10000

// temporary makes a file in dir under a name nobody uses, and holds a lock on it for as long
// as it is open, so that another command does not take it for left over.
func (f *Files) temporary(dir string) (*os.File, error) {
	f.step.Lock()
	defer f.step.Unlock()
	for i := range mostTries {
		name := temporaryName(dir, i)
		file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		switch {
		case errors.Is(err, fs.ErrExist):
			continue
		case err != nil:
			return nil, err
		}
		if !held(file) { // swept away before it was locked
			_ = file.Close()
			continue
		}
		f.litter = append(f.litter, name)
		return file, nil
	}
	return nil, fs.ErrExist
}

// temporaryFolder is temporary for a folder. done takes it away, if it is there still, and
// ends the lock.
func (f *Files) temporaryFolder(dir string) (name string, done func(), err error) {
	f.step.Lock()
	defer f.step.Unlock()
	for i := range mostTries {
		name := temporaryName(dir, i)
		err := os.Mkdir(name, 0o777)
		switch {
		case errors.Is(err, fs.ErrExist):
			continue
		case err != nil:
			return "", nil, err
		}
		file, err := os.Open(name)
		if err != nil {
			return "", nil, errors.Join(err, os.Remove(name))
		}
		if !held(file) {
			_ = file.Close()
			continue
		}
		if !locks { // an open folder can't be renamed
			_ = file.Close()
		}
		f.litter = append(f.litter, name)
		return name, func() { f.drop(name); _ = file.Close() }, nil
	}
	return "", nil, fs.ErrExist
}

func temporaryName(dir string, i int) string {
	return filepath.Join(dir, temporaryPrefix+strconv.Itoa(i+1))
}

// held locks an open file and reports whether it still has its name.
func held(file *os.File) bool {
	lock(file, true)
	opened, err := file.Stat()
	if err != nil {
		return false
	}
	named, err := os.Lstat(file.Name())
	return err == nil && os.SameFile(opened, named)
}

// sweep takes away what killed commands left in a folder: what has such a name, is no link,
// and is locked by nobody.
func sweep(dir string) {
	d, err := os.Open(dir)
	if err != nil {
		return
	}
	names, _ := d.Readdirnames(-1)
	_ = d.Close()
	for _, name := range names {
		number, ok := strings.CutPrefix(name, temporaryPrefix)
		if _, err := strconv.ParseUint(number, 10, 32); ok && err == nil {
			sweepOne(filepath.Join(dir, name))
		}
	}
}

func sweepOne(name string) {
	info, err := os.Lstat(name)
	if err != nil || !info.IsDir() && !info.Mode().IsRegular() {
		return
	}
	file, err := os.Open(name)
	if err != nil {
		return
	}
	defer func() { _ = file.Close() }()
	if lock(file, false) && held(file) {
		_ = os.RemoveAll(name) // if it can't be, it lies there still
	}
}
