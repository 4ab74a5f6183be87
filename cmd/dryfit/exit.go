package main

// The exit codes.
const (
	exitDone     = 0
	exitFindings = 1
	exitUse      = 2
	exitSignal   = 128 // and the signal's number
)
