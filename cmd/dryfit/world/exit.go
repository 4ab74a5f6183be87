package world

// The exit codes.
const (
	Done     = 0
	Findings = 1
	WrongUse = 2
	Signal   = 128 // and the signal's number
)
