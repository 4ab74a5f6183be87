//go:build !cgo || !unix

package stdout

// Closed reports whether standard output was closed when the process started; here nobody
// can know.
func Closed() bool { return false }

// SeesClosed says whether this build can tell.
const SeesClosed = false
