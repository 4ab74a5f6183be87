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

// probeBytes is more than one cache file of the library takes (6 MB on amd64).
const probeBytes = 12 << 20

// verify removes from the folder what has no right sum beside it, and reports whether good
// files and nothing else are left: the library would believe a bad one that can't be
// removed. The sum guards against damage, not against malice: who can write in the folder
// is the user. Every file is read once; this runs at every start.
func verify(folder string) bool {
	good, bad := false, false
	var sums []string
	walk(folder, func(path string, d os.DirEntry) bool {
		switch {
		case d.IsDir():
			return own(path) != foreign
		case strings.HasSuffix(path, sumSuffix) && d.Type().IsRegular():
			sums = append(sums, path)
		case strings.HasSuffix(path, ".tmp") && d.Type().IsRegular(): // another program may be writing it
		case d.Type().IsRegular() && right(path):
			good = true
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
	return good && !bad
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

// unsigned counts the files without a right sum: the library would believe them.
func unsigned(folder string) int {
	n := 0
	each(folder, func(path string) {
		if !right(path) {
			n++
		}
	})
	return n
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

// sign writes the sums that are missing.
func sign(folder string) {
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

// roomFor reports whether a cache file can be written in the folder and in the folders of
// it, by writing as much.
func roomFor(folder string) bool {
	if unsigned(folder) > 0 {
		return false
	}
	ok := canWrite(folder, probeBytes)
	walk(folder, func(path string, d os.DirEntry) bool {
		if d.IsDir() {
			ok = ok && canWrite(path, 1)
		}
		return true
	})
	return ok
}

// canWrite reports whether a file of the size can be written in the directory.
func canWrite(dir string, size int) bool {
	f, err := os.CreateTemp(dir, "probe-*.tmp")
	if err != nil {
		return false
	}
	defer func() {
		_ = f.Close()
		_ = os.Remove(f.Name())
	}()
	block := make([]byte, min(size, 1<<20))
	for n := 0; n < size; n += len(block) {
		if _, err := f.Write(block); err != nil {
			return false
		}
	}
	return true
}
