// Package notices holds the licences of everything that is built into the command.
package notices

import _ "embed"

//go:generate go run generate.go

// Text is the notices, one after another, each under a line with its name.
//
//go:embed notices.txt
var Text string
