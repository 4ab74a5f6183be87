//go:build !unix

package layoutcache

// Where owners and modes can't be told the way Unix tells them there is no cache: the
// library compiles anew at each start.

var tempVariables = []string{"TMPDIR", "TMP", "TEMP"}

// nowhere is a device: no folder can be made in it.
const nowhere = `NUL:\`

func userName() string { return "user" }

func own(string) owner { return foreign }

func safeAbove(string) bool { return false }
