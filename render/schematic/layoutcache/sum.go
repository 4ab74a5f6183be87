package layoutcache

import (
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// sumSuffix names the file beside a cache file that holds its length and checksum.
const sumSuffix = ".sum"

// verify removes from the folder what has no right sum beside it, and reports whether nothing
// else is left: a bad one that can't be removed would be believed. The sum guards against
// damage, not against malice: who can write in the folder is the user. Every file is read once.
func verify(folder string) bool {
	bad := false
	var sums []string
	walk(folder, func(path string, d os.DirEntry) bool {
		switch {
		case d.IsDir():
			return own(path) != foreign
		case strings.HasSuffix(path, sumSuffix) && d.Type().IsRegular():
			sums = append(sums, path)
		case strings.HasSuffix(path, ".tmp") && d.Type().IsRegular(): // another program may be writing it
		case d.Type().IsRegular() && right(path):
		default:
			bad = os.Remove(path) != nil || bad
		}
		return true
	})
	for _, path := range sums {
		if _, err := os.Lstat(strings.TrimSuffix(path, sumSuffix)); err != nil {
			_ = os.Remove(path)
		}
	}
	return !bad
}

// right reports whether a file agrees with the sum beside it.
func right(path string) bool {
	want, err := os.ReadFile(path + sumSuffix)
	got, ok := sum(path)
	return err == nil && ok && string(want) == got
}

// walk calls f with everything in the folder and, where f says so, in its folders. What
// can't be read is passed over.
func walk(folder string, f func(path string, d os.DirEntry) bool) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, d := range entries {
		path := filepath.Join(folder, d.Name())
		if f(path, d) && d.IsDir() {
			walk(path, f)
		}
	}
}

// each calls f with every cache file of the folder.
func each(folder string, f func(path string)) {
	walk(folder, func(path string, d os.DirEntry) bool {
		if d.Type().IsRegular() && !strings.HasSuffix(path, sumSuffix) && !strings.HasSuffix(path, ".tmp") {
			f(path)
		}
		return true
	})
}

// sum returns a file's length and CRC-32C as text.
func sum(path string) (string, bool) {
	f, err := os.Open(path)
	if err != nil {
		return "", false
	}
	defer func() { _ = f.Close() }()
	var (
		table  = crc32.MakeTable(crc32.Castagnoli)
		block  = make([]byte, 256<<10)
		length int
		c      uint32
	)
	for {
		n, err := f.Read(block)
		length += n
		c = crc32.Update(c, table, block[:n])
		if err == io.EOF {
			break
		}
		if err != nil {
			return "", false
		}
	}
	return strconv.Itoa(length) + " " + strconv.FormatUint(uint64(c), 16) + "\n", length > 0
}

// Sign writes the sums that are missing.
func Sign(folder string) {
	each(folder, func(path string) {
		if _, err := os.Lstat(path + sumSuffix); err == nil {
			return
		}
		s, ok := sum(path)
		if !ok {
			return
		}
		tmp := path + sumSuffix + "." + strconv.Itoa(os.Getpid()) + ".tmp"
		if os.WriteFile(tmp, []byte(s), 0o600) != nil || os.Rename(tmp, path+sumSuffix) != nil {
			_ = os.Remove(tmp)
		}
	})
}
