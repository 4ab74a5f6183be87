package layoutcache

// owner is whose a directory is.
type owner int

const (
	missing owner = iota // nothing is there
	ours                 // a real directory of this user's that nobody else can enter
	loose                // a real directory of this user's that others can enter
	foreign              // another's, or no directory: a link, a file
)
