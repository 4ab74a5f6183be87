package disk

import "golang.org/x/sys/unix"

// exchange swaps two names in one step.
func exchange(a, b string) error { return unix.RenamexNp(a, b, unix.RENAME_SWAP) }
