//go:build unix && !solaris && !aix

package disk

import (
	"os"

	"golang.org/x/sys/unix"
)

// locks says whether an open folder can be locked, and renamed all the same.
const locks = true

// lock takes the lock of an open file or folder, which ends with it, and reports whether it
// was had.
func lock(file *os.File, wait bool) bool {
	how := unix.LOCK_EX
	if !wait {
		how |= unix.LOCK_NB
	}
	return unix.Flock(int(file.Fd()), how) == nil
}
