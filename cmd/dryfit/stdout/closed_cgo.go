//go:build cgo && unix

package stdout

/*
#include <fcntl.h>

static int closed;

// The loader calls a constructor before Go's runtime starts.
__attribute__((constructor)) static void look(void) { closed = fcntl(1, F_GETFD) == -1; }

static int wasClosed(void) { return closed; }
*/
import "C"

// Closed reports whether standard output was closed when the process started.
func Closed() bool { return C.wasClosed() != 0 }

// SeesClosed says whether this build can tell.
const SeesClosed = true
