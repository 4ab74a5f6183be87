package disk

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// Read reads a file of at most most bytes; "-" is standard input. It reads no more than that
// of what has no length, a pipe or a device, either. The file counts as an input from then on.
func (f *Files) Read(name string, most int64) ([]byte, error) {
	if name == "-" {
		return f.readStdin(most)
	}
	data, info, err := whole(name, most)
	if info != nil {
		f.inputs = append(f.inputs, input{name, info})
	}
	return data, err
}

// Peek reads a file that does not count as an input: what is written next may take its place.
func Peek(name string, most int64) ([]byte, error) {
	data, _, err := whole(name, most)
	return data, err
}

// whole reads a file; info is nil where it is none that can be read.
func whole(name string, most int64) ([]byte, os.FileInfo, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, nil, explain(name, "read", err)
	}
	defer func() { _ = file.Close() }()
	info, err := file.Stat()
	switch {
	case err != nil:
		return nil, nil, explain(name, "read", err)
	case info.IsDir():
		return nil, nil, fmt.Errorf("%s is a folder; a description is a file like job.toml", name)
	case info.Mode().IsRegular() && info.Size() > most:
		return nil, nil, fmt.Errorf("%s is %d bytes long; at most %d are read", name, info.Size(), most)
	}
	data, err := capped(name, file, most)
	return data, info, err
}

func (f *Files) readStdin(most int64) ([]byte, error) {
	if f.piped {
		return nil, errors.New("standard input can be read only once: give one of the files by its name")
	}
	f.piped = true
	if f.Stdin == nil {
		return nil, nil
	}
	return capped("standard input", f.Stdin, most)
}

func capped(name string, from io.Reader, most int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(from, most+1))
	switch {
	case err != nil:
		return nil, explain(name, "read", err)
	case int64(len(data)) > most:
		return nil, fmt.Errorf("%s is longer than %d bytes, the most that is read", name, most)
	}
	return data, nil
}

// Writable refuses an output that is one of the inputs, by whatever name or link. What is no
// regular file (a pipe, a device) loses nothing by it.
func (f *Files) Writable(name string) error {
	info, err := os.Stat(name) // what is not there can't be lost; writing says what else is wrong
	for _, in := range f.inputs {
		if err == nil && in.info.Mode().IsRegular() && os.SameFile(in.info, info) {
			return fmt.Errorf("%s is %s: write to another file", name, same(name, in.name))
		}
	}
	return nil
}

func same(name, input string) string {
	if strings.TrimPrefix(name, "./") == strings.TrimPrefix(input, "./") {
		return "an input"
	}
	return "the same file as " + input + ", an input"
}

// OneFile reports whether two names are those of one file, by whatever path or link. Of names that
// only differ in case nobody can say so before both are there: they count as one.
func OneFile(a, b string) bool {
	x, y := placeOf(a), placeOf(b)
	one, errX := os.Stat(x)
	other, errY := os.Stat(y)
	if errX == nil && errY == nil {
		return os.SameFile(one, other)
	}
	return strings.EqualFold(x, y)
}

// placeOf is the whole path of a file, links followed, whether it is there or not.
func placeOf(name string) string {
	if to, err := follow(name); err == nil {
		name = to
	}
	dir, base := filepath.Split(filepath.Clean(name))
	if whole, err := filepath.Abs(dir); err == nil {
		dir = whole
	}
	if target, err := filepath.EvalSymlinks(dir); err == nil {
		dir = target
	}
	return filepath.Join(dir, base)
}
