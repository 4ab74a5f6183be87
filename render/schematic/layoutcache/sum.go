package layoutcache

import (
	"hash/crc32"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// sumSuffix names the file beside a cache file that holds its length and checksum.
const sumSuffix = ".sum"

// probeBytes is more than one cache file of the library takes (6 MB on amd64).
const probeBytes = 12 << 20

// verify removes from the folder what has no right sum beside it, and reports whether a
// good file is left. The sum guards against damage, not against malice: who can write in
// the folder is the user.
func verify(folder string) bool {
	good := false
	sums := map[string]bool{}
	_ = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == folder {
			return nil
		}
		switch {
		case d.IsDir():
			if own(path) == foreign {
				os.Remove(path)
				return filepath.SkipDir
			}
		case !d.Type().IsRegular():
			os.Remove(path)
		case strings.HasSuffix(path, sumSuffix):
			sums[path] = true
		case strings.HasSuffix(path, ".tmp"): // another program may be writing it
		default:
			want, err := os.ReadFile(path + sumSuffix)
			got, ok := sum(path)
			if err != nil || !ok || string(want) != got {
				os.Remove(path)
				return nil
			}
			good = true
		}
		return nil
	})
	for path := range sums {
		if _, err := os.Lstat(strings.TrimSuffix(path, sumSuffix)); err != nil {
			os.Remove(path)
		}
	}
	// What could not be removed would be believed by the library.
	if left := unsigned(folder); left > 0 {
		return false
	}
	return good
}

// unsigned counts the files that have no right sum.
func unsigned(folder string) int {
	n := 0
	each(folder, func(path string) {
		if _, err := os.Lstat(path + sumSuffix); err != nil {
			n++
		}
	})
	return n
}

// each calls f with every cache file of the folder.
func each(folder string, f func(path string)) {
	_ = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() && !strings.HasSuffix(path, sumSuffix) && !strings.HasSuffix(path, ".tmp") {
			f(path)
		}
		return nil
	})
}

// sum returns a file's length and CRC-32C as text.
func sum(path string) (string, bool) {
	data, err := os.ReadFile(path)
	if err != nil || len(data) == 0 {
		return "", false
	}
	c := crc32.Checksum(data, crc32.MakeTable(crc32.Castagnoli))
	return strconv.Itoa(len(data)) + " " + strconv.FormatUint(uint64(c), 16) + "\n", true
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
			os.Remove(tmp)
		}
	})
}

// roomFor reports whether a cache file can be written in the folder and in the folders of
// it, by writing as much.
func roomFor(folder string) bool {
	if unsigned(folder) > 0 {
		return false
	}
	ok := true
	_ = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			ok = false
			return nil
		}
		if d.IsDir() {
			size := 1
			if path == folder {
				size = probeBytes
			}
			ok = ok && canWrite(path, size)
		}
		return nil
	})
	return ok
}

// canWrite reports whether a file of the size can be written in the directory.
func canWrite(dir string, size int) bool {
	f, err := os.CreateTemp(dir, "probe-*.tmp")
	if err != nil {
		return false
	}
	defer os.Remove(f.Name())
	defer f.Close()
	block := make([]byte, min(size, 1<<20))
	for n := 0; n < size; n += len(block) {
		if _, err := f.Write(block); err != nil {
			return false
		}
	}
	return true
}
