package disk

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// ReadWithin reads a file of at most most bytes that lies in a folder or below it, by its path
// from there with slashes; a link that leads out of the folder is not followed. The file counts
// as an input from then on.
func (f *Files) ReadWithin(dir, name string, most int64) ([]byte, error) {
	data, info, err := within(dir, name, most)
	if info != nil {
		f.inputs = append(f.inputs, input{filepath.Join(dir, name), info})
	}
	return data, err
}

// PeekWithin reads as ReadWithin does a file that does not count as an input.
func PeekWithin(dir, name string, most int64) ([]byte, error) {
	data, _, err := within(dir, name, most)
	return data, err
}

func within(dir, name string, most int64) ([]byte, os.FileInfo, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, explain(dir, "read", err)
	}
	defer func() { _ = root.Close() }()
	shown, local := filepath.Join(dir, filepath.FromSlash(name)), filepath.FromSlash(name)
	info, err := root.Stat(local) // opening a pipe would wait for whoever writes to it
	switch {
	case err != nil:
		if _, out := os.Stat(shown); out == nil {
			return nil, nil, errors.New(shown + " is a link that leads out of its folder")
		}
		return nil, nil, explain(shown, "read", err)
	case info.IsDir():
		return nil, nil, fmt.Errorf("%s is a folder", shown)
	case !info.Mode().IsRegular():
		return nil, nil, errors.New(shown + " is no ordinary file")
	case info.Size() > most:
		return nil, nil, fmt.Errorf("%s is %d bytes long; at most %d are read", shown, info.Size(), most)
	}
	file, err := root.Open(local)
	if err != nil {
		return nil, nil, explain(shown, "read", err)
	}
	defer func() { _ = file.Close() }()
	data, err := capped(shown, file, most)
	return data, info, err
}
