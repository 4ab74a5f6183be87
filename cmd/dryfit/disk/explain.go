package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// explain says in plain words why a file can't be read or written. doing is "read" or
// "write".
func explain(name, doing string, err error) error {
	if err == nil {
		return nil
	}
	dir := filepath.Dir(name)
	_, lost := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist) && lost != nil:
		return fmt.Errorf("there is no folder %s", dir)
	case errors.Is(err, fs.ErrNotExist) && name == "":
		return errors.New("the file has no name: it is empty, as a variable of the shell leaves it that was never set")
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file %s", name)
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s is there already and is left alone; name another file", name)
	case doing == "read" && errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be read by you", name)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return fmt.Errorf("%s can't be written: the folder %s or what is there may not be changed by you", name, dir)
	case errors.Is(err, syscall.ENOSPC):
		return fmt.Errorf("%s can't be written: the disk is full; what was there stays as it was", name)
	}
	var path *fs.PathError
	var link *os.LinkError
	switch { // without the temporary name
	case errors.As(err, &path):
		err = path.Err
	case errors.As(err, &link):
		err = link.Err
	}
	return fmt.Errorf("%s can't be %s: %w", name, map[string]string{"read": "read", "write": "written"}[doing], err)
}
