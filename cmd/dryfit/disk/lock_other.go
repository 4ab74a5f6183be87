//go:build !unix || solaris || aix

package disk

import "os"

// locks says whether an open folder can be locked, and renamed all the same.
const locks = false

// lock has no way here to tell whether another command is at work: what is left over stays.
func lock(_ *os.File, wait bool) bool { return wait }
