//go:build unix

package layoutcache

import (
	"os"
	"path/filepath"
	"strconv"
	"syscall"
)

func userName() string { return strconv.Itoa(os.Geteuid()) }

// own says whose the directory is, without following a link.
func own(dir string) owner {
	fi, err := os.Lstat(dir)
	if err != nil {
		if os.IsNotExist(err) {
			return missing
		}
		return foreign
	}
	st, ok := fi.Sys().(*syscall.Stat_t)
	if !ok || !fi.IsDir() || int64(st.Uid) != int64(os.Geteuid()) {
		return foreign
	}
	if fi.Mode().Perm()&0o077 != 0 || fi.Mode().Perm()&0o700 != 0o700 {
		return loose
	}
	return ours
}

// safeAbove reports whether nobody but root and the user can rename what lies in the
// directory or in any one above it. A directory that others may write in is safe where it
// is sticky, as the shared temporary one is.
func safeAbove(dir string) bool {
	for {
		fi, err := os.Lstat(dir)
		if err != nil || !fi.IsDir() {
			return false
		}
		st, ok := fi.Sys().(*syscall.Stat_t)
		if !ok || (st.Uid != 0 && int64(st.Uid) != int64(os.Geteuid())) {
			return false
		}
		if fi.Mode().Perm()&0o022 != 0 && fi.Mode()&os.ModeSticky == 0 {
			return false
		}
		up := filepath.Dir(dir)
		if up == dir {
			return true
		}
		dir = up
	}
}
